// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edits.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/drag.hpp"

#include <algorithm>
#include <array>

namespace gasp {

namespace {

/// The cues tied to a mark, which move with it and are therefore nothing to snap to.
std::vector<CueId> tied_to(const Sequence& sequence, MarkId mark) {
    std::vector<CueId> ids;
    for (const Cue& cue : sequence.cues) {
        if (cue.mark == mark) {
            ids.push_back(cue.id);
        }
    }
    return ids;
}

class MarkDrag : public Drag {
  public:
    MarkDrag(Scene& scene, MarkId mark, Micros from)
        : Drag(scene), mark_(mark), tied_(tied_to(scene.document().sequence(), mark)) {
        if (const Mark* found = find(scene.document().sequence(), mark)) {
            grasp_ = from - found->time;
        }
    }

    void move(const Pointer& pointer) override {
        const std::array edge{pointer.time - grasp_};
        const auto found = snapped(pointer, edge, {tied_, mark_, {}});
        const Micros to = std::max(found ? found->time : edge[0], Micros{0});
        const SequenceId sequence = scene().document().sequence_id();
        scene().document().preview([&](const Show& show) { return move_mark(show, sequence, mark_, to); });
        const Mark* mark = find(scene().document().sequence(), mark_);
        QString figures = mark != nullptr ? QString::fromStdString(print_time(mark->time)) : QString();
        if (!tied_.empty()) {
            figures += tied_.size() == 1 ? QStringLiteral("   1 cue with it")
                                         : QStringLiteral("   %1 cues with it").arg(tied_.size());
        }
        scene().show_drag({found, figures, pointer.at, {}});
    }

  private:
    MarkId mark_;
    std::vector<CueId> tied_;
    Micros grasp_{0};
};

}  // namespace

std::unique_ptr<Drag> mark_drag(Scene& scene, MarkId mark, Micros from) {
    return std::make_unique<MarkDrag>(scene, mark, from);
}

}  // namespace gasp
