// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <array>
#include <functional>
#include <span>
#include <string>
#include <vector>

namespace gasp {

/// A stroke timed on the real thing, to the end of its travel.
struct TimedStroke {
    Coil way = Coil::out;
    double ms = 0.0;
    bool from_click = false;  ///< timed from the valve's click, not from the coil: its delay is not in it
    bool operator==(const TimedStroke&) const = default;
};

/// The inputs that stroke times tell of.
enum class Fitted : std::uint8_t { friction, conductance, delay };
inline constexpr std::size_t fitted_inputs = 3;

/// One of them before and after: its factor, and how far off it may be, as Fit has it: within 1 / (1 +
/// spread) and 1 + spread of the factor, 19 times in 20.
struct FittedInput {
    Fitted input = Fitted::friction;
    double factor = 1.0;
    double spread_before_percent = 0.0;
    double spread_percent = 0.0;
};

struct FittedStroke {
    TimedStroke timed;
    double before_ms = 0.0;  ///< by the model with the rig as it says
    double after_ms = 0.0;   ///< by the fitted one
};

struct StrokeFit {
    /// For the actuator. Its spreads are smaller than those of `inputs`, and hold for all inputs together:
    /// what timed strokes leave open hangs together, and bands add spreads up as if it did not.
    Fit fit;
    std::array<FittedInput, fitted_inputs> inputs;
    std::vector<FittedStroke> strokes;
    double reading_ms = 0.0;                        ///< standard deviation of a timing that was reckoned with
    double off_before_ms = 0.0;                     ///< root mean square over the strokes
    double off_after_ms = 0.0;                      ///< likewise
    std::array<double, 2> time_spread_before_ms{};  ///< of the model's time out and back, either way
    std::array<double, 2> time_spread_ms{};         ///< the same with the strokes known
    std::vector<std::string> notes;                 ///< what to look at on the rig, a sentence each
};

struct TimingOptions {
    /// Standard deviation of one timing. By stopwatch about 30 ms, from a film of 240 pictures a second 4,
    /// from a recording 2 (common practice, no source). Where the strokes scatter more, their scatter counts.
    double reading_ms = 30.0;
    std::function<bool()> stopped = {};  ///< asked now and then; once it answers true the fit fails
};

inline constexpr std::size_t least_timed_strokes = 3;

/// Fits friction, conductances and valve delays to strokes that begin rested, at the regulator's pressure: by
/// damped least squares (K. Levenberg, Quarterly of Applied Mathematics 2, 1944) in the logarithms of the
/// factors, each held near 1 by the spread that is taken where nothing is measured, so that few strokes still
/// give sensible factors. Their remaining spread is that of the linear model at the solution (from the
/// Jacobian), with heat transfer and load as unknown as they are. Error: no such actuator, or one that cannot
/// be simulated; fewer than least_timed_strokes; a time that is none; strokes that the model does not reach
/// whatever the factors, each with a remedy.
[[nodiscard]] Result<StrokeFit> fit_strokes(const Show& show, ActuatorId actuator,
                                            std::span<const TimedStroke> strokes,
                                            const TimingOptions& options = {});

/// How long the strokes of the model take, ms, from the coil switching: for recognising them in a recording.
struct StrokeTimes {
    double out_ms = 0.0;
    double back_ms = 0.0;
    double out_delay_ms = 0.0;  ///< of the valve, held in out_ms
    double back_delay_ms = 0.0;
};

/// From rest, with the factors given. Error: it cannot be simulated, or does not arrive.
[[nodiscard]] Result<StrokeTimes> stroke_times(const Show& show, ActuatorId actuator,
                                               const AirFactors& factors = {});

}  // namespace gasp
