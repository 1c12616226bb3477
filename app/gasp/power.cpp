// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/text_grid.hpp"
#include "app/gasp/verbs.hpp"
#include "core/power/conductor.hpp"
#include "core/power/contact.hpp"
#include "core/schedule/circuit_advice.hpp"
#include "core/schedule/night_power.hpp"
#include "core/schedule/power_together.hpp"
#include "core/schedule/sequence_run.hpp"
#include "core/schedule/supply_use.hpp"
#include "core/units/rounded.hpp"

#include <fmt/format.h>

#include <cmath>

namespace gasp {

namespace {

using Q = Quantity;
constexpr const char* not_checked = "not checked";
constexpr const char* electricians = "electrician's";  // to choose

std::string told(Q quantity, const std::optional<double>& value, UnitSystem units) {
    return value ? print_rounded(quantity, *value, units) : std::string(not_checked);
}

std::string typed(Q quantity, const Figure& value, UnitSystem units) {
    return value ? print_quantity(quantity, *value, units) : std::string("-");
}

std::string fitting(const Figure& fuse_a) {
    return fuse_a ? print_quantity(Q::current, *fuse_a, UnitSystem::metric) : std::string("none");
}

std::string at(double amps, Micros time) {
    return fmt::format("{} at {}", print_rounded(Q::current, amps, UnitSystem::metric), print_time(time));
}

Json json_of(const std::optional<double>& value) {
    return value ? Json(*value) : Json();
}

std::string current(double amps) {
    return print_rounded(Q::current, amps, UnitSystem::metric);
}

std::string supply_fuse(const Supply& supply, bool complete, const Figure& fits) {
    return hazardous(supply) ? electricians : complete ? fitting(fits) : not_checked;
}

std::string channel_fuse(const Channel& channel, const CircuitAdvice& advice) {
    if (advice.licensed || !channel.load_current_a) {
        return advice.licensed ? electricians : "-";
    }
    return inrush_known(channel) ? fitting(advice.fuse_a) : not_checked;
}

std::string supplies_text(const Show& show, const Sequence& sequence, const SequencePower& power) {
    using enum TextGrid::Align;
    TextGrid grid({left, right, right, right, right, right, right, right, right, right, right}, "  ");
    grid.add({"supply", "volts", "rating", "peak", "without surges", "average", "RMS", "RMS repeated",
              "needs", "margin", "fuse that fits"});
    for (std::size_t i = 0; i < show.rig.supplies.size(); ++i) {
        const Supply& supply = show.rig.supplies[i];
        const SupplyUse use = supply_use(show, sequence, power, i);
        const auto sum = [&](std::string text) { return (use.complete ? "" : "at least ") + text; };
        grid.add({supply.name, typed(Q::voltage, supply.volts, UnitSystem::metric),
                  typed(Q::current, supply.rated_a, UnitSystem::metric), sum(at(use.peak_a, use.peak_at)),
                  sum(at(use.steady_peak_a, use.steady_peak_at)), current(use.average_a), current(use.rms_a),
                  current(use.repeated_rms_a), told(Q::current, use.needed_a, UnitSystem::metric),
                  use.margin_percent ? fmt::format("{:.0f} %", *use.margin_percent) : not_checked,
                  supply_fuse(supply, use.complete, use.fuse_a)});
    }
    return grid.text();
}

std::string drop_text(const CircuitAdvice& advice, const CircuitUse& use) {
    if (use.on == Micros{0}) {
        return "never on";
    }
    return advice.drop
               ? fmt::format("{} at {}", print_rounded(Q::voltage, advice.drop->volts, UnitSystem::metric),
                             print_time(advice.drop->at))
               : std::string(not_checked);
}

std::string wire_needed(const CircuitAdvice& advice, const CircuitUse& use, UnitSystem units) {
    if (advice.licensed) {
        return electricians;
    }
    return advice.wire_mm2 ? print_quantity(Q::wire_area, *advice.wire_mm2, units)
                           : std::string(use.in_known_wires ? "none" : "-");
}

std::string circuits_text(const Show& show, const SequencePower& power, UnitSystem units) {
    using enum TextGrid::Align;
    TextGrid grid({left, right, right, right, right, right, right, right, right, right, right}, "  ");
    grid.add({"channel", "current", "inrush", "on", "wire", "length", "drop", "left", "wire needed", "fuse",
              "fuse that fits"});
    for (std::size_t i = 0; i < show.rig.channels.size(); ++i) {
        const Channel& channel = show.rig.channels[i];
        const Circuit& circuit = channel.circuit;
        const CircuitAdvice advice = advise(show.rig, i, power, units);
        const CircuitUse& use = power.circuits[i];
        grid.add({channel.name, typed(Q::current, channel.load_current_a, units),
                  typed(Q::current, circuit.inrush_a, units), print_duration(use.on),
                  typed(Q::wire_area, circuit.wire_mm2, units),
                  typed(Q::length, circuit.wire_length_m, units), drop_text(advice, use),
                  use.on == Micros{0} ? std::string() : told(Q::voltage, advice.left_v, units),
                  wire_needed(advice, use, units), typed(Q::current, circuit.fuse_a, units),
                  channel_fuse(channel, advice)});
    }
    return grid.text();
}

std::string text_of(const Show& show, const Sequence& sequence, const SequencePower& power,
                    UnitSystem units) {
    TextGrid head({TextGrid::Align::left});
    head.add({fmt::format("{}, {}", sequence.name, print_duration(sequence.length))});
    return head.text() + supplies_text(show, sequence, power) + "\n" + circuits_text(show, power, units);
}

/// What a contact has of life left in it, in nights.
std::optional<double> nights(const Channel& channel, double a_night) {
    const Figure& operations = channel.circuit.switch_operations;
    return operations && a_night > 0.0 ? std::optional(contact_nights(*operations, a_night)) : std::nullopt;
}

std::string night_text(const Show& show, const NightPower& night) {
    using enum TextGrid::Align;
    TextGrid supplies({left, right, right}, "  ");
    supplies.add({"supply", "average", "RMS"});
    for (std::size_t i = 0; i < show.rig.supplies.size(); ++i) {
        supplies.add({show.rig.supplies[i].name, told(Q::current, night.average_a[i], UnitSystem::metric),
                      told(Q::current, night.rms_a[i], UnitSystem::metric)});
    }
    TextGrid channels({left, right, right}, "  ");
    channels.add({"channel", "operations", "contact lasts"});
    for (std::size_t i = 0; i < show.rig.channels.size(); ++i) {
        const auto lasts = nights(show.rig.channels[i], night.operations[i]);
        channels.add({show.rig.channels[i].name, fmt::format("{:.0f}", night.operations[i]),
                      lasts ? fmt::format("{:.0f} nights", std::floor(*lasts)) : std::string(not_checked)});
    }
    return "The busiest night of the plan\n" + supplies.text() + "\n" + channels.text();
}

Json json_of(const Show& show, const Sequence& sequence, const SequencePower& power) {
    Json json{{"sequence", sequence.name}, {"length_us", sequence.length.count()}};
    json["supplies"] = Json::array();
    for (std::size_t i = 0; i < show.rig.supplies.size(); ++i) {
        const SupplyUse use = supply_use(show, sequence, power, i);
        Json points = Json::array();
        for (const CurrentPoint& point : power.curves[i].points) {
            points.push_back({{"time_us", point.time.count()}, {"current_a", amps(point.current)}});
        }
        json["supplies"].push_back({{"supply", show.rig.supplies[i].name},
                                    {"complete", use.complete},
                                    {"peak_a", use.peak_a},
                                    {"peak_at_us", use.peak_at.count()},
                                    {"steady_peak_a", use.steady_peak_a},
                                    {"steady_peak_at_us", use.steady_peak_at.count()},
                                    {"average_a", use.average_a},
                                    {"rms_a", use.rms_a},
                                    {"rms_repeated_a", use.repeated_rms_a},
                                    {"needs_a", json_of(use.needed_a)},
                                    {"margin_percent", json_of(use.margin_percent)},
                                    {"fuse_a", json_of(use.fuse_a)},
                                    {"curve", points}});
    }
    json["channels"] = Json::array();
    for (std::size_t i = 0; i < show.rig.channels.size(); ++i) {
        const CircuitAdvice advice = advise(show.rig, i, power, UnitSystem::metric);
        const CircuitUse& use = power.circuits[i];
        Json one{{"channel", show.rig.channels[i].name},
                 {"on_us", use.on.count()},
                 {"longest_on_us", use.longest_on.count()},
                 {"operations", use.operations},
                 {"left_v", json_of(advice.left_v)},
                 {"least_v", json_of(advice.least_v)},
                 {"wire_needed_mm2", json_of(advice.wire_mm2)},
                 {"fuse_a", json_of(advice.fuse_a)}};
        one["drop_v"] = advice.drop ? Json(advice.drop->volts) : Json();
        one["drop_at_us"] = advice.drop ? Json(advice.drop->at.count()) : Json();
        json["channels"].push_back(std::move(one));
    }
    return json;
}

Json json_of(const Show& show, const NightPower& night) {
    Json json{{"supplies", Json::array()}, {"channels", Json::array()}};
    for (std::size_t i = 0; i < show.rig.supplies.size(); ++i) {
        json["supplies"].push_back({{"supply", show.rig.supplies[i].name},
                                    {"average_a", night.average_a[i]},
                                    {"rms_a", night.rms_a[i]}});
    }
    for (std::size_t i = 0; i < show.rig.channels.size(); ++i) {
        json["channels"].push_back({{"channel", show.rig.channels[i].name},
                                    {"operations", night.operations[i]},
                                    {"nights", json_of(nights(show.rig.channels[i], night.operations[i]))}});
    }
    return json;
}

std::string names_of(const Show& show, const PowerTogether& together) {
    std::string names;
    for (const SequenceId id : together.sequences) {
        names += (names.empty() ? "" : ", ") + find(show, id)->name;
    }
    return names;
}

std::string together_text(const Show& show, const PowerTogether& together, const PowerModel& model,
                          UnitSystem units) {
    using enum TextGrid::Align;
    TextGrid supplies({left, right, right, right, right}, "  ");
    supplies.add({"supply", "peak, at most", "without surges", "RMS, at most", "fuse that fits"});
    for (std::size_t i = 0; i < show.rig.supplies.size(); ++i) {
        const SupplyTogether& sum = together.supplies[i];
        supplies.add({show.rig.supplies[i].name, current(amps(sum.peak)), current(amps(sum.steady)),
                      current(sum.rms_a),
                      supply_fuse(show.rig.supplies[i], model.supplies[i].complete, sum.fuse_a)});
    }
    TextGrid circuits({left, right, right, right, right}, "  ");
    circuits.add({"channel", "drop, at most", "in", "left", "wire needed"});
    for (std::size_t i = 0; i < show.rig.channels.size(); ++i) {
        const CircuitTogether& met = together.circuits[i];
        const CircuitAdvice advice = advise(show.rig, i, model, met.use, units);
        circuits.add({show.rig.channels[i].name, drop_text(advice, met.use),
                      advice.drop ? find(show, met.sequence)->name : std::string(),
                      met.use.on == Micros{0} ? std::string() : told(Q::voltage, advice.left_v, units),
                      wire_needed(advice, met.use, units)});
    }
    return "At once, with triggers of their own: " + names_of(show, together) + "\n" + supplies.text() +
           "\n" + circuits.text();
}

Json json_of(const Show& show, const PowerTogether& together, const PowerModel& model) {
    Json json{{"sequences", Json::array()}, {"supplies", Json::array()}, {"channels", Json::array()}};
    for (const SequenceId id : together.sequences) {
        json["sequences"].push_back(find(show, id)->name);
    }
    for (std::size_t i = 0; i < show.rig.supplies.size(); ++i) {
        const SupplyTogether& sum = together.supplies[i];
        json["supplies"].push_back({{"supply", show.rig.supplies[i].name},
                                    {"peak_a", amps(sum.peak)},
                                    {"steady_peak_a", amps(sum.steady)},
                                    {"rms_a", sum.rms_a},
                                    {"fuse_a", json_of(sum.fuse_a)}});
    }
    for (std::size_t i = 0; i < show.rig.channels.size(); ++i) {
        const CircuitTogether& met = together.circuits[i];
        const CircuitAdvice advice = advise(show.rig, i, model, met.use, UnitSystem::metric);
        json["channels"].push_back({{"channel", show.rig.channels[i].name},
                                    {"sequence", find(show, met.sequence)->name},
                                    {"drop_v", advice.drop ? Json(advice.drop->volts) : Json()},
                                    {"drop_at_us", advice.drop ? Json(advice.drop->at.count()) : Json()},
                                    {"left_v", json_of(advice.left_v)},
                                    {"wire_needed_mm2", json_of(advice.wire_mm2)}});
    }
    return json;
}

/// What follows from all sequences together.
void add_show(const Show& show, const std::vector<SequencePower>& powers, UnitSystem units, Json& json,
              std::string& text) {
    std::vector<PowerRun> runs;
    std::vector<const SequencePower*> pointers;
    for (std::size_t i = 0; i < powers.size(); ++i) {
        runs.push_back({show.sequences[i].id, &powers[i]});
        pointers.push_back(&powers[i]);
    }
    if (const auto together = power_together(show, runs); together && !show.rig.supplies.empty()) {
        json["together"] = json_of(show, *together, powers.front().model);
        text += "\n" + together_text(show, *together, powers.front().model, units);
    }
    if (const std::optional<NightUse> night = night_use(show)) {
        const NightPower over = night_power(show, *night, pointers);
        json["night"] = json_of(show, over);
        text += "\n" + night_text(show, over);
    } else {
        json["night"] = Json();
        text += "\nThe busiest night: not checked: no hours or groups in the night plan\n";
    }
}

}  // namespace

Result<Outcome> run(const PowerOptions& options) {
    const Result<OpenShow> open = open_show(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    const Show& show = open->show;
    Outcome outcome;
    outcome.sources = open->files;
    Json json{{"show", show.name}, {"sequences", Json::array()}};
    if (show.rig.supplies.empty()) {
        outcome.text = "Not checked: no power supply in the rig\n";
    }
    AirMemo memo;
    std::vector<SequencePower> powers;
    for (const Sequence* sequence : open->sequences) {
        powers.push_back(work_out(show, *sequence, memo).power);
        json["sequences"].push_back(json_of(show, *sequence, powers.back()));
        outcome.text +=
            (outcome.text.empty() ? "" : "\n") + text_of(show, *sequence, powers.back(), options.units);
    }
    if (!options.sequence) {
        add_show(show, powers, options.units, json, outcome.text);
    }
    if (options.json) {
        outcome.text = json_text(json);
        return outcome;
    }
    outcome.text += fmt::format(
        "\nWires are reckoned at {:.0f} C, loads at their rated current; what is left of the voltage is that "
        "of the worst moment.\nWhat is not checked lacks a figure: gasp check names it. "
        "Mains "
        "and its wiring are work for a licensed electrician; the local code decides.\n",
        working_wire_c);
    return outcome;
}

}  // namespace gasp
