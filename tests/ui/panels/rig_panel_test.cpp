// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/rig_panel.hpp"

#include "core/show/edits.hpp"
#include "core/show/fields.hpp"
#include "tests/support/catch.hpp"

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QSettings>
#include <QTest>

#include <algorithm>
#include <set>

using namespace gasp;

namespace {

struct Desk {
    Desk() {
        QSettings().clear();
        settings.set_units(UnitSystem::metric);
        panel.resize(300, 700);
        panel.show();
    }
    FormRow& row(std::string_view key) {
        const auto& rows = panel.form().rows();
        const auto it =
            std::find_if(rows.begin(), rows.end(), [&](const FormRow* r) { return r->key() == key; });
        REQUIRE(it != rows.end());
        return **it;
    }
    QLineEdit& line(std::string_view key) {
        auto* edit = qobject_cast<QLineEdit*>(row(key).editor());
        REQUIRE(edit != nullptr);
        return *edit;
    }
    /// As a user does: focus, select all, type, Enter.
    void type(std::string_view key, const QString& text) {
        QLineEdit& edit = line(key);
        edit.setFocus();
        edit.selectAll();
        QTest::keyClick(&edit, Qt::Key_Delete);
        QTest::keyClicks(&edit, text);
        QTest::keyClick(&edit, Qt::Key_Return);
    }
    const Actuator& actuator() { return document.show().rig.actuators.front(); }
    const Channel& channel(std::size_t i = 0) { return document.show().rig.channels[i]; }

    Settings settings;
    Document document;
    Analysis analysis{document};
    RigPanel panel{document, analysis, settings};
};

template <class T>
void add_keys(std::set<std::string>& keys, const std::string& prefix) {
    for (const auto& choice : fields<T>().choices) {
        keys.insert(prefix + std::string(choice.key));
    }
    for (const auto& figure : fields<T>().figures) {
        keys.insert(prefix + std::string(figure.key));
    }
    for (const auto& line : fields<T>().texts) {
        keys.insert(prefix + std::string(line.key));
    }
}

std::set<std::string> keys_shown(RigPanel& panel) {
    std::set<std::string> keys;
    for (const FormRow* row : panel.form().rows()) {
        keys.insert(row->key());
    }
    return keys;
}

}  // namespace

TEST_CASE("every field of the rig that core describes stands in a form") {
    Desk desk;
    desk.panel.add(PartKind::actuator);
    std::set<std::string> actuator{"name"};
    add_keys<Cylinder>(actuator, "cylinder.");
    add_keys<Valve>(actuator, "valve.");
    add_keys<FlowControls>(actuator, "flow_controls.");
    add_keys<Feed>(actuator, "feed.");
    add_keys<Tube>(actuator, "tube.");
    add_keys<Load>(actuator, "load.");
    add_keys<Linkage>(actuator, "linkage.");
    actuator.insert("linkage.points_mm_deg");
    add_keys<Base>(actuator, "base.");
    add_keys<Motion>(actuator, "motion.");
    add_keys<Fit>(actuator, "fit.");
    CHECK(keys_shown(desk.panel) == actuator);

    desk.panel.add(PartKind::channel);
    std::set<std::string> channel{"name", "board", "output", "actuator", "excludes"};
    add_keys<Channel>(channel, "");
    channel.insert({"circuit.supply", "circuit.returns_to"});
    add_keys<Circuit>(channel, "circuit.");
    CHECK(keys_shown(desk.panel) == channel);

    desk.panel.add(PartKind::board);
    std::set<std::string> board{"name"};
    add_keys<Board>(board, "");
    CHECK(keys_shown(desk.panel) == board);

    desk.panel.add(PartKind::supply);
    std::set<std::string> supply{"name", "fed_from"};
    add_keys<Supply>(supply, "");
    CHECK(keys_shown(desk.panel) == supply);

    std::set<std::string> plant;
    add_keys<AirPlant>(plant, "air_plant.");
    desk.panel.choose({PartKind::air_plant, 0});
    CHECK(keys_shown(desk.panel) == plant);
    std::set<std::string> sensor;
    add_keys<Sensor>(sensor, "sensor.");
    desk.panel.choose({PartKind::sensor, 0});
    CHECK(keys_shown(desk.panel) == sensor);
    std::set<std::string> speaker;
    add_keys<Speaker>(speaker, "speaker.");
    desk.panel.choose({PartKind::speaker, 0});
    CHECK(keys_shown(desk.panel) == speaker);
}

TEST_CASE("a figure is typed in any unit, is one step to undo, and is read again after it") {
    Desk desk;
    desk.panel.add(PartKind::actuator);
    const int steps = desk.document.undo_stack().count();
    CHECK(desk.line("cylinder.bore_mm").text().isEmpty());

    desk.type("cylinder.bore_mm", "1 1/2 in");  // the inch is 25.4 mm exactly (ISO 80000-3)
    REQUIRE(desk.actuator().cylinder.bore_mm);
    CHECK(*desk.actuator().cylinder.bore_mm == Approx(38.1).epsilon(1e-9));
    CHECK(desk.line("cylinder.bore_mm").text() == "38.1");
    CHECK(desk.document.undo_stack().count() == steps + 1);

    desk.document.undo_stack().undo();
    CHECK_FALSE(desk.actuator().cylinder.bore_mm);
    CHECK(desk.line("cylinder.bore_mm").text().isEmpty());
    desk.document.undo_stack().redo();
    CHECK(desk.line("cylinder.bore_mm").text() == "38.1");

    desk.type("cylinder.bore_mm", "");
    CHECK_FALSE(desk.actuator().cylinder.bore_mm);
}

TEST_CASE("looking at a figure without typing changes nothing, however it is rounded") {
    Desk desk;
    desk.panel.add(PartKind::actuator);
    Actuator actuator = desk.actuator();
    actuator.cylinder.bore_mm = 38.123456;
    desk.document.perform(set_actuator(desk.document.show(), actuator));
    const Show before = desk.document.show();
    desk.line("cylinder.bore_mm").setFocus();
    QTest::keyClick(&desk.line("cylinder.bore_mm"), Qt::Key_Return);
    desk.line("cylinder.rod_mm").setFocus();
    CHECK(desk.document.show() == before);
}

TEST_CASE("the units of the screen change, the figure does not") {
    Desk desk;
    desk.type("air_plant.cut_in_kpa_gauge", "60 psi");
    const Figure figure = desk.document.show().rig.air_plant.cut_in_kpa_gauge;
    REQUIRE(figure);
    // 1 psi = 6.894757 kPa (NIST SP 811, table B.8)
    CHECK(*figure == Approx(60 * 6.894757).epsilon(1e-6));
    desk.settings.set_units(UnitSystem::us);
    CHECK(desk.line("air_plant.cut_in_kpa_gauge").text() == "60");
    CHECK(desk.document.show().rig.air_plant.cut_in_kpa_gauge == figure);
}

TEST_CASE("what cannot be is said at its place, stays typed, and is taken back with Esc") {
    Desk desk;
    desk.panel.add(PartKind::actuator);
    const Show before = desk.document.show();
    for (const char* wrong : {"wide", "12 kg", "9000", "-3", "nan", "1e999"}) {
        desk.type("cylinder.bore_mm", wrong);
        INFO(wrong);
        CHECK_FALSE(desk.row("cylinder.bore_mm").error().isEmpty());
        CHECK(desk.line("cylinder.bore_mm").text() == wrong);
        CHECK(desk.document.show() == before);
    }
    desk.type("cylinder.bore_mm", "9000");
    CHECK(desk.row("cylinder.bore_mm").error().contains("500 mm"));
    QTest::keyClick(&desk.line("cylinder.bore_mm"), Qt::Key_Escape);
    CHECK(desk.row("cylinder.bore_mm").error().isEmpty());
    CHECK(desk.line("cylinder.bore_mm").text().isEmpty());
}

TEST_CASE("names are needed and unique") {
    Desk desk;
    desk.panel.add(PartKind::channel);
    desk.type("name", "lamp");
    desk.panel.add(PartKind::channel);
    desk.type("name", "lamp");
    CHECK(desk.row("name").error().contains("taken"));
    CHECK(desk.channel(1).name == "Channel");
    desk.type("name", "  ");
    CHECK_FALSE(desk.row("name").error().isEmpty());
    desk.type("name", "strobe");
    CHECK(desk.row("name").error().isEmpty());
    CHECK(desk.channel(1).name == "strobe");
}

TEST_CASE("a part that was just added is named by typing, in place of the name it got") {
    Desk desk;
    desk.panel.add(PartKind::channel);
    QLineEdit& name = desk.line("name");
    CHECK(desk.panel.focusWidget() == &name);
    QTest::keyClicks(&name, "Lantern");
    QTest::keyClick(&name, Qt::Key_Return);
    CHECK(desk.channel().name == "Lantern");
}

TEST_CASE("parts are doubled, moved and removed") {
    Desk desk;
    desk.panel.add(PartKind::channel);
    desk.type("name", "lamp");
    desk.type("output", "3");
    desk.type("load_current_a", "0.5");
    const auto actions = desk.panel.part_actions();
    actions[1]->trigger();  // duplicate
    REQUIRE(desk.document.show().rig.channels.size() == 2);
    CHECK(desk.channel(1).name == "lamp 2");
    CHECK(desk.channel(1).load_current_a == desk.channel(0).load_current_a);
    CHECK_FALSE(desk.channel(1).output);
    actions[3]->trigger();  // up
    CHECK(desk.channel(0).name == "lamp 2");
    actions[4]->trigger();  // down
    CHECK(desk.channel(0).name == "lamp");
    actions[2]->trigger();  // remove
    CHECK(desk.document.show().rig.channels.size() == 1);
    desk.document.undo_stack().undo();
    CHECK(desk.document.show().rig.channels.size() == 2);
}

TEST_CASE("a channel is wired to a board, an output and an actuator, and excludes others") {
    Desk desk;
    desk.panel.add(PartKind::board);
    desk.panel.add(PartKind::actuator);
    desk.panel.add(PartKind::channel);
    desk.panel.add(PartKind::channel);
    auto* board = qobject_cast<QComboBox*>(desk.row("board").editor());
    auto* actuator = qobject_cast<QComboBox*>(desk.row("actuator").editor());
    REQUIRE(board != nullptr);
    REQUIRE(actuator != nullptr);
    board->setFocus();
    QTest::keyClick(board, Qt::Key_Down);
    QTest::keyClick(actuator, Qt::Key_Down);
    CHECK(desk.channel(1).board == desk.document.show().rig.boards.front().id);
    CHECK(desk.channel(1).actuator == desk.actuator().id);
    desk.type("output", "2.5");
    CHECK_FALSE(desk.row("output").error().isEmpty());
    desk.type("output", "2");
    CHECK(desk.channel(1).output == 2U);
    auto* list = qobject_cast<QListWidget*>(desk.row("excludes").editor());
    REQUIRE(list->count() == 1);
    list->item(0)->setCheckState(Qt::Checked);
    CHECK(desk.channel(1).excludes == std::vector{desk.channel(0).id});
    desk.document.undo_stack().undo();
    CHECK(list->item(0)->checkState() == Qt::Unchecked);
}

TEST_CASE("a channel's circuit takes its supply, its wire by gauge, and a remark that may be blank again") {
    Desk desk;
    desk.panel.add(PartKind::supply);
    desk.panel.add(PartKind::channel);
    auto* supply = qobject_cast<QComboBox*>(desk.row("circuit.supply").editor());
    REQUIRE(supply != nullptr);
    supply->setFocus();
    QTest::keyClick(supply, Qt::Key_Down);
    CHECK(desk.channel().circuit.supply == desk.document.show().rig.supplies.front().id);
    desk.type("circuit.wire_mm2", "18 AWG");
    CHECK(*desk.channel().circuit.wire_mm2 == Approx(0.823).epsilon(0.001));
    desk.type("circuit.route", "under the ramp");
    CHECK(desk.channel().circuit.route == "under the ramp");
    desk.type("circuit.route", "");
    CHECK(desk.channel().circuit.route.empty());
    desk.document.undo_stack().undo();
    CHECK(desk.channel().circuit.route == "under the ramp");
    desk.document.perform(remove_supply(desk.document.show(), desk.document.show().rig.supplies.front().id));
    CHECK_FALSE(desk.channel().circuit.supply);
    CHECK(supply->count() == 1);
}

TEST_CASE("a finding's place leads to its field") {
    Desk desk;
    desk.panel.add(PartKind::actuator);
    desk.panel.activateWindow();
    Place place;
    place.actuator = desk.actuator().id;
    place.field = "motion.back_ms";
    desk.panel.choose({PartKind::air_plant, 0});
    CHECK(desk.panel.show_place(place));
    CHECK(desk.panel.chosen() == Part{PartKind::actuator, desk.actuator().id.value});
    CHECK(desk.panel.focusWidget() == desk.row("motion.back_ms").editor());
    Place plant;
    plant.field = "air_plant.receiver_l";
    CHECK(desk.panel.show_place(plant));
    CHECK(desk.panel.focusWidget() == desk.row("air_plant.receiver_l").editor());
    CHECK_FALSE(desk.panel.show_place(Place{}));
}

TEST_CASE("only a valve's channel has a coil and an actuator to choose") {
    Desk desk;
    desk.panel.add(PartKind::channel);
    Channel channel = desk.channel();
    for (const ChannelKind kind : {ChannelKind::valve, ChannelKind::lamp, ChannelKind::motor}) {
        channel.kind = kind;
        desk.document.perform(set_channel(desk.document.show(), channel));
        CHECK(desk.row("coil").isHidden() == (kind != ChannelKind::valve));
        CHECK(desk.row("actuator").isHidden() == (kind != ChannelKind::valve));
        CHECK_FALSE(desk.row("contact").isHidden());
    }
}

TEST_CASE("no unit and no choice is cut off in a narrow panel") {
    Desk desk;
    desk.panel.resize(288, 700);
    desk.panel.add(PartKind::actuator);
    desk.panel.add(PartKind::channel);
    for (const Part part : {Part{PartKind::air_plant, 0}, Part{PartKind::actuator, desk.actuator().id.value},
                            Part{PartKind::channel, desk.channel().id.value}}) {
        desk.panel.choose(part);
        QApplication::processEvents();
        for (const FormRow* row : desk.panel.form().rows()) {
            if (row->isHidden()) {
                continue;
            }
            INFO(row->key());
            for (const QLabel* label : row->findChildren<QLabel*>()) {
                const bool unit = !label->wordWrap() && label->isVisible();
                CHECK((!unit || label->fontMetrics().horizontalAdvance(label->text()) <= label->width()));
            }
            if (const auto* box = qobject_cast<const QComboBox*>(row->editor())) {
                constexpr int frame_and_arrow_px = 28;
                const int words = box->fontMetrics().horizontalAdvance(box->currentText());
                CHECK(words + frame_and_arrow_px <= box->width());
            }
        }
    }
}
