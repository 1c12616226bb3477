// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/budget/band.hpp"
#include "core/air/night/night_player.hpp"
#include "core/units/quantity.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace gasp {
namespace {

/// Full to cut-out, as a plant is let pump up before the doors open.
double opening_pressure(const AirPlant& rig, const PlantModel& plant) {
    const Figure& full = rig.cut_out_kpa_gauge ? rig.cut_out_kpa_gauge : rig.cut_in_kpa_gauge;
    return full ? plant.ambient_pressure + si(Quantity::gauge_pressure, *full) : plant.set_pressure;
}

}  // namespace

NightStage::NightStage(AirModel model, std::span<const NightSequence> sequences)
    : sequences_(sequences.begin(), sequences.end()), cache_(std::move(model)) {}

bool NightStage::limited() const {
    return std::isfinite(model().plant.receiver);
}

double NightStage::settling_s() const {
    double longest = 0.0;
    for (const Rest& rest : rests_) {
        longest = std::max(longest, to_s(rest.settles_in));
    }
    return longest;
}

void NightStage::set_vessels() {
    for (std::size_t i = 0; i < rests_.size(); ++i) {
        const ActuatorModel& each = model().actuators[i];
        const double area = rests_[i].out ? each.out_area : each.back_area;
        Vessel vessel{each.reservoir, 0.0, std::numeric_limits<double>::infinity()};
        if (rests_[i].out || each.back_is_air) {
            vessel.chamber = each.dead_volume + each.tube_volume + area * each.stroke;
        }
        if (each.law == ChamberLaw::wall_heat) {
            const double girth = std::numbers::pi * each.bore;
            vessel.heat = each.heat_transfer * (2.0 * area + girth * (each.stroke + each.dead_volume / area));
        }
        vessels_.push_back(vessel);
    }
}

Result<void> NightStage::add_strikes(std::uint32_t place) {
    const NightSequence& sequence = sequences_[place];
    std::vector<std::size_t>& places = strike_places_.emplace_back();
    places.resize(sequence.commands.size(), StrikePlace::none);
    if (sequence.kind != SequenceKind::triggered || model().actuators.empty()) {
        return {};
    }
    AirOptions options;
    options.curves = false;
    if (model().plant.cut_in <= 0.0) {
        options.receiver_kpa_gauge = (opening_ - model().plant.ambient_pressure) * 1e-3;
    }
    std::vector<Coil> sent;
    for (const Rest& rest : rests_) {
        sent.push_back(rest.out ? Coil::out : Coil::back);
        if (rest.out) {
            options.out_at_start.push_back(model().actuators[sent.size() - 1].id);
        }
    }
    std::vector<StrokeCommand> commands;
    for (std::size_t i = 0; i < sequence.commands.size(); ++i) {
        const StrokeCommand& command = sequence.commands[i];
        const auto found = std::ranges::find(model().actuators, command.actuator, &ActuatorModel::id);
        if (found == model().actuators.end()) {
            continue;
        }
        const auto actuator = static_cast<std::size_t>(found - model().actuators.begin());
        if (std::exchange(sent[actuator], command.way) == command.way) {
            continue;
        }
        commands.push_back(command);
        if ((command.way == Coil::out) != rests_[actuator].out) {
            places[i] = strikes_.size();
            strikes_.push_back(
                {sequence.id, command.actuator, command.way, command.time, {}, false, 0, 0, {}});
        }
    }
    const Result<AirRun> usual = run_air(model(), commands, sequence.length, options);
    if (!usual) {
        return tl::unexpected(usual.error());
    }
    for (const Stroke& stroke : usual->strokes) {
        for (NightStrike& strike : strikes_) {
            if (strike.sequence == sequence.id && strike.actuator == stroke.command.actuator &&
                strike.at == stroke.command.time) {
                strike.usual_s = stroke.strike_s();
                strike.cut_short = !strike.usual_s && stroke.end == StrokeEnd::turned;
            }
        }
    }
    return {};
}

Result<std::unique_ptr<NightStage>> NightStage::make(const Show& show,
                                                     std::span<const NightSequence> sequences) {
    return make(show, fitted_air_model(show), sequences);
}

double NightStage::usual_sum_s() const {
    constexpr double never_s = 60.0;
    double sum = 0.0;
    for (const NightStrike& strike : strikes_) {
        sum += strike.usual_s.value_or(never_s);
    }
    return sum;
}

Result<std::unique_ptr<NightStage>> NightStage::unfavourable(const Show& show) const {
    std::array<double, uncertain_inputs> shares{};
    for (std::size_t i = 0; i < uncertain_inputs; ++i) {
        double latest = 0.0;
        for (const double way : {-1.0, 1.0}) {
            std::array<double, uncertain_inputs> alone{};
            alone[i] = way;
            const auto varied = make(show, air_model_off(show, model(), alone), sequences_);
            if (!varied) {
                return tl::unexpected(varied.error());
            }
            if ((*varied)->usual_sum_s() > latest) {
                latest = (*varied)->usual_sum_s();
                shares[i] = way / std::sqrt(static_cast<double>(uncertain_inputs));
            }
        }
    }
    return make(show, air_model_off(show, model(), shares), sequences_);
}

Result<std::unique_ptr<NightStage>> NightStage::make(const Show& show, AirModel model,
                                                     std::span<const NightSequence> sequences) {
    if (!model.impossible.empty()) {
        return tl::unexpected(model.impossible.front());
    }
    if (!show.rig.air_plant.receiver_l) {
        const BlankField blank = blank_field(nullptr, "air_plant.receiver_l", "receiver");
        if (std::ranges::find(model.missing, blank) == model.missing.end()) {
            model.missing.push_back(blank);
        }
    }
    std::unique_ptr<NightStage> stage(new NightStage(std::move(model), sequences));
    stage->rests_ = gasp::rests(show, stage->model());
    stage->opening_ = opening_pressure(show.rig.air_plant, stage->model().plant);
    stage->set_vessels();
    for (std::uint32_t i = 0; i < stage->sequences_.size(); ++i) {
        if (const Result<void> added = stage->add_strikes(i); !added) {
            return tl::unexpected(added.error());
        }
    }
    return stage;
}

std::size_t NightStage::strike_of(std::uint32_t sequence, std::uint32_t command) const {
    return strike_places_[sequence][command];
}

void NightStage::take_usual_moments(const NightStage& other) {
    for (std::size_t i = 0; i < strikes_.size(); ++i) {
        strikes_[i].usual_s = other.strikes_[i].usual_s;
        strikes_[i].cut_short = other.strikes_[i].cut_short;
    }
}

}  // namespace gasp
