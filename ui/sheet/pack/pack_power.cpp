// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/conductor.hpp"
#include "core/power/contact.hpp"
#include "core/schedule/circuit_advice.hpp"
#include "core/schedule/night_power.hpp"
#include "core/schedule/supply_use.hpp"
#include "ui/sheet/pack/current_chart.hpp"
#include "ui/sheet/pack/pack_parts.hpp"
#include "ui/sheet/pack/pack_words.hpp"

#include <QPainter>
#include <QStringList>

#include <algorithm>
#include <cmath>
#include <optional>

namespace gasp {

namespace {

using Q = Quantity;

QString current(double amps) {
    return rounded_text(Q::current, amps, UnitSystem::metric);
}

QString checked(const Figure& amps) {
    return amps ? current(*amps) : QStringLiteral("not checked");
}

QString current_at(double amps, Micros time, bool complete) {
    return (complete ? QString() : QStringLiteral("at least ")) + current(amps) + " at " + time_text(time);
}

QString fuse_text(const Figure& has, const Figure& fits, bool known, bool licensed) {
    return (has ? figure_text(Q::current, has, UnitSystem::metric) : QStringLiteral("none")) + ", " +
           (licensed ? QStringLiteral("electrician's to choose")
            : !known ? QStringLiteral("not checked")
            : fits   ? figure_text(Q::current, fits, UnitSystem::metric) + " fits"
                     : QStringLiteral("none fits"));
}

PackRow supply_row(const PackContent& content, const PackSequence& one, std::size_t place) {
    const Supply& supply = content.show.rig.supplies[place];
    const Sequence& sequence = *find(content.show, one.id);
    const SupplyUse use = supply_use(content.show, sequence, one.run.power, place);
    return {text_of(supply.name),
            text_of(sequence.name),
            current_at(use.peak_a, use.peak_at, use.complete),
            current_at(use.steady_peak_a, use.steady_peak_at, use.complete),
            current(use.average_a),
            QStringLiteral("%1 every %2").arg(current(use.repeated_rms_a), span_text(use.period)),
            supply.rated_a
                ? QStringLiteral("%1, %2").arg(figure_text(Q::current, supply.rated_a, content.units),
                                               current(*use.planned_a))
                : QStringLiteral("not given"),
            use.margin_percent ? QStringLiteral("%1 %").arg(*use.margin_percent, 0, 'f', 0)
                               : QStringLiteral("not checked"),
            checked(use.needed_a)};
}

void add_supplies(PackFlow& flow, const PackContent& content) {
    flow.heading(QStringLiteral("What the supplies give"));
    std::vector<PackRow> rows;
    for (std::size_t place = 0; place < content.show.rig.supplies.size(); ++place) {
        for (const PackSequence& one : content.sequences) {
            rows.push_back(supply_row(content, one, place));
        }
    }
    flow.table({{"Supply", 0, 2, false, true},
                {"Sequence", 0, 1.8},
                {"Peak", 0, 2},
                {"Without surges", 0, 2},
                {"Average", 150, 0, true},
                {"RMS, which heats", 0, 2},
                {"Rated, planned with", 0, 1.9},
                {"Margin", 120, 0, true},
                {"Needs", 150, 0, true}},
               rows);
}

QString names_of(const PackContent& content, const PowerTogether& together) {
    QStringList names;
    for (const SequenceId id : together.sequences) {
        names << text_of(find(content.show, id)->name);
    }
    return names.join(", ");
}

void add_together(PackFlow& flow, const PackContent& content) {
    if (!content.together) {
        return;
    }
    flow.heading(QStringLiteral("Sequences at once"));
    flow.paragraph(
        QStringLiteral("With triggers of their own, these may run at once: %1. Their worst moments "
                       "may meet, and count so in all that follows.")
            .arg(names_of(content, *content.together)));
    std::vector<PackRow> rows;
    for (std::size_t place = 0; place < content.show.rig.supplies.size(); ++place) {
        const Supply& supply = content.show.rig.supplies[place];
        const SupplyTogether& sum = content.together->supplies[place];
        rows.push_back({text_of(supply.name), current(amps(sum.peak)), current(amps(sum.steady)),
                        current(sum.rms_a), figure_text(Q::current, supply.rated_a, content.units)});
    }
    flow.table({{"Supply", 0, 3, false, true},
                {"Peak, at most", 0, 1.4, true},
                {"Without surges", 0, 1.4, true},
                {"RMS, at most", 0, 1.4, true},
                {"Rated", 0, 1.4, true},
                {"", 0, 2}},
               rows);
}

std::optional<NightPower> night_of(const PackContent& content) {
    const std::optional<NightUse> use = night_use(content.show);
    if (!use || content.sequences.size() != content.show.sequences.size()) {
        return std::nullopt;
    }
    std::vector<const SequencePower*> powers;
    for (const PackSequence& one : content.sequences) {
        powers.push_back(&one.run.power);
    }
    return night_power(content.show, *use, powers);
}

void add_night_of_supplies(PackFlow& flow, const PackContent& content,
                           const std::optional<NightPower>& night) {
    flow.heading(QStringLiteral("Over the busiest night of the plan"));
    if (!night) {
        flow.paragraph(content.sequences.size() != content.show.sequences.size()
                           ? QStringLiteral("Not in a pack of one sequence.")
                           : QStringLiteral("Not checked: no hours of the night, or no groups in its plan."));
        return;
    }
    std::vector<PackRow> rows;
    for (std::size_t place = 0; place < content.show.rig.supplies.size(); ++place) {
        const Supply& supply = content.show.rig.supplies[place];
        const double taken_ah = night->average_a[place] * *content.show.night.hours;
        rows.push_back(
            {text_of(supply.name), current(night->average_a[place]), current(night->rms_a[place]),
             rounded_text(Q::charge, taken_ah, content.units),
             supply.capacity_ah ? figure_text(Q::charge, supply.capacity_ah, content.units) : QString()});
    }
    flow.table({{"Supply", 0, 3, false, true},
                {"Average", 0, 1.4, true},
                {"RMS", 0, 1.4, true},
                {"Charge taken", 0, 1.4, true},
                {"Battery", 0, 1.4, true},
                {"", 0, 2}},
               rows);
}

/// The advice of the sequence in which a load is left the least, alone or among those at once, the widest
/// wire of all, and the sequence.
struct WorstAdvice {
    CircuitAdvice advice;
    const Sequence* sequence = nullptr;
    bool at_once = false;  ///< with others
    bool ever_on = false;
    bool wire_made = true;  ///< a standard wire does in every sequence
};

void take_worse(WorstAdvice& worst, const CircuitAdvice& advice, const CircuitUse& use,
                const Sequence* sequence, bool at_once) {
    worst.ever_on = worst.ever_on || use.on > Micros{0};
    worst.wire_made = worst.wire_made && (advice.wire_mm2 || !use.in_known_wires);
    const std::optional<double> wire = std::max(worst.advice.wire_mm2, advice.wire_mm2);
    const bool worse = advice.drop && (!worst.advice.drop || advice.drop->volts > worst.advice.drop->volts);
    if (worse || worst.sequence == nullptr) {
        worst.advice = advice;
        worst.sequence = sequence;
        worst.at_once = at_once;
    }
    worst.advice.wire_mm2 = wire;
}

WorstAdvice worst_of(const PackContent& content, std::size_t channel) {
    WorstAdvice worst;
    const Rig& rig = content.show.rig;
    for (const PackSequence& one : content.sequences) {
        const SequencePower& power = one.run.power;
        take_worse(worst, advise(rig, channel, power, content.units), power.circuits[channel],
                   find(content.show, one.id), false);
    }
    if (content.together) {
        const CircuitTogether& met = content.together->circuits[channel];
        const PowerModel& model = content.sequences.front().run.power.model;
        take_worse(worst, advise(rig, channel, model, met.use, content.units), met.use,
                   find(content.show, met.sequence), true);
    }
    return worst;
}

QString drop_text(const WorstAdvice& worst) {
    if (!worst.ever_on) {
        return QStringLiteral("never on");
    }
    if (!worst.advice.drop) {
        return QStringLiteral("not checked");
    }
    return QStringLiteral("%1, %2 at %3%4")
        .arg(rounded_text(Q::voltage, worst.advice.drop->volts, UnitSystem::metric),
             text_of(worst.sequence->name), time_text(worst.advice.drop->at),
             worst.at_once ? QStringLiteral(", the others at once") : QString());
}

QString voltage(const std::optional<double>& volts) {
    return volts ? rounded_text(Q::voltage, *volts, UnitSystem::metric) : QString(QChar(0x2013));
}

QString inrush_text(const Channel& channel, UnitSystem units) {
    const QString steady = figure_text(Q::current, channel.load_current_a, units);
    return channel.circuit.inrush_a
               ? steady + ", starts " + figure_text(Q::current, channel.circuit.inrush_a, units)
               : steady;
}

QString needed_wire(const WorstAdvice& worst, UnitSystem units) {
    if (worst.advice.licensed) {
        return QStringLiteral("electrician's");
    }
    if (!worst.wire_made) {
        return QStringLiteral("none does");
    }
    return worst.advice.wire_mm2 ? figure_text(Q::wire_area, worst.advice.wire_mm2, units)
                                 : QString(QChar(0x2013));
}

QString contact_text(const Channel& channel, const NightPower& night, std::size_t place) {
    const double a_night = night.operations[place];
    QString text = QStringLiteral("%1 a night").arg(a_night, 0, 'f', 0);
    if (const Figure& life = channel.circuit.switch_operations; life && a_night > 0.0) {
        text +=
            QStringLiteral(", lasts %1 nights").arg(std::floor(contact_nights(*life, a_night)), 0, 'f', 0);
    }
    return text;
}

void add_circuits(PackFlow& flow, const PackContent& content, const std::optional<NightPower>& night) {
    flow.heading(QStringLiteral("Each circuit at its worst moment"));
    std::vector<PackRow> rows;
    for (std::size_t place = 0; place < content.show.rig.channels.size(); ++place) {
        const Channel& channel = content.show.rig.channels[place];
        const Circuit& circuit = channel.circuit;
        const WorstAdvice worst = worst_of(content, place);
        rows.push_back({text_of(channel.name), inrush_text(channel, content.units),
                        fuse_text(circuit.fuse_a, worst.advice.fuse_a,
                                  channel.load_current_a && inrush_known(channel), worst.advice.licensed),
                        figure_text(Q::wire_area, circuit.wire_mm2, content.units),
                        needed_wire(worst, content.units), drop_text(worst),
                        worst.ever_on ? voltage(worst.advice.left_v) : QString(QChar(0x2013)),
                        voltage(worst.advice.least_v)});
        if (night) {
            rows.back().push_back(contact_text(channel, *night, place));
        }
    }
    std::vector<PackColumn> columns{{"Channel", 0, 2.4, false, true},
                                    {"Current", 0, 2},
                                    {"Fuse", 0, 1.7},
                                    {"Wire", 210},
                                    {"Least wire", 190},
                                    {"Lost on the way", 0, 2.6},
                                    {"Left", 130, 0, true},
                                    {"Wanted", 130, 0, true}};
    if (night) {
        columns.push_back({"Contact", 0, 2});
    }
    flow.table(columns, rows);
}

/// Size and length of a wire that all share, and the most it carries in any sequence, or in those at once.
QString shared_text(const PackContent& content, const Figure& mm2, const Figure& length_m, std::size_t wire) {
    if (!mm2 && !length_m) {
        return QStringLiteral("none given");
    }
    MicroAmps most = content.together ? content.together->wire_peaks[wire] : 0;
    for (const PackSequence& one : content.sequences) {
        most = std::max(most, one.run.power.wire_peaks[wire]);
    }
    const std::optional<double> bears = mm2 ? ampacity_a(*mm2) : std::nullopt;
    return QStringLiteral("%1, %2, carries %3%4")
        .arg(figure_text(Q::wire_area, mm2, content.units), figure_text(Q::length, length_m, content.units),
             current(amps(most)), bears ? ", bears " + current(*bears) : QString());
}

/// The fuse it has, and the smallest that fits in every sequence, and those at once.
QString supply_fuse_text(const PackContent& content, std::size_t place) {
    Figure fits = 0.0;
    bool known = true;
    for (const PackSequence& one : content.sequences) {
        const SupplyUse use = supply_use(content.show, *find(content.show, one.id), one.run.power, place);
        known = known && use.complete;
        fits = fits && use.fuse_a ? Figure(std::max(*fits, *use.fuse_a)) : Figure{};
    }
    if (content.together) {
        const Figure& met = content.together->supplies[place].fuse_a;
        fits = fits && met ? Figure(std::max(*fits, *met)) : Figure{};
    }
    const Supply& supply = content.show.rig.supplies[place];
    return fuse_text(supply.fuse_a, fits, known, hazardous(supply));
}

void add_shared_wires(PackFlow& flow, const PackContent& content) {
    flow.heading(QStringLiteral("What circuits share"));
    std::vector<PackRow> rows;
    for (std::size_t place = 0; place < content.show.rig.supplies.size(); ++place) {
        const Supply& supply = content.show.rig.supplies[place];
        rows.push_back(
            {text_of(supply.name), supply_fuse_text(content, place),
             shared_text(content, supply.feed_mm2, supply.feed_length_m, PowerModel::feed_of(place)),
             shared_text(content, supply.return_mm2, supply.return_length_m, PowerModel::return_of(place))});
    }
    flow.table(
        {{"Supply", 0, 2, false, true}, {"Fuse", 0, 1.4}, {"Shared feed", 0, 3}, {"Shared return", 0, 3}},
        rows);
}

void add_charts(PackFlow& flow, const PackContent& content) {
    constexpr double height = 420.0;
    for (const PackSequence& one : content.sequences) {
        for (std::size_t place = 0; place < content.show.rig.supplies.size(); ++place) {
            const SequencePower& power = one.run.power;
            if (power.length <= Micros{0} || power.curves[place].points.empty()) {
                continue;
            }
            const Supply& supply = content.show.rig.supplies[place];
            const Sequence& sequence = *find(content.show, one.id);
            const CurrentChart chart{power.curves[place], power.length, supply.rated_a,
                                     supply_use(content.show, sequence, power, place).planned_a};
            flow.need(height + 3 * print_line(PrintSize::head));
            flow.heading(
                QStringLiteral("Current of %1 over %2").arg(text_of(supply.name), text_of(sequence.name)));
            flow.drawing(height,
                         [chart](QPainter& painter, const QRectF& box) { paint_chart(painter, box, chart); });
        }
    }
}

}  // namespace

void add_power(PackFlow& flow, const PackSource& source) {
    const PackContent& content = source.content;
    if (content.show.rig.channels.empty()) {
        return;
    }
    flow.section(QStringLiteral("Power"), true);
    if (content.show.rig.supplies.empty()) {
        flow.heading(QStringLiteral("What the supplies give"));
        flow.paragraph(
            QStringLiteral("Not checked: no power supply in the rig, so no currents, wires and fuses."));
        return;
    }
    const std::optional<NightPower> night = night_of(content);
    add_supplies(flow, content);
    add_together(flow, content);
    add_night_of_supplies(flow, content, night);
    add_circuits(flow, content, night);
    add_shared_wires(flow, content);
    flow.paragraph(
        QStringLiteral(
            "Reckoned from ratings, nothing is measured: wires at %1 °C, loads at their rated current, "
            "the least fuse 1.25 times what flows for long. A fuse "
            "guards the wire behind it and must not be larger than the wire bears. Mains and its wiring "
            "are work for a licensed electrician; the local code decides.")
            .arg(working_wire_c, 0, 'f', 0),
        {PrintSize::small, false, true});
    add_charts(flow, content);
}

}  // namespace gasp
