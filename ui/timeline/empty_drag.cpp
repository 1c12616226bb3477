// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edits.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/drag.hpp"
#include "ui/timeline/hit.hpp"

#include <algorithm>
#include <array>
#include <iterator>

namespace gasp {

namespace {

/// So far out of its lane a drag becomes a rubber band.
constexpr double leave_px = 8.0;

class EmptyDrag : public Drag {
  public:
    EmptyDrag(Scene& scene, const Pointer& from, bool band, bool add)
        : Drag(scene), from_(from), band_(band) {
        if (add) {
            kept_ = scene.document().selection().cues;
        }
        const Lane* lane = scene.lane_at(from.at.y());
        if (lane != nullptr && lane->kind == Lane::Kind::channel) {
            channel_ = lane->channel;
        }
        const std::array edge{from.time};
        const auto found = snapped(from, edge, {});
        anchor_ = std::max(found ? found->time : from.time, Micros{0});
    }

    void move(const Pointer& pointer) override {
        if (band_ || !channel_ || left_lane(pointer)) {
            draw_band(pointer);
        } else {
            draw_cue(pointer);
        }
    }

    void finish() override {
        const bool drew = scene().document().previewing();
        Drag::finish();
        if (drew && drawn_) {
            scene().document().select({{*drawn_}, {}, {}, channel_});
        }
    }

    void cancel() override {
        Drag::cancel();
        scene().document().select({kept_, {}, {}, channel_});
    }

  private:
    [[nodiscard]] bool left_lane(const Pointer& pointer) const {
        const Lane* lane = scene().lanes().of(*channel_);
        const double y = pointer.at.y() + scene().scroll_y();
        return lane == nullptr || y < lane->top - leave_px || y > lane->bottom() + leave_px;
    }

    void draw_cue(const Pointer& pointer) {
        const std::array edge{pointer.time};
        const auto found = snapped(pointer, edge, {});
        const Micros to = std::max(found ? found->time : pointer.time, Micros{0});
        Cue cue;
        cue.channel = *channel_;
        cue.at = std::min(anchor_, to);
        cue.length = std::max(anchor_, to) - cue.at;
        const SequenceId sequence = scene().document().sequence_id();
        scene().document().preview([&](const Show& show) {
            drawn_ = CueId{show.next_id};
            return cue.length > Micros{0} ? add_cues(show, sequence, {cue}) : Edit{};
        });
        scene().show_drag({found, figures_of(scene().document().sequence(), cue), pointer.at, {}});
    }

    void draw_band(const Pointer& pointer) {
        scene().document().cancel_preview();
        const QRectF band = QRectF(from_.at, pointer.at).normalized();
        const std::vector<CueId> inside = cues_in(scene(), band);
        Selection selection;
        std::set_union(kept_.begin(), kept_.end(), inside.begin(), inside.end(),
                       std::back_inserter(selection.cues));
        selection.channel = channel_;
        scene().document().select(std::move(selection));
        scene().show_drag({{}, {}, pointer.at, band});
    }

    Pointer from_;
    bool band_;
    std::vector<CueId> kept_;
    std::optional<ChannelId> channel_;
    Micros anchor_{0};
    std::optional<CueId> drawn_;
};

}  // namespace

std::unique_ptr<Drag> empty_drag(Scene& scene, const Pointer& from, bool band, bool add) {
    return std::make_unique<EmptyDrag>(scene, from, band, add);
}

}  // namespace gasp
