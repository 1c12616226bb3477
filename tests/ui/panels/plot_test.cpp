// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/plot.hpp"

#include "tests/support/catch.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/fit_plot.hpp"
#include "ui/panels/night_plots.hpp"

#include <QImage>
#include <QTest>

#include <rapidcheck.h>

#include <cmath>
#include <limits>
#include <set>

using namespace gasp;

namespace {

std::vector<ScareHour> three_hours() {
    return {{20, 0, 1}, {30, 4, 6}, {12, 0, 0}};
}

/// A night of two hours that falls from 8 to 5 bar and comes back.
PressureNight night() {
    return {{{{0, 800}, {3600, 500}, {7200, 800}}}, 2.0, 550.0, 800.0, 420.0};
}

template <class P>
void show(P& plot) {
    plot.resize(400, 220);
    plot.show();
    REQUIRE(QTest::qWaitForWindowExposed(&plot));
}

std::set<QRgb> colours_of(QWidget& widget) {
    const QImage image = widget.grab().toImage().convertToFormat(QImage::Format_RGB32);
    std::set<QRgb> colours;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            colours.insert(image.pixel(x, y));
        }
    }
    return colours;
}

}  // namespace

TEST_CASE("values of an axis are round, within it and not too many") {
    CHECK(round_values(0, 8, 9) == std::vector<double>{0, 1, 2, 3, 4, 5, 6, 7, 8});
    CHECK(round_values(0, 3, 4) == std::vector<double>{0, 1, 2, 3});
    CHECK(round_values(2, 2, 5).empty());
    CHECK(round_values(0, std::numeric_limits<double>::infinity(), 5).empty());
    CHECK(round_values(std::nan(""), 1, 5).empty());
    REQUIRE(rc::check("round values", [] {
        const double least = *rc::gen::inRange(-100000, 100000) / 7.0;
        const double span = *rc::gen::inRange(1, 1000000) / 13.0;
        const int count = *rc::gen::inRange(2, 20);
        const auto values = round_values(least, least + span, count);
        RC_ASSERT(static_cast<int>(values.size()) <= count);
        for (std::size_t i = 0; i < values.size(); ++i) {
            RC_ASSERT(values[i] >= least - span * 1e-6);
            RC_ASSERT(values[i] <= least + span * (1 + 1e-6));
            if (i > 0) {
                RC_ASSERT(values[i] > values[i - 1]);
            }
        }
    }));
}

TEST_CASE("the unit stands once on an axis, and no zero is negative") {
    const auto ticks = round_ticks(-0.2, 0.2, 5, "bar");
    REQUIRE(ticks.size() == 5);
    CHECK(ticks[2].text == "0.0");
    CHECK(ticks[0].text == "-0.2");
    CHECK(ticks[4].text == "0.2 bar");
}

TEST_CASE("a plot without figures says how to get them") {
    HoursPlot plot;
    show(plot);
    CHECK(plot.summary().isEmpty());
    CHECK(plot.accessibleDescription().contains("Run the forecast"));
    QTest::keyClick(&plot, Qt::Key_Right);
    CHECK(plot.pointed() == -1);
}

TEST_CASE("hours are read out by keys and by the mouse, and again as a whole") {
    HoursPlot plot;
    show(plot);
    plot.set(three_hours());
    CHECK(plot.reading() == "a night: 62 good, 4 weak, 7 refused");
    CHECK(plot.accessibleDescription() == plot.reading());
    plot.setFocus();
    QTest::keyClick(&plot, Qt::Key_Right);
    QTest::keyClick(&plot, Qt::Key_Right);
    CHECK(plot.reading() == "hour 2: 30 good, 4 weak, 6 refused");
    QTest::keyClick(&plot, Qt::Key_End);
    CHECK(plot.pointed() == 2);
    QTest::keyClick(&plot, Qt::Key_Right);
    CHECK(plot.pointed() == 2);
    QTest::keyClick(&plot, Qt::Key_Escape);
    CHECK(plot.pointed() == -1);

    QTest::mouseMove(&plot, {60, 120});
    CHECK(plot.pointed() == 0);
    QTest::mouseMove(&plot, {200, 120});
    CHECK(plot.pointed() == 1);
    QTest::mouseMove(&plot, {370, 120});
    CHECK(plot.pointed() == 2);
    plot.set({{1, 0, 0}});
    CHECK(plot.pointed() == -1);
}

TEST_CASE("pressures are read out in the units of the screen") {
    PressurePlot plot;
    show(plot);
    plot.set(night());
    CHECK(plot.summary() == "lowest 5.00 bar at 1:00 h");
    plot.setFocus();
    QTest::keyClick(&plot, Qt::Key_Home);
    CHECK(plot.reading().startsWith("0:00 h: 7.9"));
    CHECK(plot.reading().endsWith(" to 8.00 bar"));
    plot.set_units(UnitSystem::us);
    // 1 psi = 6.894757 kPa (NIST SP 811, table B.8): 500 kPa is 72.5 psi.
    CHECK(plot.summary() == "lowest 72.5 psi at 1:00 h");
}

TEST_CASE("strikes are read out row by row, and more of them ask for more room") {
    SpreadPlot plot;
    show(plot);
    const int few = plot.minimumSizeHint().height();
    plot.set({{"Keeper", -1.5, 0.0, 12.0}, {"Hatch", 0.0, 4.0, 60.0}}, 45.0);
    CHECK(plot.summary() == "widest: Hatch, 0 to +60 ms");
    plot.setFocus();
    QTest::keyClick(&plot, Qt::Key_Down);
    CHECK(plot.reading() == "Keeper: 5 % -1.5, middle 0, 95 % +12 ms");
    plot.set(std::vector<StrikeSpread>(40, {"Hatch", 0, 1, 2}), 45.0);
    CHECK(plot.minimumSizeHint().height() > few);
}

TEST_CASE("a fit is read out stroke by stroke") {
    FitPlot plot;
    show(plot);
    plot.set({{{Coil::out, 212}, 190, 211}, {{Coil::back, 410}, 380, 412}, {{Coil::out, 208}, 190, 211}});
    CHECK(plot.summary() == "furthest off: 30 ms before, 3 ms after");
    plot.setFocus();
    QTest::keyClick(&plot, Qt::Key_End);
    CHECK(plot.reading() == "out 2: timed 208, before 190, after 211 ms");
}

TEST_CASE("the parts of a bar differ by more than their colour, in both themes") {
    for (const Theme worn : {Theme::dark, Theme::light}) {
        set_theme(worn);
        HoursPlot solid;
        show(solid);
        solid.set({{10, 0, 0}});
        HoursPlot hatched;
        show(hatched);
        hatched.set({{0, 10, 0}});
        HoursPlot hollow;
        show(hollow);
        hollow.set({{0, 0, 10}});
        const auto inked = [](QWidget& plot, const QColor& ink) {
            const QImage image = plot.grab().toImage().convertToFormat(QImage::Format_RGB32);
            int pixels = 0;
            for (int y = 44; y < 190; ++y) {
                pixels += image.pixel(210, y) == ink.rgb() ? 1 : 0;
            }
            return pixels;
        };
        const int full = inked(solid, look().sound_core);
        const int lines = inked(hatched, look().warn_text);
        const int edges = inked(hollow, look().stop_text);
        CHECK(full > 80);
        CHECK(lines > 5);
        CHECK(lines < full / 2);
        CHECK(edges < lines);
        CHECK(edges >= 1);
        CHECK(colours_of(hollow).count(look().stop_text.rgb()) == 1);
    }
    set_theme(Theme::dark);
}
