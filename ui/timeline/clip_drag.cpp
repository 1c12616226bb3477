// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edits.hpp"
#include "core/show/limits.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/drag.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace gasp {

namespace {

constexpr Micros shortest_clip{10'000};

class ClipDrag : public Drag {
  public:
    ClipDrag(Scene& scene, ClipId id, ClipPart part, const Pointer& from)
        : Drag(scene), id_(id), part_(part), from_(from) {
        if (const SoundClip* clip = find(scene.document().sequence(), id)) {
            before_ = *clip;
        }
        // The lanes may be laid out anew under the drag; the way to another lane stays what it was.
        if (const Lane* lane = scene.lane_at(from.at.y())) {
            lane_top_ = scene.top_of(*lane);
            lane_px_ = lane->height;
        }
    }

    void move(const Pointer& pointer) override {
        const std::vector<Micros> edges = edges_at(pointer.time - from_.time);
        const auto found = snapped(pointer, edges, {{}, {}, id_});
        SoundClip after = moved(pointer.time - from_.time + (found ? found->shift : Micros{0}));
        if (part_ == ClipPart::body) {
            after.lane = lane_at(pointer.at.y());
        }
        const SequenceId sequence = scene().document().sequence_id();
        scene().document().preview([&](const Show& show) { return set_clip(show, sequence, after); });
        scene().show_drag({found, figures(after), pointer.at, {}});
    }

  private:
    /// What snaps, were it moved by so much.
    [[nodiscard]] std::vector<Micros> edges_at(Micros by) const {
        const Micros start = before_.start + by;
        const Micros end = start + before_.length;
        switch (part_) {
            case ClipPart::body:
                return {start, end};
            case ClipPart::start:
                return {start};
            case ClipPart::end:
                return {end};
            case ClipPart::fade_in:
                return {start + before_.fade_in};
            case ClipPart::fade_out:
                return {end - before_.fade_out};
        }
        return {};
    }

    [[nodiscard]] std::uint32_t lane_at(double y) const {
        const auto by = static_cast<std::int64_t>(std::floor((y - lane_top_) / std::max(lane_px_, 1)));
        const std::int64_t lane = static_cast<std::int64_t>(before_.lane) + by;
        return static_cast<std::uint32_t>(std::clamp<std::int64_t>(lane, 1, most_sound_lanes));
    }

    [[nodiscard]] QString figures(const SoundClip& after) const {
        if (part_ == ClipPart::fade_in || part_ == ClipPart::fade_out) {
            const Micros fade = part_ == ClipPart::fade_in ? after.fade_in : after.fade_out;
            return QObject::tr("fade %1").arg(QString::fromStdString(print_duration(fade)));
        }
        return QString::fromStdString(print_time(after.start) + "   " + print_duration(after.length));
    }

    [[nodiscard]] SoundClip moved(Micros by) const {
        SoundClip clip = before_;
        switch (part_) {
            case ClipPart::body:
                clip.start = std::max(clip.start + by, Micros{0});
                break;
            case ClipPart::start: {
                const Micros least = std::max(-clip.from, -clip.start);
                const Micros cut = std::clamp(by, least, std::max(least, clip.length - shortest_clip));
                clip.start += cut;
                clip.from += cut;
                clip.length -= cut;
                break;
            }
            case ClipPart::end: {
                const Micros most = std::max(clip.file_length - clip.from, clip.length);
                clip.length = std::clamp(clip.length + by, shortest_clip, most);
                break;
            }
            case ClipPart::fade_in:
                clip.fade_in = std::clamp(clip.fade_in + by, Micros{0}, clip.length - clip.fade_out);
                break;
            case ClipPart::fade_out:
                clip.fade_out = std::clamp(clip.fade_out - by, Micros{0}, clip.length - clip.fade_in);
                break;
        }
        return clip;
    }

    ClipId id_;
    ClipPart part_;
    Pointer from_;
    SoundClip before_;
    int lane_top_ = 0;
    int lane_px_ = 0;
};

}  // namespace

std::unique_ptr<Drag> clip_drag(Scene& scene, ClipId clip, ClipPart part, const Pointer& from) {
    return std::make_unique<ClipDrag>(scene, clip, part, from);
}

}  // namespace gasp
