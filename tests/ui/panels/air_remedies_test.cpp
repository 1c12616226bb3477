// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/air_remedies.hpp"

#include "tests/ui/panels/panel_desk.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/findings_panel.hpp"
#include "ui/panels/work_bar.hpp"

#include <QAction>
#include <QApplication>
#include <QPushButton>
#include <QTableView>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

/// The rig of put_rig with a second figure, heavier, on a receiver too small for both at once; the second
/// one's cue may move by `freedom`. Invented.
void put_starved_show(Document& document, Micros freedom, double receiver_l) {
    put_rig(document);
    AirPlant plant = document.show().rig.air_plant;
    plant.receiver_l = receiver_l;
    plant.cut_in_kpa_gauge = 450.0;
    plant.cut_out_kpa_gauge = 600.0;
    plant.delivery_l_min = 20.0 * receiver_l;
    document.perform(set_air_plant(document.show(), plant));
    Actuator door = document.show().rig.actuators.front();
    door.name = "Door";
    door.cylinder.bore_mm = 50.0;
    door.load.mass_kg = 12.0;
    document.perform(add_actuator(document.show(), door));
    std::vector<Cue> cues;
    for (const Actuator& actuator : document.show().rig.actuators) {
        Channel valve;
        valve.name = actuator.name + "'s valve";
        valve.kind = ChannelKind::valve;
        valve.actuator = actuator.id;
        document.perform(add_channel(document.show(), valve));
        Cue cue;
        cue.channel = document.show().rig.channels.back().id;
        cue.name = actuator.name;
        cue.at = 2s;
        cue.length = 1500ms;
        cue.freedom = actuator.name == "Door" ? freedom : 0s;
        cues.push_back(cue);
    }
    document.perform(add_cues(document.show(), document.sequence_id(), cues));
}

struct Desk {
    explicit Desk(Micros freedom, double receiver_l = 2.0) {
        QSettings().clear();
        settings.set_units(UnitSystem::metric);
        put_starved_show(document, freedom, receiver_l);
        panel.resize(1000, 300);
        panel.show();
        REQUIRE(QTest::qWaitForWindowActive(&panel));
        settle();
    }
    void settle() {
        analysis.wait();
        QApplication::processEvents();
    }
    /// By its key, from the list.
    void open() {
        panel.table().setFocus();
        QTest::keyClick(&panel.table(), Qt::Key_F4);
        REQUIRE(remedies().isVisible());
    }
    AirRemedies& remedies() { return panel.remedies(); }
    [[nodiscard]] double lowest() { return analysis.wait()->air.run->lowest_receiver_kpa; }
    void search_ends() {
        REQUIRE(QTest::qWaitFor([this] { return !remedies().search().working(); }, 60000));
    }

    Settings settings;
    Document document;
    Analysis analysis{document};
    FindingsPanel panel{document, analysis, settings};
};

}  // namespace

TEST_CASE("a starved figure's finding offers the shifts it names, and they are done as one step") {
    Desk desk(4s);
    const Show before = desk.document.show();
    REQUIRE(desk.lowest() < 400.0);
    desk.open();
    const auto& stagger = desk.analysis.result()->facts->stagger;
    REQUIRE(stagger);
    REQUIRE(*stagger);
    const auto& lines = desk.remedies().shifts().lines();
    REQUIRE(lines.size() == (*stagger)->shifts.size() + 1);
    CHECK(lines.front().words.startsWith("Door"));
    CHECK((lines.front().figure.endsWith("later") || lines.front().figure.endsWith("earlier")));
    CHECK(lines.back().beside.contains("at least 4 bar"));
    const int steps = desk.document.undo_stack().index();
    QTest::mouseClick(&desk.remedies().move_button(), Qt::LeftButton);
    CHECK(desk.document.undo_stack().index() == steps + 1);
    CHECK_FALSE(desk.remedies().isVisible());
    CHECK(desk.lowest() >= 400.0);
    desk.settle();
    CHECK_FALSE(desk.panel.finding_actions().front()->isEnabled());
    desk.document.undo_stack().undo();
    CHECK(desk.document.show() == before);
}

TEST_CASE("the reservoir beside the figure is the other way, as one step") {
    Desk desk(4s, 0.7);
    const Show before = desk.document.show();
    desk.open();
    desk.search_ends();
    INFO(desk.remedies().search().said().toStdString());
    REQUIRE_FALSE(desk.remedies().reservoir().lines().empty());
    REQUIRE(desk.remedies().fit_button().isVisible());
    QTest::mouseClick(&desk.remedies().fit_button(), Qt::LeftButton);
    const auto& actuators = desk.document.show().rig.actuators;
    CHECK(std::ranges::any_of(actuators, [](const Actuator& a) { return a.feed.reservoir_l.has_value(); }));
    desk.document.undo_stack().undo();
    CHECK(desk.document.show() == before);
}

TEST_CASE("why no cue can be moved is said, and Esc goes back to the list") {
    Desk desk(0s);
    desk.open();
    REQUIRE(desk.remedies().shifts().lines().size() == 1);
    CHECK(desk.remedies().shifts().lines().front().below.contains("freedom"));
    CHECK_FALSE(desk.remedies().move_button().isEnabled());
    QTest::keyClick(&desk.remedies(), Qt::Key_Escape);
    CHECK_FALSE(desk.remedies().isVisible());
    CHECK(desk.panel.table().hasFocus());
}

TEST_CASE("a show that changes under the remedies never gets those of before") {
    Desk desk(4s);
    desk.open();
    desk.search_ends();
    AirPlant plant = desk.document.show().rig.air_plant;
    plant.receiver_l = 200.0;
    desk.document.perform(set_air_plant(desk.document.show(), plant));
    desk.settle();
    CHECK(desk.remedies().shifts().lines().front().words == "The receiver holds up now");
    CHECK_FALSE(desk.remedies().move_button().isEnabled());
    CHECK_FALSE(desk.remedies().fit_button().isEnabled());
}
