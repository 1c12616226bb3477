// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edits.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/drag.hpp"

#include <algorithm>
#include <array>

namespace gasp {

namespace {

class StretchCue : public Drag {
  public:
    StretchCue(Scene& scene, CueId id, bool start) : Drag(scene), id_(id), moves_start_(start) {
        const Sequence& sequence = scene.document().sequence();
        const PlacedCue* placed = scene.cues().find(id);
        if (const Cue* cue = placed != nullptr ? find(sequence, id) : nullptr) {
            begin_ = placed->begin;
            end_ = placed->end;
            to_at_ = start_of(sequence, *cue) - begin_;
        }
    }

    void move(const Pointer& pointer) override {
        const std::array edge{pointer.time};
        const std::array without{id_};
        const auto found = snapped(pointer, edge, {without, {}, {}});
        const Micros to = std::max(found ? found->time : pointer.time, Micros{0});
        const SequenceId sequence = scene().document().sequence_id();
        const Micros start = moves_start_ ? to : begin_;
        const Micros length = moves_start_ ? end_ - to : to - begin_;
        scene().document().preview(
            [&](const Show& show) { return stretch_cue(show, sequence, id_, start + to_at_, length); });
        const Sequence& now = scene().document().sequence();
        const Cue* cue = find(now, id_);
        scene().show_drag({found, cue != nullptr ? figures_of(now, *cue) : QString(), pointer.at, {}});
    }

  private:
    CueId id_;
    bool moves_start_;
    Micros begin_{0};
    Micros end_{0};
    Micros to_at_{0};  ///< of a cue that is placed by its strike: from its start to that
};

}  // namespace

std::unique_ptr<Drag> stretch_cue_drag(Scene& scene, CueId cue, bool start) {
    return std::make_unique<StretchCue>(scene, cue, start);
}

}  // namespace gasp
