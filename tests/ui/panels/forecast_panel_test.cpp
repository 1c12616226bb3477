// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/forecast_panel.hpp"

#include "tests/ui/panels/panel_desk.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/night_plots.hpp"
#include "ui/panels/work_bar.hpp"

#include <QPushButton>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

constexpr int patience_ms = 120000;

/// A figure that lunges once in a run of 10 s, on a night with a lockout of 30 s.
struct Desk {
    Desk() {
        QSettings().clear();
        settings.set_units(UnitSystem::metric);
        put_rig(document);
        Channel channel;
        channel.name = "lunge";
        channel.kind = ChannelKind::valve;
        channel.actuator = document.show().rig.actuators.front().id;
        document.perform(add_channel(document.show(), channel));
        Cue cue;
        cue.channel = document.show().rig.channels.front().id;
        cue.at = 2s;
        cue.length = 1500ms;
        document.perform(add_cues(document.show(), document.sequence_id(), {cue}));
        Sensor sensor;
        sensor.lockout_s = 30.0;
        document.perform(set_sensor(document.show(), sensor));
        panel = std::make_unique<ForecastPanel>(document, settings);
        panel->resize(1200, 500);
        panel->show();
    }
    void plan(std::string_view key, const QString& text) { type_into(row_of(panel->rows(), key), text); }
    void run() {
        panel->night_actions().front()->trigger();
        REQUIRE(QTest::qWaitFor([this] { return !panel->run_bar().working(); }, patience_ms));
    }
    template <class P>
    P& plot() {
        return *panel->findChild<P*>();
    }

    Settings settings;
    Document document;
    std::unique_ptr<ForecastPanel> panel;
};

}  // namespace

TEST_CASE("the night is planned in fields, each an edit that can be undone") {
    Desk desk;
    desk.plan("night.hours", "4");
    desk.plan("night.groups_per_h", "60");
    CHECK(desk.document.show().night.hours == 4.0);
    CHECK(desk.document.show().night.groups_per_h == 60.0);
    desk.plan("groups_by_hour", "20 45 60");
    CHECK(desk.document.show().night.groups_by_hour == std::vector<double>{20, 45, 60});
    desk.plan("arrivals_s", "0:40 2:05 1:10:30");
    CHECK(desk.document.show().night.arrivals_s == std::vector<double>{40, 125, 4230});
    desk.plan("arrivals_s", "2:05 0:40");
    CHECK_FALSE(row_of(desk.panel->rows(), "arrivals_s").error().isEmpty());
    CHECK(desk.document.show().night.arrivals_s.size() == 3);
    desk.document.undo_stack().undo();
    CHECK(desk.document.show().night.arrivals_s.empty());
    desk.plan("night.runs", "2.5");
    CHECK_FALSE(row_of(desk.panel->rows(), "night.runs").error().isEmpty());
}

TEST_CASE("the forecast is run beside the window, read in figures and plots, and says when it is old") {
    Desk desk;
    CHECK(desk.plot<HoursPlot>().summary().isEmpty());
    desk.plan("night.hours", "4");
    desk.plan("night.groups_per_h", "60");
    desk.plan("night.runs", "40");
    desk.run();
    REQUIRE(desk.panel->forecast());
    // Of Poisson arrivals at a rate n, a dead time t after each one that counts lets n / (1 + n t) through
    // (the non-paralyzable counter: G. F. Knoll, Radiation Detection and Measurement, ch. 4; from memory).
    CHECK(desk.panel->forecast()->groups.p50 == Approx(240).epsilon(0.05));
    CHECK(desk.panel->forecast()->delivered.p50 == Approx(4 * 60 / 1.5).epsilon(0.05));
    const auto& lines = desk.panel->figures().lines();
    REQUIRE(lines.size() >= 5);
    CHECK(lines[1].figure == QString::number(desk.panel->forecast()->delivered.p50));
    CHECK(desk.plot<HoursPlot>().summary().startsWith("a night: "));
    CHECK(desk.plot<PressurePlot>().summary().contains("bar"));
    CHECK_FALSE(desk.plot<SpreadPlot>().summary().isEmpty());
    CHECK(desk.panel->run_bar().said() == "40 nights of 4 h, 60 groups an hour, seed 1.");

    desk.plan("night.groups_per_h", "80");
    CHECK(desk.panel->out_of_date());
    CHECK(QTest::qWaitFor([&desk] { return desk.panel->run_bar().said().contains("has changed since"); }));
    desk.document.undo_stack().undo();
    CHECK_FALSE(desk.panel->out_of_date());
    CHECK(QTest::qWaitFor([&desk] { return !desk.panel->run_bar().said().contains("changed"); }));
    desk.settings.set_units(UnitSystem::us);
    CHECK(desk.plot<PressurePlot>().summary().contains("psi"));
}

TEST_CASE("a forecast is given up at once, and what was shown stays") {
    Desk desk;
    desk.plan("night.hours", "1");
    desk.plan("night.groups_per_h", "30");
    desk.plan("night.runs", "2");
    desk.run();
    REQUIRE(desk.panel->forecast());
    desk.plan("night.hours", "24");
    desk.plan("night.groups_per_h", "1000");
    desk.plan("night.runs", "10000");
    desk.panel->night_actions().front()->trigger();
    REQUIRE(desk.panel->run_bar().working());
    QTest::qWait(100);
    QTest::mouseClick(&desk.panel->run_bar().cancel_button(), Qt::LeftButton);
    CHECK(QTest::qWaitFor([&desk] { return !desk.panel->run_bar().working(); }, 10000));
    CHECK(desk.panel->forecast()->terms.runs == 2);
    CHECK(desk.panel->run_bar().said().contains("has changed since"));
}

TEST_CASE("how far the plant goes is found when asked, each answer with its reason") {
    Desk desk;
    desk.plan("night.hours", "1");
    desk.plan("night.groups_per_h", "40");
    desk.plan("night.runs", "20");
    desk.panel->resize(1000, 250);
    REQUIRE(desk.panel->answer_bar().visibleRegion().isEmpty());
    desk.panel->night_actions().back()->trigger();
    CHECK(QTest::qWaitFor([&desk] { return !desk.panel->answer_bar().visibleRegion().isEmpty(); }));
    REQUIRE(QTest::qWaitFor([&desk] { return !desk.panel->answer_bar().working(); }, patience_ms));
    CHECK(desk.panel->answer_bar().said().toStdString() == "");
    REQUIRE(desk.panel->answers().lines().size() == 4);
    for (const FigureLine& line : desk.panel->answers().lines()) {
        INFO(line.words.toStdString());
        CHECK_FALSE(line.figure.isEmpty());
        CHECK_FALSE(line.below.isEmpty());
    }
}

TEST_CASE("an idle loop without strokes keeps no forecast from being made") {
    Desk desk;
    desk.plan("night.hours", "24");
    desk.document.perform(add_sequence(desk.document.show(), "idle", SequenceKind::idle, 1ms));
    desk.run();
    CHECK(desk.panel->forecast());
}
