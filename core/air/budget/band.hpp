// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/air/run/air_run.hpp"
#include "core/show/show.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

// How sure the figures of a stroke are. Five inputs of a model are never known exactly; each is varied alone,
// and what that does to a figure is added up as the root of the sum of the squares (JCGM 100:2008, GUM, 5.1,
// of inputs that do not hang together).

enum class Uncertain : std::uint8_t { friction, heat, conductance, delay, load };
inline constexpr std::size_t uncertain_inputs = 5;

/// How far an input may be off where no fit says so: within the factors 1 / (1 + spread) and 1 + spread.
namespace spread_where_not_measured {
inline constexpr double friction = 0.33;  // an assumption: seals and guides are rarely known within a third
inline constexpr double heat = 1.5;       // an assumption; the literature spans 20 to 200 W/(m2 K)
inline constexpr double conductance = 0.15;  // an assumption: a data sheet's value, and connectors beside it
inline constexpr double delay = 0.3;         // common practice, no source: valves of one type differ so
inline constexpr double load = 0.05;         // an assumption: put on a scale
}  // namespace spread_where_not_measured

/// What the rig's fit says of an actuator: 1 for each factor that it leaves blank.
[[nodiscard]] AirFactors fitted_factors(const Fit& fit);
/// The spread the fit states, else that of spread_where_not_measured.
[[nodiscard]] double spread_of(const Fit& fit, Uncertain input);
/// Whether real strokes have been timed and fitted: else every figure of it is marked "not measured".
[[nodiscard]] bool is_measured(const Fit& fit);

/// The model of the show with every actuator as its fit has it: what everything downstream runs.
[[nodiscard]] AirModel fitted_air_model(const Show& show);

/// Every input off by a share of its spread, one of them for each: its factor is (1 + spread) to that power.
[[nodiscard]] AirModel air_model_off(const Show& show, const AirModel& fitted,
                                     const std::array<double, uncertain_inputs>& shares);

/// Two for each uncertain input, at the low and at the high end of its spread. Requires: `fitted` is that of
/// `show`.
inline constexpr std::size_t variations = 2 * uncertain_inputs;
[[nodiscard]] std::array<AirModel, variations> varied_air_models(const Show& show, const AirModel& fitted);

/// From `low` to `high` around the nominal figure. `high` of a time is infinite where the figure may not get
/// there at all.
struct Band {
    double low = 0.0;
    double nominal = 0.0;
    double high = 0.0;
    bool operator==(const Band&) const = default;
};

/// Of one stroke of a run; the members are those of Stroke.
struct StrokeBand {
    std::array<std::optional<Band>, 4> reached_s;  ///< none where the nominal stroke does not get there
    Band end_speed_m_s;
    Band end_energy_j;
    Band peak_force_n;
    Band working_at_strike_kpa;
    Band receiver_at_strike_kpa;
    Band lowest_receiver_kpa;
    bool arrives = true;  ///< at the unfavourable end of every input too
    bool measured = false;

    [[nodiscard]] const std::optional<Band>& strike_s() const { return reached_s[2]; }
};

/// The bands of each stroke of `nominal`, from the same commands run with each of the varied models.
[[nodiscard]] std::vector<StrokeBand> stroke_bands(const Show& show, const AirRun& nominal,
                                                   std::span<const AirRun> varied);

/// The same of a single stroke, such as the first after air-on.
[[nodiscard]] StrokeBand stroke_band(const Stroke& nominal, std::span<const Stroke> varied, bool measured);

}  // namespace gasp
