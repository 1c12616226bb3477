// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/fitting_text.hpp"

#include "core/show/edits.hpp"
#include "core/show/limits.hpp"

#include <QString>

#include <utility>

namespace gasp {
namespace {

ListEntry timed_entry(const std::shared_ptr<ActuatorId>& id, std::vector<double> Fit::*member,
                      const char* key, const QString& label) {
    ListEntry entry{.key = key,
                    .label = label,
                    .help =
                        "From the coil switching to the end of the travel, one after another: 212 208 215. "
                        "A bare number is in ms.",
                    .unit = "ms",
                    .get = {},
                    .read =
                        [](const std::string& word) {
                            return parse_quantity(Quantity::time_ms, word, UnitSystem::metric);
                        },
                    .print = [](double ms) { return QString::number(ms); },
                    .trouble = {},
                    .set = {}};
    entry.get = [id, member](const Show& show) {
        const Actuator* actuator = find(show, *id);
        return actuator != nullptr ? actuator->fit.*member : std::vector<double>{};
    };
    entry.trouble = [](const std::vector<double>& list) {
        return timed_allowed(list)
                   ? QString()
                   : QStringLiteral("at most %1 strokes of 1 ms to 60 s each").arg(most_timed_strokes);
    };
    entry.set = [id, member, label](const Show& show, std::vector<double> list) {
        const Actuator* actuator = find(show, *id);
        if (actuator == nullptr) {
            return Edit{};
        }
        Actuator timed = *actuator;
        timed.fit.*member = std::move(list);
        Edit edit = set_actuator(show, timed);
        edit.sentence = label.toLower().toStdString() + " of " + actuator->name;
        return edit;
    };
    return entry;
}

QString name_of(Fitted input) {
    switch (input) {
        case Fitted::friction:
            return "Friction";
        case Fitted::conductance:
            return "Conductances";
        case Fitted::delay:
            break;
    }
    return "Valve delays";
}

QString ms_text(double ms) {
    return QStringLiteral("%1 ms").arg(ms, 0, 'f', ms < 10.0 ? 1 : 0);
}

}  // namespace

std::vector<ListEntry> timed_stroke_entries(const std::shared_ptr<ActuatorId>& id) {
    return {timed_entry(id, &Fit::out_ms, "fit.out_ms", "Timed strokes out"),
            timed_entry(id, &Fit::back_ms, "fit.back_ms", "Timed strokes back")};
}

std::vector<FigureLine> fit_lines(const StrokeFit& fit) {
    std::vector<FigureLine> lines;
    for (const FittedInput& input : fit.inputs) {
        lines.push_back({name_of(input.input),
                         QStringLiteral("%1 times").arg(input.factor, 0, 'f', 2),
                         QStringLiteral("what the rig says; within %1 %, before %2 %")
                             .arg(input.spread_percent, 0, 'f', 0)
                             .arg(input.spread_before_percent, 0, 'f', 0),
                         {}});
    }
    lines.push_back({"Off the timed strokes",
                     ms_text(fit.off_after_ms),
                     QStringLiteral("root mean square; before %1").arg(ms_text(fit.off_before_ms)),
                     {}});
    lines.push_back({"One timing is taken to be off by", ms_text(fit.reading_ms), {}, {}});
    for (const std::string& note : fit.notes) {
        lines.push_back({"Look at", {}, {}, Severity::note, QString::fromStdString(note) + "."});
    }
    return lines;
}

}  // namespace gasp
