// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/budget/band.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gasp {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();

double& factor_of(AirFactors& factors, Uncertain input) {
    switch (input) {
        case Uncertain::friction:
            return factors.friction;
        case Uncertain::heat:
            return factors.heat;
        case Uncertain::conductance:
            return factors.conductance;
        case Uncertain::delay:
            return factors.delay;
        case Uncertain::load:
            break;
    }
    return factors.load;
}

/// Collects what variations do to one figure.
class Sum {
  public:
    explicit Sum(double nominal) : nominal_(nominal) {}

    /// Both ends of one input: the worse of the two counts, up and down.
    void add(double one, double other) {
        up_ += square(std::max({one - nominal_, other - nominal_, 0.0}));
        down_ += square(std::max({nominal_ - one, nominal_ - other, 0.0}));
    }
    /// `least`: what the figure cannot fall below.
    [[nodiscard]] Band band(double least) const {
        return {std::max(nominal_ - std::sqrt(down_), std::min(least, nominal_)), nominal_,
                nominal_ + std::sqrt(up_)};
    }

  private:
    static double square(double x) { return x * x; }

    double nominal_;
    double up_ = 0.0;
    double down_ = 0.0;
};

template <class Get>
Band band_of(const Stroke& nominal, std::span<const Stroke> varied, Get get, double least = 0.0) {
    Sum sum(get(nominal));
    for (std::size_t i = 0; i + 1 < varied.size(); i += 2) {
        sum.add(get(varied[i]), get(varied[i + 1]));
    }
    return sum.band(least);
}

/// The stroke of a command; an unfinished one where the run has none. `place` is where it should be.
Stroke same_stroke(const AirRun& run, std::size_t place, const StrokeCommand& command) {
    if (place < run.strokes.size() && run.strokes[place].command == command) {
        return run.strokes[place];
    }
    const auto found = std::ranges::find(run.strokes, command, &Stroke::command);
    if (found != run.strokes.end()) {
        return *found;
    }
    Stroke none;
    none.command = command;
    return none;
}

}  // namespace

AirFactors fitted_factors(const Fit& fit) {
    AirFactors factors;
    factors.friction = fit.friction_factor.value_or(1.0);
    factors.conductance = fit.conductance_factor.value_or(1.0);
    factors.delay = fit.delay_factor.value_or(1.0);
    return factors;
}

double spread_of(const Fit& fit, Uncertain input) {
    namespace otherwise = spread_where_not_measured;
    const auto stated = [](const Figure& percent, double spread) {
        return percent ? *percent / 100.0 : spread;
    };
    switch (input) {
        case Uncertain::friction:
            return stated(fit.friction_spread_percent, otherwise::friction);
        case Uncertain::heat:
            return stated(fit.heat_spread_percent, otherwise::heat);
        case Uncertain::conductance:
            return stated(fit.conductance_spread_percent, otherwise::conductance);
        case Uncertain::delay:
            return stated(fit.delay_spread_percent, otherwise::delay);
        case Uncertain::load:
            break;
    }
    return stated(fit.load_spread_percent, otherwise::load);
}

bool is_measured(const Fit& fit) {
    return fit.friction_factor || fit.conductance_factor || fit.delay_factor;
}

AirModel fitted_air_model(const Show& show) {
    AirModel model = air_model(show);
    for (ActuatorModel& each : model.actuators) {
        const AirFactors factors = fitted_factors(find(show, each.id)->fit);
        if (factors != AirFactors{}) {
            each = varied(each, factors);
        }
    }
    return model;
}

AirModel air_model_off(const Show& show, const AirModel& fitted,
                       const std::array<double, uncertain_inputs>& shares) {
    AirModel model = fitted;
    for (ActuatorModel& each : model.actuators) {
        AirFactors factors;
        for (std::size_t i = 0; i < uncertain_inputs; ++i) {
            const auto input = static_cast<Uncertain>(i);
            factor_of(factors, input) = std::pow(1.0 + spread_of(find(show, each.id)->fit, input), shares[i]);
        }
        each = varied(each, factors);
    }
    return model;
}

std::array<AirModel, variations> varied_air_models(const Show& show, const AirModel& fitted) {
    std::array<AirModel, variations> models;
    for (std::size_t i = 0; i < variations; ++i) {
        std::array<double, uncertain_inputs> shares{};
        shares[i / 2] = i % 2 == 0 ? -1.0 : 1.0;
        models[i] = air_model_off(show, fitted, shares);
    }
    return models;
}

StrokeBand stroke_band(const Stroke& nominal, std::span<const Stroke> varied, bool measured) {
    StrokeBand band;
    band.measured = measured;
    for (std::size_t i = 0; i < nominal.reached_s.size(); ++i) {
        if (nominal.reached_s[i]) {
            band.reached_s[i] = band_of(
                nominal, varied, [i](const Stroke& stroke) { return stroke.reached_s[i].value_or(never); });
        }
    }
    constexpr double any = -never;
    band.end_speed_m_s = band_of(nominal, varied, [](const Stroke& each) { return each.end_speed_m_s; });
    band.end_energy_j = band_of(nominal, varied, [](const Stroke& each) { return each.end_energy_j; });
    band.peak_force_n = band_of(nominal, varied, [](const Stroke& each) { return each.peak_force_n; });
    band.working_at_strike_kpa = band_of(
        nominal, varied, [](const Stroke& each) { return each.working_at_strike_kpa; }, any);
    band.receiver_at_strike_kpa = band_of(
        nominal, varied, [](const Stroke& each) { return each.receiver_at_strike_kpa; }, any);
    band.lowest_receiver_kpa = band_of(
        nominal, varied, [](const Stroke& each) { return each.lowest_receiver_kpa; }, any);
    const auto arrives = [](const Stroke& stroke) { return stroke.end == StrokeEnd::arrives; };
    band.arrives = arrives(nominal) && std::ranges::all_of(varied, arrives);
    return band;
}

std::vector<StrokeBand> stroke_bands(const Show& show, const AirRun& nominal,
                                     std::span<const AirRun> varied) {
    std::vector<StrokeBand> bands;
    bands.reserve(nominal.strokes.size());
    std::vector<Stroke> others(varied.size());
    for (std::size_t i = 0; i < nominal.strokes.size(); ++i) {
        const Stroke& stroke = nominal.strokes[i];
        for (std::size_t v = 0; v < varied.size(); ++v) {
            others[v] = same_stroke(varied[v], i, stroke.command);
        }
        const Actuator* actuator = find(show, stroke.command.actuator);
        bands.push_back(stroke_band(stroke, others, actuator != nullptr && is_measured(actuator->fit)));
    }
    return bands;
}

}  // namespace gasp
