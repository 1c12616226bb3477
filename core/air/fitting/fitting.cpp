// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/fitting/fitting.hpp"

#include "core/air/budget/band.hpp"
#include "core/air/fitting/damped_least_squares.hpp"
#include "core/air/fitting/fit_spread.hpp"
#include "core/air/fitting/timed_apart.hpp"
#include "core/air/run/air_run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

using Logarithms = std::array<double, fitted_inputs>;

constexpr double most_factor = 20.0;
constexpr double longest_stroke_ms = 60'000.0;
constexpr double unexplained = 4.0;         // standard errors
constexpr double unexplained_share = 0.03;  // of the time: the model itself is no better
constexpr double tolerance = 1e-7;          // of a run: smooth enough for differences

constexpr std::array<Uncertain, fitted_inputs> uncertain{Uncertain::friction, Uncertain::conductance,
                                                         Uncertain::delay};
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

/// One actuator of a show alone, ready to be run with any factors.
class Bench {
  public:
    static Result<Bench> of(const Show& show, ActuatorId id, double longest_ms,
                            const std::function<bool()>& stopped = {}) {
        const Actuator* rig = find(show, id);
        if (rig == nullptr) {
            return fail("there is no such actuator");
        }
        Bench bench;
        bench.name_ = rig->name;
        bench.stopped_ = stopped;
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
        options.stopped = stopped_;
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
    std::function<bool()> stopped_;
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

void add_notes(StrokeFit& result, std::span<const TimedStroke> strokes, double stated_ms) {
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
        if (stands_apart(stroke.timed, strokes, stated_ms) ||
            std::abs(stroke.timed.ms - stroke.after_ms) > 3.0 * result.reading_ms) {
            result.notes.push_back(
                fmt::format("The stroke of {:.0f} ms stands apart from the others: time it "
                            "again, or leave it out",
                            stroke.timed.ms));
        }
    }
}

double kept_percent(double deviation) {
    constexpr double most = 100.0;  // that the field takes
    return std::min(most, spread_of_deviation(deviation) * 100.0);
}

class Fitter {
  public:
    Fitter(const Bench& bench, std::span<const TimedStroke> strokes, double stated_ms)
        : bench_(bench), strokes_(strokes), stated_ms_(stated_ms) {
        result_.reading_ms = reading_of(strokes, stated_ms);
    }

    /// `kept` is the actuator's fit so far.
    Result<StrokeFit> fit(const Fit& kept) {
        const auto found = damped_least_squares<fitted_inputs>(
            [&](const Logarithms& x) -> std::optional<std::vector<double>> { return residuals(x); });
        if (!found) {
            return trouble_ ? tl::unexpected(*trouble_) : does_not_arrive(bench_);
        }
        const AirFactors factors = factors_at(found->at);
        const std::optional<StrokeTimes> first = times({});
        const std::optional<StrokeTimes> last = times(factors);
        if (!first || !last) {
            return trouble_ ? tl::unexpected(*trouble_) : does_not_arrive(bench_);
        }
        result_.fit = kept;
        keep_strokes(*first, *last);
        if (const auto reached = check_reached(result_.strokes, strokes_, result_.reading_ms); !reached) {
            return tl::unexpected(reached.error());
        }
        keep_factors(factors, *last);
        add_notes(result_, strokes_, stated_ms_);
        return std::move(result_);
    }

  private:
    std::optional<StrokeTimes> times(const AirFactors& factors) {
        auto found = bench_.times(factors);
        if (!found) {
            trouble_ = found.error();
            return std::nullopt;
        }
        return *found;
    }

    std::optional<std::vector<double>> residuals(const Logarithms& x) {
        if (std::ranges::any_of(x, [](double each) { return std::abs(each) > std::log(most_factor); })) {
            return std::nullopt;
        }
        const std::optional<StrokeTimes> model = times(factors_at(x));
        if (!model) {
            return std::nullopt;
        }
        std::vector<double> all;
        for (const TimedStroke& stroke : strokes_) {
            all.push_back((stroke.ms - modelled_ms(stroke, *model)) / result_.reading_ms);
        }
        const auto before = deviations_before();
        for (std::size_t i = 0; i < fitted_inputs; ++i) {
            all.push_back(x[i] / before[static_cast<std::size_t>(uncertain[i])]);
        }
        return all;
    }

    void keep_strokes(const StrokeTimes& first, const StrokeTimes& last) {
        result_.fit.out_ms.clear();
        result_.fit.back_ms.clear();
        for (const TimedStroke& stroke : strokes_) {
            result_.strokes.push_back({stroke, modelled_ms(stroke, first), modelled_ms(stroke, last)});
            const bool out = stroke.way == Coil::out;
            const double delay = stroke.from_click ? (out ? last.out_delay_ms : last.back_delay_ms) : 0.0;
            (out ? result_.fit.out_ms : result_.fit.back_ms).push_back(stroke.ms + delay);
        }
        result_.off_before_ms = root_mean_square(result_.strokes, &FittedStroke::before_ms);
        result_.off_after_ms = root_mean_square(result_.strokes, &FittedStroke::after_ms);
    }

    /// Of a stroke timed so, by each uncertain input, around the factors found.
    TimeSlopes slopes(const TimedStroke& stroke, const AirFactors& factors, const StrokeTimes& last) {
        constexpr double step = 0.02;
        constexpr std::array<double AirFactors::*, uncertain_inputs> members{
            &AirFactors::friction, &AirFactors::heat, &AirFactors::conductance, &AirFactors::delay,
            &AirFactors::load};
        TimeSlopes all{};
        for (std::size_t i = 0; i < members.size(); ++i) {
            AirFactors high = factors;
            AirFactors low = factors;
            high.*members[i] *= std::exp(step);
            low.*members[i] *= std::exp(-step);
            const std::optional<StrokeTimes> above = times(high);
            const std::optional<StrokeTimes> below = times(low);
            const double width = step * ((above ? 1.0 : 0.0) + (below ? 1.0 : 0.0));
            all[i] = width > 0.0 ? (modelled_ms(stroke, above.value_or(last)) -
                                    modelled_ms(stroke, below.value_or(last))) /
                                       width
                                 : 0.0;
        }
        return all;
    }

    /// How far the model stays off the mean of what was timed, out and back.
    [[nodiscard]] std::array<double, 2> misfit_ms() const {
        std::array<double, 2> sum{};
        std::array<double, 2> count{};
        for (const FittedStroke& stroke : result_.strokes) {
            const auto way = static_cast<std::size_t>(stroke.timed.way);
            sum[way] += stroke.timed.ms - stroke.after_ms;
            count[way] += 1.0;
        }
        for (std::size_t way = 0; way < sum.size(); ++way) {
            sum[way] = std::abs(sum[way]) / std::max(count[way], 1.0);
        }
        return sum;
    }

    void keep_factors(const AirFactors& factors, const StrokeTimes& last) {
        std::array<TimeSlopes, 2> ways;
        std::array<TimeSlopes, 2> from_click;
        for (const Coil way : {Coil::out, Coil::back}) {
            ways[static_cast<std::size_t>(way)] = slopes({way, 0.0, false}, factors, last);
            from_click[static_cast<std::size_t>(way)] = slopes({way, 0.0, true}, factors, last);
        }
        std::vector<TimeSlopes> timed;
        for (const TimedStroke& stroke : strokes_) {
            timed.push_back((stroke.from_click ? from_click : ways)[static_cast<std::size_t>(stroke.way)]);
        }
        const FitSpread spread = fit_spread(timed, result_.reading_ms, ways, misfit_ms());
        const std::array<double, fitted_inputs> found{factors.friction, factors.conductance, factors.delay};
        for (std::size_t i = 0; i < fitted_inputs; ++i) {
            const auto input = static_cast<std::size_t>(uncertain[i]);
            result_.inputs[i] = {static_cast<Fitted>(i), found[i],
                                 spread_of_deviation(deviations_before()[input]) * 100.0,
                                 spread_of_deviation(spread.alone[input]) * 100.0};
        }
        for (std::size_t way = 0; way < ways.size(); ++way) {
            result_.time_spread_before_ms[way] = deviations_in_spread * spread.time_before_ms[way];
            result_.time_spread_ms[way] = deviations_in_spread * spread.time_ms[way];
        }
        const auto kept = [&](Uncertain input) {
            return kept_percent(spread.together[static_cast<std::size_t>(input)]);
        };
        Fit& fit = result_.fit;
        fit.friction_factor = factors.friction;
        fit.conductance_factor = factors.conductance;
        fit.delay_factor = factors.delay;
        fit.friction_spread_percent = kept(Uncertain::friction);
        fit.conductance_spread_percent = kept(Uncertain::conductance);
        fit.delay_spread_percent = kept(Uncertain::delay);
        fit.heat_spread_percent = kept(Uncertain::heat);
        fit.load_spread_percent = kept(Uncertain::load);
    }

    const Bench& bench_;
    std::span<const TimedStroke> strokes_;
    double stated_ms_;
    StrokeFit result_;
    std::optional<Error> trouble_;
};

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
    const Result<Bench> bench =
        Bench::of(show, actuator, std::ranges::max(strokes, {}, &TimedStroke::ms).ms, options.stopped);
    if (!bench) {
        return tl::unexpected(bench.error());
    }
    return Fitter(*bench, strokes, options.reading_ms).fit(find(show, actuator)->fit);
}

}  // namespace gasp
