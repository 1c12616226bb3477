// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/power_model.hpp"

#include "core/power/conductor.hpp"

#include <algorithm>
#include <limits>

namespace gasp {
namespace {

constexpr double usual_efficiency_percent = 85.0;  // of a converter: common practice, no source

std::optional<double> ohm_of(const Figure& mm2, const Figure& length_m) {
    if (!mm2 || !length_m || !(*mm2 > 0.0)) {
        return std::nullopt;
    }
    return copper_ohm_per_m(*mm2) * *length_m;
}

SupplyModel supply_model(const Supply& supply) {
    SupplyModel model;
    model.feed_ohm = ohm_of(supply.feed_mm2, supply.feed_length_m);
    if (!supply.feed_mm2 && !supply.feed_length_m) {
        model.feed_ohm = 0.0;
    }
    model.return_ohm = ohm_of(supply.return_mm2, supply.return_length_m);
    model.complete = supply.standing_a.has_value();
    return model;
}

/// A supply that gives to another, and how much for each ampere this one gives.
struct Feeding {
    std::size_t supply = 0;
    double ratio = 0.0;  ///< 0: not known
};

/// The supplies above this one, nearest first, each with the ratio to it.
std::vector<Feeding> feeding(const Rig& rig, std::size_t first, bool& in_loop) {
    std::vector<Feeding> above;
    double ratio = 1.0;
    std::size_t at = first;
    while (const auto next = place_of(rig, rig.supplies[at].fed_from)) {
        if (above.size() == rig.supplies.size() || *next == first) {
            in_loop = true;
            return {};
        }
        const Supply& lower = rig.supplies[at];
        const Supply& upper = rig.supplies[*next];
        const double efficiency = lower.efficiency_percent.value_or(usual_efficiency_percent) / 100.0;
        const bool known = lower.volts && upper.volts && *upper.volts > 0.0 && efficiency > 0.0;
        ratio *= known ? *lower.volts / *upper.volts / efficiency : 0.0;
        above.push_back({*next, ratio});
        at = *next;
    }
    return above;
}

class Builder {
  public:
    explicit Builder(const Rig& rig) : rig_(rig) {
        for (std::size_t i = 0; i < rig.supplies.size(); ++i) {
            add_supply(rig.supplies[i]);
        }
        for (std::size_t i = 0; i < rig.supplies.size(); ++i) {
            add_feeding(i);
        }
        for (const Channel& channel : rig.channels) {
            add_circuit(channel);
        }
        note_incomplete();
    }

    PowerModel take() { return std::move(model_); }

  private:
    void add_supply(const Supply& supply) {
        model_.supplies.push_back(supply_model(supply));
        const SupplyModel& made = model_.supplies.back();
        const MicroAmps standing = micro_amps(supply.standing_a.value_or(0.0));
        model_.standing.push_back(standing);
        model_.wires.push_back({made.feed_ohm.value_or(0.0), standing});
        model_.wires.push_back({made.return_ohm.value_or(0.0), standing});
    }

    void add_feeding(std::size_t supply) {
        above_.push_back(feeding(rig_, supply, model_.supplies[supply].in_loop));
        for (const Feeding& feed : above_.back()) {
            const double own = rig_.supplies[supply].standing_a.value_or(0.0);
            model_.standing[feed.supply] += micro_amps(own * feed.ratio);
        }
    }

    void add_circuit(const Channel& channel) {
        CircuitModel made;
        const Circuit& circuit = channel.circuit;
        made.supply = place_of(rig_, circuit.supply);
        made.wire_ohm = ohm_of(circuit.wire_mm2, circuit.wire_length_m);
        if (made.wire_ohm && circuit.return_path == ReturnPath::own_wire) {
            *made.wire_ohm *= 2.0;
        }
        if (made.supply && channel.load_current_a) {
            add_load(channel, made);
        } else if (made.supply) {
            model_.supplies[*made.supply].complete = false;
        }
        model_.circuits.push_back(std::move(made));
    }

    void add_load(const Channel& channel, CircuitModel& made) {
        const Circuit& circuit = channel.circuit;
        const std::size_t back = place_of(rig_, circuit.returns_to).value_or(*made.supply);
        const bool shares = circuit.return_path == ReturnPath::shared_return;
        LoadWay way;
        way.own_ohm = made.wire_ohm.value_or(0.0);
        way.shared[0] = PowerModel::feed_of(*made.supply);
        if (shares) {
            way.shared[1] = PowerModel::return_of(back);
        }
        made.way_known = made.wire_ohm && model_.supplies[*made.supply].feed_ohm &&
                         (!shares || model_.supplies[back].return_ohm);
        made.load = add_draw(channel, *made.supply, 1.0, way);
        for (const Feeding& feed : above_[*made.supply]) {
            if (feed.ratio > 0.0) {
                made.further.push_back(add_draw(channel, feed.supply, feed.ratio, {}));
            }
        }
    }

    std::uint32_t add_draw(const Channel& channel, std::size_t supply, double ratio, const LoadWay& way) {
        const double steady = *channel.load_current_a;
        const Circuit& circuit = channel.circuit;
        LoadDraw draw;
        draw.supply = static_cast<std::uint32_t>(supply);
        draw.steady = micro_amps(steady * ratio);
        if (circuit.inrush_a && circuit.inrush_ms) {
            draw.surge = micro_amps(std::max(*circuit.inrush_a - steady, 0.0) * ratio);
            draw.surge_time = from_ms(*circuit.inrush_ms);
        }
        draw.on_at_rest = channel.contact == Contact::normally_closed;
        model_.draws.push_back(draw);
        model_.ways.push_back(way);
        return static_cast<std::uint32_t>(model_.draws.size() - 1);
    }

    /// What a supply does not know of itself, those that feed it do not know either.
    void note_incomplete() {
        for (std::size_t i = 0; i < rig_.supplies.size(); ++i) {
            for (const Feeding& feed : above_[i]) {
                if (!model_.supplies[i].complete || !(feed.ratio > 0.0)) {
                    model_.supplies[feed.supply].complete = false;
                }
            }
            if (model_.supplies[i].in_loop) {
                model_.supplies[i].complete = false;
            }
        }
    }

    const Rig& rig_;
    PowerModel model_;
    std::vector<std::vector<Feeding>> above_;
};

}  // namespace

std::optional<std::size_t> place_of(const Rig& rig, const std::optional<SupplyId>& supply) {
    const auto found = supply ? std::ranges::find(rig.supplies, *supply, &Supply::id) : rig.supplies.end();
    return found != rig.supplies.end() ? std::optional(static_cast<std::size_t>(found - rig.supplies.begin()))
                                       : std::nullopt;
}

bool hazardous(const Supply& supply) {
    constexpr double most_ac = 30.0;
    constexpr double most_dc = 60.0;
    const double volts = supply.volts.value_or(0.0);
    return supply.kind == SupplyKind::mains || volts > most_dc ||
           (supply.kind == SupplyKind::transformer && volts > most_ac);
}

double shared_wires_bear_a(const Supply& supply, std::size_t place, std::span<const MicroAmps> wire_peaks) {
    double bears = std::numeric_limits<double>::infinity();
    const bool shared =
        wire_peaks[PowerModel::return_of(place)] > micro_amps(supply.standing_a.value_or(0.0));
    for (const Figure& mm2 : {supply.feed_mm2, shared ? supply.return_mm2 : Figure{}}) {
        bears = mm2 ? std::min(bears, ampacity_a(*mm2).value_or(0.0)) : bears;
    }
    return bears;
}

PowerModel power_model(const Rig& rig) {
    return Builder(rig).take();
}

}  // namespace gasp
