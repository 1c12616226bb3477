// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/document.hpp"
#include "ui/timeline/drag.hpp"
#include "ui/timeline/placing.hpp"

#include <algorithm>
#include <array>

namespace gasp {

namespace {

class MoveCues : public Drag {
  public:
    MoveCues(Scene& scene, CueId grasped, Micros from)
        : Drag(scene), ids_(scene.document().selection().cues), grasped_(grasped), from_(from) {
        const Sequence& sequence = scene.document().sequence();
        if (const Cue* cue = find(sequence, grasped)) {
            start_ = start_of(sequence, *cue);
            length_ = cue->length;
            if (const PlacedCue* placed = scene.cues().find(grasped)) {
                begin_ = placed->begin;
            }
            channel_ = cue->channel;
        }
        one_lane_ = std::all_of(ids_.begin(), ids_.end(), [&](CueId id) {
            const Cue* cue = find(sequence, id);
            return cue == nullptr || cue->channel == channel_;
        });
    }

    void move(const Pointer& pointer) override {
        Placing placing;
        placing.by = std::max(pointer.time - from_, -start_);
        // Of a cue that is placed by its strike that snaps too.
        const std::array edges{start_ + placing.by, begin_ + placing.by, begin_ + placing.by + length_};
        const auto found = snapped(pointer, edges, {ids_, {}, {}});
        if (found) {
            placing.by += found->shift;
            const bool by_start = found->time == start_ + placing.by;
            if (found->mark && by_start) {
                placing.tied = grasped_;
                placing.mark = found->mark;
            }
        }
        placing.channel = channel_under(pointer);
        const SequenceId sequence = scene().document().sequence_id();
        scene().document().preview(
            [&](const Show& show) { return place_cues(show, sequence, ids_, placing); });
        show(pointer, found);
    }

  private:
    [[nodiscard]] std::optional<ChannelId> channel_under(const Pointer& pointer) const {
        const Lane* lane = scene().lane_at(pointer.at.y());
        const Lane* home = scene().lanes().of(channel_);
        const bool takes = one_lane_ && lane != nullptr && home != nullptr &&
                           lane->kind == Lane::Kind::channel && lane->channel_kind == home->channel_kind;
        return takes ? std::optional(lane->channel) : std::nullopt;
    }
    void show(const Pointer& pointer, const std::optional<Snap>& found) {
        const Sequence& sequence = scene().document().sequence();
        const Cue* cue = find(sequence, grasped_);
        scene().show_drag({found, cue != nullptr ? figures_of(sequence, *cue) : QString(), pointer.at, {}});
    }

    std::vector<CueId> ids_;
    CueId grasped_;
    Micros from_;
    Micros start_{0};  ///< or strike
    Micros begin_{0};  ///< as drawn
    Micros length_{0};
    ChannelId channel_;
    bool one_lane_ = true;
};

}  // namespace

std::unique_ptr<Drag> move_cues_drag(Scene& scene, CueId grasped, Micros from) {
    return std::make_unique<MoveCues>(scene, grasped, from);
}

}  // namespace gasp
