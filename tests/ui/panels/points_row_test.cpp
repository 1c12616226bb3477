// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/points_row.hpp"

#include "tests/ui/panels/panel_desk.hpp"
#include "ui/panels/linkage_plot.hpp"
#include "ui/panels/points_text.hpp"
#include "ui/panels/rig_panel.hpp"

#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QTableWidget>

using namespace gasp;

namespace {

using Points = std::vector<LinkagePoint>;

/// Invented: an arm that rises from -30 to 60 degrees over 200 mm.
const char* const copied = "Rod (mm)\tArm (\u00b0)\n0\t-30\n50\t-10\n100\t12,5\n150\t36\n200\t60\n";
const Points five{{0, -30}, {50, -10}, {100, 12.5}, {150, 36}, {200, 60}};

struct Desk {
    Desk() {
        QSettings().clear();
        settings.set_units(UnitSystem::metric);
        put_rig(document);
        panel.resize(320, 900);
        panel.show();
        REQUIRE(QTest::qWaitForWindowExposed(&panel));
        panel.choose({PartKind::actuator, actuator().id.value});
    }
    [[nodiscard]] const Actuator& actuator() const { return document.show().rig.actuators.front(); }
    [[nodiscard]] const Points& points() const { return actuator().linkage.points; }
    PointsRow& row() {
        return dynamic_cast<PointsRow&>(row_of(panel.form().rows(), "linkage.points_mm_deg"));
    }
    /// As a user does, by the keys of the box.
    void take_a_table() {
        auto* kind = qobject_cast<QComboBox*>(row_of(panel.form().rows(), "linkage.kind").editor());
        kind->setFocus();
        QTest::keyClick(kind, Qt::Key_End);
        REQUIRE(actuator().linkage.kind == LinkageKind::table);
        row().table().setFocus();
    }
    void type_cell(int at, int column, const QString& text) {
        QTableWidget& table = row().table();
        table.setCurrentCell(at, column);
        QTest::keyClick(&table, Qt::Key_Return);
        auto* edit = table.findChild<QLineEdit*>();
        REQUIRE(edit != nullptr);
        edit->selectAll();
        QTest::keyClicks(edit, text);
        QTest::keyClick(edit, Qt::Key_Return);
        // What is typed is taken by events that call for events; a busy machine handles few of them in a
        // while.
        for (int pass = 0; pass < 20; ++pass) {
            QTest::qWait(1);
        }
    }
    void paste(const QString& text) {
        QApplication::clipboard()->setText(text);
        QTest::keyClick(&row().table(), Qt::Key_V, Qt::ControlModifier);
    }

    Settings settings;
    Document document;
    Analysis analysis{document};
    RigPanel panel{document, analysis, settings};
};

}  // namespace

TEST_CASE("the table of a linkage is there for a linkage with a table alone") {
    Desk desk;
    CHECK(desk.row().isHidden());
    CHECK(row_of(desk.panel.form().rows(), "linkage.foot_mm").isHidden());
    desk.take_a_table();
    CHECK_FALSE(desk.row().isHidden());
    CHECK(row_of(desk.panel.form().rows(), "linkage.foot_mm").isHidden());
    CHECK_FALSE(row_of(desk.panel.form().rows(), "linkage.arm_mm").isHidden());
}

TEST_CASE("points are typed cell by cell, each in its own unit, each point a step to undo") {
    Desk desk;
    desk.take_a_table();
    const int steps = desk.document.undo_stack().index();
    desk.type_cell(0, 0, "0");
    CHECK(desk.row().error().startsWith("Row 1: no slope"));
    CHECK(desk.points().empty());
    desk.type_cell(0, 1, "-30");
    CHECK(desk.row().error().isEmpty());
    desk.type_cell(1, 0, "2 in");
    desk.type_cell(1, 1, "-10");
    REQUIRE(desk.points() == Points{{0, -30}, {50.8, -10}});  // the inch is 25.4 mm exactly (ISO 80000-3)
    CHECK(desk.row().table().item(1, 0)->text() == "50.8");
    CHECK(desk.row().table().rowCount() == 3);
    CHECK(desk.document.undo_stack().index() == steps + 2);
    desk.document.undo_stack().undo();
    CHECK(desk.points() == Points{{0, -30}});
    CHECK(desk.row().table().rowCount() == 2);
}

TEST_CASE("rows are pasted from a spreadsheet with their heading, as one step, and drawn as simulated") {
    Desk desk;
    desk.take_a_table();
    const int steps = desk.document.undo_stack().index();
    desk.paste(copied);
    REQUIRE(desk.points() == five);
    CHECK(desk.document.undo_stack().index() == steps + 1);
    const LinkageCurve& curve = desk.row().plot().curve();
    CHECK(curve.measured == five);
    REQUIRE_FALSE(curve.line.empty());
    CHECK(curve.line.front().arm_deg == Approx(-30.0));
    CHECK(curve.line.back().arm_deg == Approx(60.0));
    CHECK(desk.row().plot().summary().startsWith("5 points"));

    QTableWidget& table = desk.row().table();
    table.selectAll();
    QTest::keyClick(&table, Qt::Key_C, Qt::ControlModifier);
    CHECK(QApplication::clipboard()->text().startsWith("0\t-30\n50\t-10\n"));
    QTest::mouseClick(table.viewport(), Qt::LeftButton, {}, table.visualItemRect(table.item(2, 0)).center());
    QTest::keyClick(&table, Qt::Key_Delete);
    CHECK(desk.points() == Points{{0, -30}, {50, -10}, {150, 36}, {200, 60}});
    desk.document.undo_stack().undo();
    CHECK(desk.points() == five);
}

TEST_CASE("what is wrong names its row, stays as typed, and is taken back with Esc") {
    Desk desk;
    desk.take_a_table();
    desk.paste(copied);
    desk.type_cell(2, 0, "40");
    CHECK(desk.row().error().startsWith("Row 3: 40 mm of travel does not come after 50 mm"));
    CHECK(desk.points() == five);
    CHECK(desk.row().table().item(2, 0)->text() == "40");
    QTest::keyClick(&desk.row().table(), Qt::Key_Escape);
    CHECK(desk.row().error().isEmpty());
    CHECK(desk.row().table().item(2, 0)->text() == "100");
    desk.type_cell(4, 1, "900");
    CHECK(desk.row().error().startsWith("Row 5: 900"));
    desk.type_cell(4, 1, "sixty");
    CHECK(desk.row().error().startsWith("Row 5: "));
    desk.type_cell(4, 1, "20");
    CHECK(desk.row().error().isEmpty());
    CHECK(desk.row().plot().summary().contains("turns back"));
}

TEST_CASE("points are shown in the units that are chosen") {
    Desk desk;
    desk.take_a_table();
    desk.paste(copied);
    desk.settings.set_units(UnitSystem::us);
    CHECK(desk.row().table().horizontalHeaderItem(0)->text() == "Rod, in");
    CHECK(desk.row().table().item(4, 0)->text() == "7.874");  // 200 mm / 25.4
    CHECK(desk.points() == five);
}

TEST_CASE("a text of rows is read with tabs, semicolons or blanks, and bad text gives an error") {
    for (const char* text : {"0\t-30\r\n50\t-10", "0;-30\n50;-10\n\n", "  0 -30\n50 mm -10 \n"}) {
        const auto points = read_points(rows_of_text(text), UnitSystem::metric);
        INFO(text);
        REQUIRE(points);
        CHECK(*points == Points{{0, -30}, {50, -10}});
    }
    for (const char* text : {"0\n50", "0;-30;\n0;4", "a\n1;2", "0;-30\n6000;1", "0;nan"}) {
        INFO(text);
        CHECK((rows_of_text(text).empty() || !read_points(rows_of_text(text), UnitSystem::metric) ||
               QString(text).startsWith('a')));
    }
    CHECK(rows_of_text("").empty());
}
