// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/night/night.hpp"
#include "core/air/night/night_answers.hpp"
#include "core/show/show.hpp"
#include "core/units/quantity.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/night_plots.hpp"

#include <QString>

#include <vector>

namespace gasp {

// A forecast as the panel shows it.

/// The figures of a night: the middle one of all nights, and from where to where nine of ten lie.
[[nodiscard]] std::vector<FigureLine> forecast_lines(const NightForecast& forecast, const AirPlant& plant,
                                                     UnitSystem units);
[[nodiscard]] PressureNight pressure_night(const NightForecast& forecast, const AirPlant& plant);
/// Of the strikes that took place. Named by sequence, figure and way as far as they differ.
[[nodiscard]] std::vector<StrikeSpread> strike_spreads(const NightForecast& forecast, const Show& show);
[[nodiscard]] std::vector<ScareHour> scare_hours(const NightForecast& forecast);
[[nodiscard]] std::vector<FigureLine> answer_lines(const std::vector<NightAnswer>& answers, UnitSystem units);
/// "200 nights of 8 h, 40 groups an hour, seed 1".
[[nodiscard]] QString forecast_terms(const NightTerms& terms);

}  // namespace gasp
