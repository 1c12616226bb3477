// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/power_panel.hpp"

#include "core/show/edits.hpp"
#include "tests/support/catch.hpp"
#include "ui/panels/current_plot.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/wiring_panel.hpp"

#include <QAbstractItemView>
#include <QAction>
#include <QComboBox>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTableView>
#include <QTest>

#include <algorithm>
#include <chrono>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

/// A lamp of 2 A on 12 V, lit from 1 to 3 s.
struct Desk {
    Desk() {
        settings.set_units(UnitSystem::metric);  // another test may have left others
        Supply supply;
        supply.name = "12 V";
        supply.volts = 12.0;
        supply.rated_a = 5.0;
        supply.standing_a = 0.5;
        document.perform(add_supply(document.show(), supply));
        Channel channel;
        channel.name = "lamp";
        channel.load_current_a = 2.0;
        channel.circuit.supply = document.show().rig.supplies.front().id;
        channel.circuit.wire_mm2 = 0.34;
        channel.circuit.wire_length_m = 10.0;
        document.perform(add_channel(document.show(), channel));
        Cue cue;
        cue.channel = document.show().rig.channels.front().id;
        cue.at = 1s;
        cue.length = 2s;
        document.perform(add_cues(document.show(), document.sequence_id(), {cue}));
        power.resize(900, 240);
        power.show();
        wiring.resize(900, 240);
        wiring.show();
        analysis.wait();
    }

    [[nodiscard]] QModelIndex cell(std::string_view key) {
        const auto& columns = WiringModel::columns();
        const auto at = std::ranges::find(columns, key, &WiringModel::Column::key);
        return wiring.model().index(0, static_cast<int>(at - columns.begin()));
    }
    [[nodiscard]] const Circuit& circuit() const { return document.show().rig.channels.front().circuit; }

    Document document;
    Analysis analysis{document};
    Settings settings;
    PowerPanel power{document, analysis, settings};
    WiringPanel wiring{document, analysis, settings};
};

}  // namespace

TEST_CASE("a curve for each supply, and its figures") {
    Desk desk;
    REQUIRE(desk.power.plots().size() == 1);
    CHECK(desk.power.plots()[0]->summary() == "peak 2.5 A at 0:01.000, average 0.9 A, RMS 1.2 A");
    const auto& lines = desk.power.supplies().lines();
    REQUIRE(lines.size() == 6);
    CHECK(lines[5].figure.endsWith(" %"));
    CHECK(lines[0].figure == "2.5 A");
    CHECK_FALSE(lines[1].severity);
    CHECK(desk.power.loads().lines()[0].words == "lamp");
    CHECK(desk.power.loads().lines()[0].figure.endsWith(" V"));
}

TEST_CASE("a supply over its rating shows its sign, and one taken away its curve no more") {
    Desk desk;
    Supply supply = desk.document.show().rig.supplies.front();
    supply.rated_a = 2.0;
    desk.document.perform(set_supply(desk.document.show(), supply));
    desk.analysis.wait();
    CHECK(desk.power.supplies().lines()[1].severity == Severity::stop);
    desk.document.perform(remove_supply(desk.document.show(), supply.id));
    desk.analysis.wait();
    CHECK(desk.power.plots().empty());
    CHECK(desk.power.supplies().lines().empty());
}

TEST_CASE("sequences that run at once are told beside the one looked at, and count for what is left") {
    Desk desk;
    CHECK(desk.power.together().isHidden());
    Supply supply = desk.document.show().rig.supplies.front();
    supply.return_mm2 = 0.75;
    supply.return_length_m = 10.0;
    desk.document.perform(set_supply(desk.document.show(), supply));
    Channel lamp = desk.document.show().rig.channels.front();
    lamp.circuit.return_path = ReturnPath::shared_return;
    desk.document.perform(set_channel(desk.document.show(), lamp));
    Channel horn = lamp;
    horn.name = "horn";
    desk.document.perform(add_channel(desk.document.show(), horn));
    desk.analysis.wait();
    const QModelIndex left = desk.wiring.model().index(0, 7);
    REQUIRE(WiringModel::columns()[7].kind == WiringModel::Column::Kind::left);
    const QString alone = left.data().toString();
    CHECK(desk.power.loads().lines()[0].below.contains("lost at"));
    desk.document.perform(add_sequence(desk.document.show(), "second", SequenceKind::triggered, 5s));
    Cue cue;
    cue.channel = desk.document.show().rig.channels[1].id;
    cue.at = 1s;
    cue.length = 1s;
    desk.document.perform(add_cues(desk.document.show(), desk.document.show().sequences[1].id, {cue}));
    desk.analysis.wait();
    CHECK_FALSE(desk.power.together().isHidden());
    REQUIRE(desk.power.together().lines().size() == 3);
    CHECK(desk.power.together().lines()[0].figure == "4.5 A");
    CHECK(desk.power.together().lines()[2].figure == "5 A");
    CHECK(desk.power.loads().lines()[0].below.contains("at once"));
    CHECK(left.data().toString() != alone);
    desk.document.undo_stack().undo();
    desk.analysis.wait();
    CHECK(left.data().toString() == alone);
}

TEST_CASE("a panel that is not seen works nothing out, and is up to date once it is") {
    Desk desk;
    desk.power.hide();
    Supply supply = desk.document.show().rig.supplies.front();
    supply.rated_a = 2.0;
    desk.document.perform(set_supply(desk.document.show(), supply));
    desk.analysis.wait();
    CHECK_FALSE(desk.power.supplies().lines()[1].severity);
    desk.power.show();
    CHECK(desk.power.supplies().lines()[1].severity == Severity::stop);
}

TEST_CASE("the curve shows the stretch the timeline shows") {
    Desk desk;
    CurrentPlot& plot = *desk.power.plots()[0];
    desk.power.follow(2s, 4s, {});
    plot.setFocus();
    QTest::keyClick(&plot, Qt::Key_Home);
    CHECK(plot.reading() == "0:02.000: 2.5 A");
    QTest::keyClick(&plot, Qt::Key_End);
    CHECK(plot.reading().endsWith("0.5 A"));
    desk.power.follow(-1s, 20s, {});
    QTest::keyClick(&plot, Qt::Key_Home);
    CHECK(plot.reading().contains("not in the sequence"));
}

TEST_CASE("a cell of the wiring is an edit that can be undone") {
    Desk desk;
    CHECK(desk.wiring.model().setData(desk.cell("circuit.wire_mm2"), "1.5 mm2", Qt::EditRole));
    CHECK(desk.circuit().wire_mm2 == 1.5);
    CHECK(desk.wiring.model().setData(desk.cell("circuit.return_path"), "The supply's shared return",
                                      Qt::EditRole));
    CHECK(desk.circuit().return_path == ReturnPath::shared_return);
    CHECK(desk.wiring.model().setData(desk.cell("circuit.wire_colour"), "brown", Qt::EditRole));
    CHECK(desk.circuit().wire_colour == "brown");
    CHECK(desk.wiring.model().setData(desk.cell("circuit.fuse_a"), "", Qt::EditRole) == false);
    desk.document.undo_stack().undo();
    desk.document.undo_stack().undo();
    desk.document.undo_stack().undo();
    CHECK(desk.circuit().wire_mm2 == 0.34);
}

TEST_CASE("what cannot be a figure is refused in words and changes nothing") {
    Desk desk;
    QSignalSpy said(&desk.wiring, &WiringPanel::said);
    CHECK_FALSE(desk.wiring.model().setData(desk.cell("circuit.wire_mm2"), "thick", Qt::EditRole));
    CHECK_FALSE(desk.wiring.model().setData(desk.cell("circuit.wire_mm2"), "5000 mm2", Qt::EditRole));
    CHECK_FALSE(desk.wiring.model().setData(desk.cell("name"), " ", Qt::EditRole));
    REQUIRE(said.size() == 3);
    CHECK(said[1][0].toString().contains("240 mm2"));
    CHECK(desk.circuit().wire_mm2 == 0.34);
}

TEST_CASE("wire and fuse that would do are taken by an action") {
    Desk desk;
    QSignalSpy said(&desk.wiring, &WiringPanel::said);
    desk.wiring.wiring_actions()[0]->trigger();
    CHECK(said.size() == 1);  // nothing is chosen
    desk.wiring.table().setCurrentIndex(desk.cell("circuit.wire_mm2"));
    desk.wiring.wiring_actions()[0]->trigger();
    // A tenth of 12 V may drop: 2 A over 20 m of copper at 75 C take 1.14 V in 0.75 mm2, 1.7 V in 0.5 mm2.
    CHECK(desk.circuit().wire_mm2 == 0.75);
    desk.analysis.wait();
    desk.wiring.wiring_actions()[1]->trigger();
    CHECK(desk.circuit().fuse_a == 3.0);
}

TEST_CASE("a cell is typed into from the keyboard, in the user's units") {
    Desk desk;
    desk.settings.set_units(UnitSystem::us);
    QTableView& table = desk.wiring.table();
    table.setFocus();
    table.setCurrentIndex(desk.cell("circuit.wire_mm2"));
    QTest::keyClicks(table.viewport(), "18");
    auto* editor = table.findChild<QLineEdit*>();
    REQUIRE(editor != nullptr);
    editor->setText("18 AWG");
    QTest::keyClick(editor, Qt::Key_Return);
    // What is typed is taken by events that call for events.
    REQUIRE(QTest::qWaitFor([&] { return desk.circuit().wire_mm2 != 0.34; }));
    CHECK(desk.circuit().wire_mm2.value() == Approx(0.823).epsilon(0.001));
    desk.settings.set_units(UnitSystem::metric);
}

TEST_CASE("once a cell's choice is made, the keyboard goes on in the table") {
    Desk desk;
    QTableView& table = desk.wiring.table();
    desk.wiring.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&desk.wiring));
    table.setFocus();
    table.setCurrentIndex(desk.cell("circuit.load"));
    table.edit(desk.cell("circuit.load"));
    auto* box = table.findChild<QComboBox*>();
    REQUIRE(box != nullptr);
    QTest::keyClick(box->view(), Qt::Key_Down);
    QTest::keyClick(box->view(), Qt::Key_Return);
    REQUIRE(QTest::qWaitFor([&] { return table.findChild<QComboBox*>() == nullptr; }));
    CHECK(desk.wiring.focusWidget() == &table);
}

TEST_CASE("a column grows with what is typed into it, unless its width was set by hand") {
    Desk desk;
    const QModelIndex wire = desk.cell("circuit.wire_mm2");
    const QHeaderView& header = *desk.wiring.table().horizontalHeader();
    const int before = header.sectionSize(wire.column());
    CHECK(desk.wiring.model().setData(wire, "0.50123 mm2", Qt::EditRole));
    CHECK(header.sectionSize(wire.column()) > before);
    desk.wiring.table().setColumnWidth(wire.column(), 80);
    CHECK(desk.wiring.model().setData(wire, "0.50124 mm2", Qt::EditRole));
    CHECK(header.sectionSize(wire.column()) == 80);
}

TEST_CASE("a letter typed over a cell is its text, not a key of the window") {
    Desk desk;
    QTableView& table = desk.wiring.table();
    table.setCurrentIndex(desk.cell("circuit.wire_colour"));
    const auto taken = [&](int key, Qt::KeyboardModifiers modifiers, const QString& text) {
        QKeyEvent event(QEvent::ShortcutOverride, key, modifiers, text);
        event.ignore();
        QCoreApplication::sendEvent(&table, &event);
        return event.isAccepted();
    };
    CHECK(taken(Qt::Key_G, Qt::NoModifier, "g"));  // which fires the trigger elsewhere
    CHECK(taken(Qt::Key_M, Qt::ShiftModifier, "M"));
    CHECK_FALSE(taken(Qt::Key_S, Qt::ControlModifier, QString(QChar(0x13))));
    CHECK_FALSE(taken(Qt::Key_Escape, Qt::NoModifier, QString(QChar(0x1b))));
}
