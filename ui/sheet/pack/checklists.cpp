// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/checklists.hpp"

#include "core/checks/failure_words.hpp"
#include "ui/sheet/pack/pack_words.hpp"

#include <algorithm>

namespace gasp {

namespace {

using Q = Quantity;

QString pressure(const PackContent& content, const Figure& kpa) {
    return kpa ? figure_text(Q::gauge_pressure, kpa, content.units)
               : QStringLiteral("the pressure not given here");
}

/// The largest pull of any simulated stroke on the figure's base.
std::optional<double> anchor_load(const PackContent& content, ActuatorId actuator) {
    std::optional<double> most;
    for (const PackSequence& one : content.sequences) {
        if (!one.run.air.run) {
            continue;
        }
        for (const Stroke& stroke : one.run.air.run->strokes) {
            if (stroke.command.actuator == actuator) {
                most = std::max(most.value_or(0.0), stroke.peak_force_n);
            }
        }
    }
    return most;
}

QString anchoring(const PackContent& content, const Actuator& actuator) {
    QString text = QStringLiteral("Weigh down or anchor \"%1\"").arg(text_of(actuator.name));
    if (actuator.base.mass_kg) {
        text += QStringLiteral(": frame with ballast %1")
                    .arg(figure_text(Q::mass, actuator.base.mass_kg, content.units));
    }
    if (const auto load = anchor_load(content, actuator.id)) {
        text += QStringLiteral("; its strokes pull at the base with up to %1, besides the blow at the stop")
                    .arg(rounded_text(Q::force, *load, content.units));
    } else {
        text += QStringLiteral("; the pull at its base is not checked");
    }
    return text + '.';
}

bool any_mains(const Show& show) {
    return std::ranges::find(show.rig.supplies, SupplyKind::mains, &Supply::kind) != show.rig.supplies.end();
}

bool flashes(const Show& show) {
    return std::ranges::any_of(show.sequences, [](const Sequence& sequence) {
        return std::ranges::any_of(sequence.cues, [](const Cue& cue) { return cue.flashes.has_value(); });
    });
}

bool sounds(const Show& show) {
    return std::ranges::any_of(show.sequences,
                               [](const Sequence& sequence) { return !sequence.clips.empty(); });
}

Checklist set_up(const PackContent& content) {
    const Show& show = content.show;
    Checklist list{"Set-up", {}};
    list.items << QStringLiteral(
        "Air off, power off, sensor covered. Nobody but the fitters near the figures.");
    for (const Actuator& actuator : show.rig.actuators) {
        list.items << anchoring(content, actuator);
    }
    if (!show.rig.actuators.empty()) {
        list.items << QStringLiteral(
                          "Rails and floor marks stand outside the full sweep of every figure, a reaching "
                          "arm added.")
                   << QStringLiteral(
                          "Both ends of every tube and wire are labelled; tubes join the ports of the air "
                          "circuit, number to number.")
                   << QStringLiteral(
                          "Tubes, fittings and valves are rated for compressed air, clear of moving parts, "
                          "and held where a loose end would whip.")
                   << QStringLiteral(
                          "Each exhaust is free or has its silencer; every flow control is nearly closed.")
                   << QStringLiteral(
                          "The shut-off valve can be locked shut, vents what is behind it, and is reached "
                          "without passing a figure.")
                   << QStringLiteral("The regulator is turned right back before air comes on.");
    }
    if (!show.rig.channels.empty()) {
        list.items << QStringLiteral(
            "Each output is wired and fused as the wiring chart and the board table have it; "
            "each coil has its suppression.");
    }
    list.items << QStringLiteral(
        "Mains plugs, cords and boxes are dry, earthed and protected as the local code asks; "
        "mains wiring is a licensed electrician's work.");
    if (any_mains(show)) {
        list.items.back() += QStringLiteral(" This rig switches mains.");
    }
    list.items << QStringLiteral(
        "A hard-wired emergency stop takes away the air and the power of the valves, and works "
        "with boards and computer off.");
    return list;
}

void add_first_air(Checklist& list, const PackContent& content) {
    const Show& show = content.show;
    list.items << QStringLiteral(
                      "Drain the receiver; close the drain. It fills to %1 and the compressor stops.")
                      .arg(pressure(content, show.rig.air_plant.cut_out_kpa_gauge))
               << QStringLiteral(
                      "Let air in slowly with nobody near; the regulator low, then step by step up to %1.")
                      .arg(pressure(content, show.rig.air_plant.regulator_kpa_gauge));
    for (const Actuator& actuator : show.rig.actuators) {
        list.items << QStringLiteral("\"%1\": %2.")
                          .arg(text_of(actuator.name),
                               text_of(failure_words(show, actuator, content.model).with_air_again));
    }
    list.items << QStringLiteral(
                      "First stroke of each figure slow, low pressure, nobody near; then twice at full "
                      "pressure with the place empty: the first differs from those that follow.")
               << QStringLiteral("No hiss with everything at rest; with the compressor off the gauge holds.");
}

Checklist pre_opening(const PackContent& content) {
    const Show& show = content.show;
    Checklist list{"Before every opening", {}};
    list.items << QStringLiteral(
        "Sensor blocked until the crew is clear. Everyone knows who may start and who may stop.");
    if (!show.rig.actuators.empty()) {
        list.items << QStringLiteral(
            "Walk down with the air off: bolts, welds, pins, heads and masks, tubes that rub, "
            "rails and marks.");
    }
    list.items << QStringLiteral(
        "Boards on: every output rests, no lamp lit, no valve clicks, but as the board table "
        "says.");
    if (!show.rig.actuators.empty()) {
        add_first_air(list, content);
    }
    list.items << QStringLiteral(
        "Emergency stop tried with each figure out: it did what the table of failures says. "
        "Reset it with nobody near.");
    if (std::ranges::find(show.sequences, SequenceKind::triggered, &Sequence::kind) != show.sequences.end()) {
        list.items << QStringLiteral(
                          "Sensor tried by somebody tall, somebody small and a group; a second trigger "
                          "within the lockout does nothing.")
                   << QStringLiteral(
                          "Sensor blocked: no run starts. That is how the crew works at the figures.");
    }
    if (sounds(show)) {
        list.items << QStringLiteral(
            "Sound at its marked level, listened to where visitors stand; crew near speakers "
            "and exhausts wear hearing protection.");
    }
    if (flashes(show)) {
        list.items << QStringLiteral("Notice of flashing lights is posted at the entrance.");
    }
    list.items << QStringLiteral(
        "Notices are posted, ways out are clear and lit, the crew wears eye protection near "
        "air.");
    return list;
}

Checklist shut_down(const PackContent& content) {
    const Show& show = content.show;
    Checklist list{"Shut-down, and before anybody reaches in", {}};
    list.items << QStringLiteral("Sensor blocked, no run under way, visitors gone.");
    if (!show.rig.actuators.empty()) {
        list.items << QStringLiteral(
                          "Isolate: shut-off valve shut, vented and locked; the key is with whoever reaches "
                          "in.")
                   << QStringLiteral(
                          "Bleed: switch each valve from the board, both ways, until nothing moves; the "
                          "gauge behind the regulator reads nothing.");
        for (const Actuator& actuator : show.rig.actuators) {
            if (actuator.feed.reservoir_l) {
                list.items << QStringLiteral("Reservoir of \"%1\" (%2) is empty.")
                                  .arg(text_of(actuator.name),
                                       figure_text(Q::volume, actuator.feed.reservoir_l, content.units));
            }
            const FailureWords words = failure_words(show, actuator, content.model);
            if (words.without_air.find("drops") != std::string::npos) {
                list.items << QStringLiteral("\"%1\" is propped: %2.")
                                  .arg(text_of(actuator.name), text_of(words.without_air));
            }
        }
        list.items << QStringLiteral(
            "Compressor off and unplugged; drain the receiver and leave the drain open.");
    }
    list.items << QStringLiteral("Boards and supplies off, plugs pulled; lamps and coils may be hot.")
               << QStringLiteral("Shots, faults and the lowest reading of the receiver are written down.");
    return list;
}

}  // namespace

std::vector<Checklist> checklists_of(const PackContent& content) {
    return {set_up(content), pre_opening(content), shut_down(content)};
}

}  // namespace gasp
