// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/document.hpp"
#include "ui/timeline/drag.hpp"
#include "ui/timeline/strikes.hpp"

#include <algorithm>
#include <array>

namespace gasp {

namespace {

class StrikeDrag : public Drag {
  public:
    StrikeDrag(Scene& scene, CueId id, Micros from) : Drag(scene), id_(id) {
        if (const auto strike = seen_strike(scene, id)) {
            grasp_ = from - strike->time();
            scene.know_leads(std::array{CueLead{id, strike->lead}});
        }
    }

    void move(const Pointer& pointer) override {
        const std::array edge{pointer.time - grasp_};
        const std::array without{id_};
        const auto found = snapped(pointer, edge, {without, {}, {}});
        const Micros to = std::max(found ? found->time : edge[0], Micros{0});
        const SequenceId sequence = scene().document().sequence_id();
        const auto mark = found ? found->mark : std::nullopt;
        scene().document().preview(
            [&](const Show& show) { return place_strike(show, sequence, id_, to, mark); });
        const Cue* cue = find(scene().document().sequence(), id_);
        const auto strike = seen_strike(scene(), id_);
        QString figures = "strike " + QString::fromStdString(print_time(to));
        if (cue != nullptr && strike) {
            figures += QStringLiteral("   %1 after the valve")
                           .arg(QString::fromStdString(
                               print_duration(std::chrono::round<std::chrono::milliseconds>(strike->lead))));
        }
        scene().show_drag({found, figures, pointer.at, {}});
    }

  private:
    CueId id_;
    Micros grasp_{0};
};

}  // namespace

std::unique_ptr<Drag> strike_drag(Scene& scene, CueId cue, Micros from) {
    return std::make_unique<StrikeDrag>(scene, cue, from);
}

}  // namespace gasp
