// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/hit.hpp"

#include "ui/editor/document.hpp"
#include "ui/timeline/lane_painter.hpp"
#include "ui/timeline/strikes.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr double edge_px = 5.0;             ///< grasped inside a body
constexpr double grasp_px = 7.0;            ///< to both sides of a strike
constexpr double least_zoom_px = 50.0;      ///< of that; below it handles are too close to be told apart
constexpr Micros longest_lead{10'000'000};  ///< beyond it a strike's handle cannot be grasped
constexpr double handle_inset_px = 7.0;     ///< of a fade's handle from the edges of its clip
constexpr double outside_px = 3.0;          ///< and outside

struct Extent {
    double left = 0.0;
    double right = 0.0;
};

Hit::Part part_at(const Extent& extent, double x) {
    const double width = extent.right - extent.left;
    const double inside = std::min(edge_px, width / 4);
    if (x < extent.left - outside_px || x > extent.right + outside_px) {
        return Hit::Part::nothing;
    }
    if (x >= extent.right - inside) {
        return Hit::Part::end_edge;
    }
    return x <= extent.left + inside ? Hit::Part::start_edge : Hit::Part::body;
}

void hit_cue(const Scene& scene, double x, Hit& found) {
    const ViewTransform& view = scene.view();
    const Selection& selection = scene.document().selection();
    int best = -1;
    const auto offer = [&](const PlacedCue& cue) {
        const Extent extent{view.x_of(cue.begin), view.x_of(cue.end)};
        const Hit::Part part = part_at(extent, x);
        if (part == Hit::Part::nothing) {
            return;
        }
        const bool over = x >= extent.left && x < std::max(extent.right, extent.left + 1);
        const int rank = (over ? 2 : 0) + (selection.has(cue.id) ? 1 : 0);
        if (rank >= best) {
            best = rank;
            found.part = part;
            found.cue = cue.id;
        }
    };
    scene.cues()
        .of(found.lane->channel)
        .overlapping(view.time_at(x - outside_px), view.time_at(x + outside_px), offer);
}

bool near(QPointF handle, QPointF point) {
    return std::abs(handle.x() - point.x()) <= grasp_px && std::abs(handle.y() - point.y()) <= grasp_px;
}

void hit_fades(const Scene& scene, QPointF point, Hit& found) {
    const Document& document = scene.document();
    const SoundClip* clip =
        document.selection().clip ? find(document.sequence(), *document.selection().clip) : nullptr;
    if (clip == nullptr || !found.lane->holds(*clip)) {
        return;
    }
    const FadeHandles handles = fade_handles(scene, *clip);
    if (near(handles.in, point)) {
        found.part = Hit::Part::fade_in;
    } else if (near(handles.out, point)) {
        found.part = Hit::Part::fade_out;
    } else {
        return;
    }
    found.clip = clip->id;
}

void hit_clip(const Scene& scene, double x, Hit& found) {
    const ViewTransform& view = scene.view();
    for (const SoundClip& clip : scene.document().sequence().clips) {
        if (!found.lane->holds(clip)) {
            continue;
        }
        const Extent extent{view.x_of(clip.start), view.x_of(clip.start + clip.length)};
        const Hit::Part part = part_at(extent, x);
        if (part != Hit::Part::nothing) {
            found.part = part;
            found.clip = clip.id;
        }
    }
}

/// The handle of a strike under the point; of several the one that lies nearest.
void hit_handle(const Scene& scene, QPointF point, Hit& found) {
    const ViewTransform& view = scene.view();
    if (view.px_of(longest_lead) < least_zoom_px) {
        return;
    }
    double nearest = grasp_px;
    const auto offer = [&](const PlacedCue& cue) {
        const QRectF handle = handle_of(scene, cue.id);
        const double apart = std::abs(handle.center().x() - point.x());
        if (!handle.isEmpty() && point.y() >= handle.top() - 2 && point.y() <= handle.bottom() &&
            apart <= nearest) {
            nearest = apart;
            found.part = Hit::Part::strike;
            found.cue = cue.id;
        }
    };
    scene.cues()
        .of(found.lane->channel)
        .overlapping(view.time_at(point.x()) - longest_lead, view.time_at(point.x()), offer);
}

bool over_cue_band(const Scene& scene, const Lane& lane, double y) {
    const LaneBands bands = bands_of(lane.height);
    const double inside = y - scene.top_of(lane);
    return inside >= bands.cue_top - 2 && inside < bands.cue_bottom + 2;
}

}  // namespace

Hit hit(const Scene& scene, QPointF point) {
    Hit found;
    found.lane = scene.lane_at(point.y());
    if (found.lane == nullptr) {
        return found;
    }
    if (found.lane->kind == Lane::Kind::channel && over_cue_band(scene, *found.lane, point.y())) {
        if (found.lane->channel_kind == ChannelKind::valve) {
            hit_handle(scene, point, found);
        }
        if (!found.cue) {
            hit_cue(scene, point.x(), found);
        }
    } else if (found.lane->kind == Lane::Kind::sound) {
        hit_fades(scene, point, found);
        if (!found.clip) {
            hit_clip(scene, point.x(), found);
        }
    }
    return found;
}

std::vector<CueId> cues_in(const Scene& scene, const QRectF& rect) {
    std::vector<CueId> ids;
    const ViewTransform& view = scene.view();
    for (const Lane& lane : scene.lanes().lanes()) {
        const double top = scene.top_of(lane);
        const double bottom = std::min<double>(rect.bottom(), scene.scrolling_px());
        if (lane.kind != Lane::Kind::channel || top > bottom || top + lane.height < rect.top()) {
            continue;
        }
        scene.cues()
            .of(lane.channel)
            .overlapping(view.time_at(rect.left()), view.time_at(rect.right()),
                         [&ids](const PlacedCue& cue) { ids.push_back(cue.id); });
    }
    std::sort(ids.begin(), ids.end());
    return ids;
}

QRectF box_of(const Scene& scene, CueId id) {
    const Cue* cue = find(scene.document().sequence(), id);
    const PlacedCue* placed = scene.cues().find(id);
    const Lane* lane = cue != nullptr ? scene.lanes().of(cue->channel) : nullptr;
    if (placed == nullptr || lane == nullptr) {
        return {};
    }
    const LaneBands bands = bands_of(lane->height);
    const double left = scene.view().x_of(placed->begin);
    const double right = scene.view().x_of(placed->end);
    return {left, static_cast<double>(scene.top_of(*lane) + bands.cue_top), right - left,
            static_cast<double>(bands.cue_bottom - bands.cue_top)};
}

QRectF box_of(const Scene& scene, const SoundClip& clip) {
    const std::span<const Lane> lanes = scene.lanes().sounds();
    if (clip.lane < 1 || clip.lane > lanes.size()) {
        return {};
    }
    const Lane& lane = lanes[clip.lane - 1];
    const double left = scene.view().x_of(clip.start);
    const double right = scene.view().x_of(clip.start + clip.length);
    return {left, scene.top_of(lane) + 4.0, right - left, lane.height - 9.0};
}

FadeHandles fade_handles(const Scene& scene, const SoundClip& clip) {
    const QRectF box = box_of(scene, clip);
    const double y = box.top() + handle_inset_px;
    return {{box.left() + std::max(scene.view().px_of(clip.fade_in), handle_inset_px), y},
            {box.right() - std::max(scene.view().px_of(clip.fade_out), handle_inset_px), y}};
}

}  // namespace gasp
