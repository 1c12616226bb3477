// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/failure_words.hpp"
#include "core/show/fields.hpp"
#include "ui/sheet/pack/pack_parts.hpp"
#include "ui/sheet/pack/pack_words.hpp"

namespace gasp {

namespace {

QString sentence(const std::string& part) {
    if (part.empty()) {
        return QStringLiteral("Not checked: figures of it are blank.");
    }
    QString text = text_of(part);
    text[0] = text[0].toUpper();
    return text + '.';
}

QString valve_of(const Actuator& actuator) {
    const auto& kind = fields<Valve>().choices.front();
    const auto& action = fields<Cylinder>().choices.front();
    return text_of(kind.labels[kind.get(actuator.valve)]) + "; " +
           text_of(action.labels[action.get(actuator.cylinder)]).toLower();
}

}  // namespace

void add_stops(PackFlow& flow, const PackSource& source) {
    const Show& show = source.content.show;
    if (show.rig.actuators.empty()) {
        return;
    }
    flow.section(QStringLiteral("When power or air fails"));
    flow.heading(QStringLiteral("When power or air fails"));
    flow.paragraph(QStringLiteral(
        "What each figure does, by its valve, cylinder, weight and springs as the rig has them. An emergency "
        "stop "
        "that takes power and air away does both at once. Try each case with nobody in reach and note what "
        "happened; the real thing decides."));
    std::vector<PackRow> rows;
    for (const Actuator& actuator : show.rig.actuators) {
        const FailureWords words = failure_words(show, actuator, source.content.model);
        rows.push_back({text_of(actuator.name), valve_of(actuator), sentence(words.without_power),
                        sentence(words.without_air), sentence(words.with_air_again), QString()});
    }
    flow.table({{"Figure", 0, 2, false, true, 6},
                {"Valve; cylinder", 0, 2.4, false, false, 6},
                {"Power lost", 0, 3, false, false, 8},
                {"Air lost", 0, 3, false, false, 8},
                {"Air comes back", 0, 3.4, false, false, 8},
                {"Tried by", 200}},
               rows);
}

}  // namespace gasp
