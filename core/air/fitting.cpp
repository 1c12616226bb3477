// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/fitting.hpp"

#include "core/air/air_run.hpp"
#include "core/air/damped_least_squares.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

using Logarithms = std::array<double, fitted_inputs>;

constexpr double coverage = 2.0;  // standard deviations in a stated spread: 19 times in 20 (GUM, 6.3.3)
constexpr double least_factor = 0.05;
constexpr double most_factor = 20.0;
constexpr double longest_stroke_ms = 60'000.0;
constexpr double unexplained = 4.0;         // standard errors
constexpr double unexplained_share = 0.03;  // of the time: the model itself is no better
constexpr double tolerance = 1e-7;          // of a run: smooth enough for differences

constexpr std::array<double, fitted_inputs> spread_before{0.33, 0.15, 0.3};
constexpr std::array<std::string_view, fitted_inputs> names{"the friction", "the conductances",
                                                            "the valve's delay"};
constexpr std::array<std::string_view, fitted_inputs> remedies{
    "look for something that binds or a load that was not weighed",
    "look for a flow control that is not entered, a kinked tube, a clogged silencer, a lower pressure",
    "look for a starved coil or a low pilot pressure"};

AirFactors factors_at(const Logarithms& x) {
    AirFactors factors;
    factors.friction = std::exp(x[0]);
    factors.conductance = std::exp(x[1]);
    factors.delay = std::exp(x[2]);
    return factors;
}

/// The standard deviation of the logarithm that a spread means, and back.
double deviation_of(double spread) {
    return std::log1p(spread) / coverage;
}
double spread_percent(double deviation) {
    return std::expm1(coverage * deviation) * 100.0;
}

/// One actuator of a show alone, ready to be run with any factors.
class Bench {
  public:
    static Result<Bench> of(const Show& show, ActuatorId id, double longest_ms) {
        const Actuator* rig = find(show, id);
        if (rig == nullptr) {
            return fail("there is no such actuator");
        }
        Bench bench;
        bench.name_ = rig->name;
        bench.model_ = air_model(show);
        std::erase_if(bench.model_.actuators, [&](const ActuatorModel& each) { return each.id != id; });
        if (bench.model_.actuators.empty()) {
            for (const BlankField& blank : bench.model_.missing) {
                if (!blank.actuator || blank.actuator == id) {
                    return fail("no " + blank.label, blank.key, "Fill it in");
                }
            }
            return bench.model_.impossible.empty()
                       ? fail(fmt::format("\"{}\" cannot be simulated", rig->name), {}, "Check its figures")
                       : tl::unexpected(bench.model_.impossible.front());
        }
        bench.hold_s_ = std::max(20.0, 4.0 * longest_ms / 1000.0);
        return bench;
    }

    /// None where a stroke does not arrive.
    [[nodiscard]] Result<std::optional<StrokeTimes>> times(const AirFactors& factors) const {
        const AirModel model = varied(model_, factors);
        const ActuatorModel& actuator = model.actuators.front();
        const auto hold = Micros{std::llround(hold_s_ * 1e6)};
        const std::array commands{StrokeCommand{Micros{0}, actuator.id, Coil::out},
                                  StrokeCommand{hold, actuator.id, Coil::back}};
        AirOptions options;
        options.tolerance = tolerance;
        options.curves = false;
        const Result<AirRun> run = run_air(model, commands, 2 * hold, options);
        if (!run) {
            return tl::unexpected(run.error());
        }
        if (run->strokes.size() != 2 || !run->strokes[0].reached_s[3] || !run->strokes[1].reached_s[3]) {
            return std::optional<StrokeTimes>();
        }
        return std::optional(StrokeTimes{*run->strokes[0].reached_s[3] * 1000.0,
                                         *run->strokes[1].reached_s[3] * 1000.0,
                                         actuator.opening_delay * 1000.0, actuator.closing_delay * 1000.0});
    }

    [[nodiscard]] const std::string& name() const { return name_; }

  private:
    AirModel model_;
    std::string name_;
    double hold_s_ = 20.0;  ///< until all is at rest
};

double modelled_ms(const TimedStroke& stroke, const StrokeTimes& times) {
    const double whole = stroke.way == Coil::out ? times.out_ms : times.back_ms;
    const double delay = stroke.way == Coil::out ? times.out_delay_ms : times.back_delay_ms;
    return whole - (stroke.from_click ? delay : 0.0);
}

Result<void> check(std::span<const TimedStroke> strokes, const TimingOptions& options) {
    if (strokes.size() < least_timed_strokes) {
        return fail(fmt::format("{} timed {} not enough to fit to", strokes.size(),
                                strokes.size() == 1 ? "stroke is" : "strokes are"),
                    {}, fmt::format("Time at least {}, better five each way", least_timed_strokes));
    }
    for (const TimedStroke& stroke : strokes) {
        if (!(stroke.ms >= 1.0 && stroke.ms <= longest_stroke_ms)) {
            return fail(fmt::format("{} ms is no time of a stroke", stroke.ms),
                        stroke.way == Coil::out ? "out" : "back", "Give 1 to 60000 ms");
        }
    }
    if (!(options.reading_ms >= 0.1 && options.reading_ms <= 1000.0)) {
        return fail(fmt::format("{} ms is no spread of a timing", options.reading_ms), "reading",
                    "Give 0.1 to 1000 ms; a stopwatch has about 30");
    }
    return {};
}

/// Strokes timed in one way from one event should all be alike.
bool alike(const TimedStroke& one, const TimedStroke& other) {
    return one.way == other.way && one.from_click == other.from_click;
}

double mean_of_alike(std::span<const TimedStroke> strokes, const TimedStroke& stroke) {
    double sum = 0.0;
    double count = 0.0;
    for (const TimedStroke& each : strokes) {
        sum += alike(each, stroke) ? each.ms : 0.0;
        count += alike(each, stroke) ? 1.0 : 0.0;
    }
    return sum / count;
}

/// The spread of one timing: as stated, or as the strokes scatter where that is more.
double reading_of(std::span<const TimedStroke> strokes, double stated_ms) {
    double squares = 0.0;
    std::vector<TimedStroke> kinds;
    for (const TimedStroke& stroke : strokes) {
        const double off = stroke.ms - mean_of_alike(strokes, stroke);
        squares += off * off;
        if (std::ranges::none_of(kinds, [&](const TimedStroke& kind) { return alike(kind, stroke); })) {
            kinds.push_back(stroke);
        }
    }
    const auto freedom = static_cast<double>(strokes.size() - kinds.size());
    return freedom > 0.0 ? std::max(stated_ms, std::sqrt(squares / freedom)) : stated_ms;
}

double root_mean_square(std::span<const FittedStroke> strokes, double FittedStroke::*model) {
    double squares = 0.0;
    for (const FittedStroke& stroke : strokes) {
        const double off = stroke.timed.ms - stroke.*model;
        squares += off * off;
    }
    return std::sqrt(squares / static_cast<double>(strokes.size()));
}

tl::unexpected<Error> does_not_arrive(const Bench& bench) {
    return fail(fmt::format("\"{}\" does not go out and back in the model as the rig says", bench.name()), {},
                "Check load, pressure, bore and spring before fitting");
}

/// The strokes are all of one kind, or the model with the factors found meets each kind's mean.
Result<void> check_reached(std::span<const FittedStroke> fitted, std::span<const TimedStroke> strokes,
                           double reading_ms) {
    for (const FittedStroke& stroke : fitted) {
        const auto count = static_cast<double>(std::ranges::count_if(
            strokes, [&](const TimedStroke& each) { return alike(each, stroke.timed); }));
        const double mean = mean_of_alike(strokes, stroke.timed);
        const double off = std::abs(mean - stroke.after_ms);
        if (off > unexplained * std::hypot(reading_ms / std::sqrt(count), unexplained_share * mean)) {
            const std::string_view way = stroke.timed.way == Coil::out ? "out" : "back";
            return fail(
                fmt::format("the model does not reach {:.0f} ms {}: with any friction, conductance and "
                            "delay that also suit the other strokes it takes about {:.0f} ms",
                            mean, way, stroke.after_ms),
                std::string(way),
                "Check that way's flow control and exhaust, the pressure, and how it was timed");
        }
    }
    return {};
}

void add_notes(StrokeFit& result) {
    for (std::size_t i = 0; i < fitted_inputs; ++i) {
        const FittedInput& input = result.inputs[i];
        const double away = std::abs(std::log(input.factor));
        if (away > 2.0 * std::log1p(input.spread_before_percent / 100.0)) {
            result.notes.push_back(
                fmt::format("The strokes ask for {} to be {:.2g} times what the rig says: {}", names[i],
                            input.factor, remedies[i]));
        }
    }
    for (const FittedStroke& stroke : result.strokes) {
        if (std::abs(stroke.timed.ms - stroke.after_ms) > 3.0 * result.reading_ms) {
            result.notes.push_back(
                fmt::format("The stroke of {:.0f} ms stands apart from the others: time it "
                            "again, or leave it out",
                            stroke.timed.ms));
        }
    }
}

void keep_in(Fit& fit, const StrokeFit& result) {
    const auto& [friction, conductance, delay] = result.inputs;
    fit.friction_factor = friction.factor;
    fit.friction_spread_percent = std::min(100.0, friction.spread_percent);
    fit.conductance_factor = conductance.factor;
    fit.conductance_spread_percent = std::min(100.0, conductance.spread_percent);
    fit.delay_factor = delay.factor;
    fit.delay_spread_percent = std::min(100.0, delay.spread_percent);
}

}  // namespace

Result<StrokeTimes> stroke_times(const Show& show, ActuatorId actuator, const AirFactors& factors) {
    const Result<Bench> bench = Bench::of(show, actuator, 5000.0);
    if (!bench) {
        return tl::unexpected(bench.error());
    }
    const auto times = bench->times(factors);
    if (!times) {
        return tl::unexpected(times.error());
    }
    if (!*times) {
        return does_not_arrive(*bench);
    }
    return **times;
}

Result<StrokeFit> fit_strokes(const Show& show, ActuatorId actuator, std::span<const TimedStroke> strokes,
                              const TimingOptions& options) {
    if (const Result<void> checked = check(strokes, options); !checked) {
        return tl::unexpected(checked.error());
    }
    const Result<Bench> bench = Bench::of(show, actuator, std::ranges::max(strokes, {}, &TimedStroke::ms).ms);
    if (!bench) {
        return tl::unexpected(bench.error());
    }
    StrokeFit result;
    result.reading_ms = reading_of(strokes, options.reading_ms);
    std::optional<Error> trouble;
    const auto times_at = [&](const Logarithms& x) -> std::optional<StrokeTimes> {
        if (std::ranges::any_of(x, [](double each) { return std::abs(each) > std::log(most_factor); })) {
            return std::nullopt;
        }
        auto times = bench->times(factors_at(x));
        if (!times) {
            trouble = times.error();
            return std::nullopt;
        }
        return *times;
    };
    const auto residuals = [&](const Logarithms& x) -> std::optional<std::vector<double>> {
        const std::optional<StrokeTimes> times = times_at(x);
        if (!times) {
            return std::nullopt;
        }
        std::vector<double> all;
        for (const TimedStroke& stroke : strokes) {
            all.push_back((stroke.ms - modelled_ms(stroke, *times)) / result.reading_ms);
        }
        for (std::size_t i = 0; i < fitted_inputs; ++i) {
            all.push_back(x[i] / deviation_of(spread_before[i]));
        }
        return all;
    };
    const auto found = damped_least_squares<fitted_inputs>(residuals);
    if (!found) {
        return trouble ? tl::unexpected(*trouble) : does_not_arrive(*bench);
    }
    const StrokeTimes first = times_at({}).value();
    const StrokeTimes last = times_at(found->at).value();
    for (std::size_t i = 0; i < fitted_inputs; ++i) {
        result.inputs[i] = {static_cast<Fitted>(i), std::exp(found->at[i]), spread_before[i] * 100.0,
                            spread_percent(found->deviation[i])};
    }
    result.fit = find(show, actuator)->fit;
    result.fit.out_ms.clear();
    result.fit.back_ms.clear();
    for (const TimedStroke& stroke : strokes) {
        result.strokes.push_back({stroke, modelled_ms(stroke, first), modelled_ms(stroke, last)});
        const bool out = stroke.way == Coil::out;
        const double delay = stroke.from_click ? (out ? last.out_delay_ms : last.back_delay_ms) : 0.0;
        (out ? result.fit.out_ms : result.fit.back_ms).push_back(stroke.ms + delay);
    }
    if (const Result<void> reached = check_reached(result.strokes, strokes, result.reading_ms); !reached) {
        return tl::unexpected(reached.error());
    }
    result.off_before_ms = root_mean_square(result.strokes, &FittedStroke::before_ms);
    result.off_after_ms = root_mean_square(result.strokes, &FittedStroke::after_ms);
    keep_in(result.fit, result);
    add_notes(result);
    return result;
}

}  // namespace gasp
