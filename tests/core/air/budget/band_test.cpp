// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/budget/band.hpp"

#include "core/air/budget/air_memo.hpp"
#include "tests/support/air_rig.hpp"
#include "tests/support/catch.hpp"

#include <chrono>
#include <cmath>
#include <vector>

using namespace gasp;
using namespace gasp::for_tests;
using namespace std::chrono_literals;

namespace {

Stroke arriving(double strike_s, double speed = 1.0) {
    Stroke stroke;
    stroke.shifted = true;
    stroke.end = StrokeEnd::arrives;
    stroke.reached_s = {strike_s / 2, strike_s * 0.8, strike_s, strike_s * 1.1};
    stroke.end_speed_m_s = speed;
    return stroke;
}

StrokeBand band_with(const Show& show) {
    AirMemo memo;
    memo.take(show);
    const std::vector<StrokeCommand> commands{{1s, keeper, Coil::out}, {4s, keeper, Coil::back}};
    const AirRun run = memo.run(0, commands, 10s).value();
    return memo.bands(show, run, commands, 10s)->front();
}

}  // namespace

TEST_CASE("deviations add up as the root of the sum of their squares", "[band]") {
    // JCGM 100:2008 (GUM), 5.1.2, for inputs that do not hang together: u = sqrt(3^2 + 4^2) = 5.
    std::vector<Stroke> varied(variations, arriving(0.2));
    varied[0] = arriving(0.203);
    varied[1] = arriving(0.197);
    varied[2] = arriving(0.196);
    varied[3] = arriving(0.204);
    const StrokeBand band = stroke_band(arriving(0.2), varied, false);
    CHECK(band.strike_s()->nominal == 0.2);
    CHECK(band.strike_s()->high == Approx(0.205));
    CHECK(band.strike_s()->low == Approx(0.195));
    CHECK(band.end_speed_m_s == Band{1.0, 1.0, 1.0});
    CHECK_FALSE(band.measured);
}

TEST_CASE("a stroke that one end of an input keeps from arriving may never arrive", "[band]") {
    std::vector<Stroke> varied(variations, arriving(0.2));
    varied[1] = Stroke{};
    varied[1].end = StrokeEnd::stalls;
    const StrokeBand band = stroke_band(arriving(0.2), varied, false);
    CHECK(std::isinf(band.strike_s()->high));
    CHECK(band.strike_s()->low == Approx(0.2));
    CHECK_FALSE(band.arrives);
}

TEST_CASE("a fit moves the model, narrows the band and says it is measured", "[band]") {
    Show show = rig_of_two();
    const StrokeBand wide = band_with(show);
    REQUIRE(wide.strike_s());
    CHECK(wide.strike_s()->low < wide.strike_s()->nominal);
    CHECK(wide.strike_s()->high > wide.strike_s()->nominal);
    CHECK_FALSE(wide.measured);
    Fit& fit = show.rig.actuators[0].fit;
    fit.conductance_factor = 0.8;
    fit.conductance_spread_percent = 2.0;
    fit.friction_spread_percent = 5.0;
    fit.delay_spread_percent = 5.0;
    fit.heat_spread_percent = 20.0;
    fit.load_spread_percent = 1.0;
    const StrokeBand narrow = band_with(show);
    CHECK(narrow.measured);
    CHECK(narrow.strike_s()->nominal > wide.strike_s()->nominal);
    CHECK(narrow.strike_s()->high - narrow.strike_s()->low <
          0.5 * (wide.strike_s()->high - wide.strike_s()->low));
    CHECK(fitted_air_model(show).find(keeper)->supply.c ==
          Approx(0.8 * air_model(show).find(keeper)->supply.c));
    CHECK(fitted_air_model(show).find(hatch)->supply.c == air_model(show).find(hatch)->supply.c);
}

TEST_CASE("a spread left blank is the default, a stated one holds", "[band]") {
    Fit fit;
    CHECK(spread_of(fit, Uncertain::friction) == spread_where_not_measured::friction);
    CHECK_FALSE(is_measured(fit));
    fit.friction_spread_percent = 8.0;
    CHECK(spread_of(fit, Uncertain::friction) == Approx(0.08));
    CHECK_FALSE(is_measured(fit));
}
