// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/sizing_panel.hpp"

#include "tests/ui/panels/panel_desk.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/work_bar.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QMenu>
#include <QPushButton>

using namespace gasp;

namespace {

struct Desk {
    Desk() {
        QSettings().clear();
        settings.set_units(UnitSystem::metric);
        panel = std::make_unique<SizingPanel>(document, settings);
        panel->resize(1000, 400);
        panel->show();
    }
    void want(std::string_view key, const QString& text) { type_into(row_of(panel->rows(), key), text); }
    void want_a_lunge() {
        want("lift_mm", "24 in");
        want("mass_kg", "12 lb");
        want("ratio", "3");
        want("out_ms", "350");
        want("scares_per_h", "60");
        want("working_kpa_gauge", "60 psi");
    }
    void work_out() {
        panel->sizing_actions().front()->trigger();
        REQUIRE(QTest::qWaitFor([this] { return !panel->run_bar().working(); }, 60000));
    }
    void put() {
        for (auto* button : panel->findChildren<QPushButton*>()) {
            if (button->text() == "Put into the rig") {
                QTest::mouseClick(button, Qt::LeftButton);
            }
        }
    }

    Settings settings;
    Document document;
    std::unique_ptr<SizingPanel> panel;
};

}  // namespace

TEST_CASE("what is wanted is typed in any unit, worked out, and each part has its reason") {
    Desk desk;
    desk.want_a_lunge();
    desk.work_out();
    REQUIRE(desk.panel->sizing());
    const Sizing& sizing = *desk.panel->sizing();
    // The inch is 25.4 mm exactly (ISO 80000-3), the pound 0.45359237 kg (ISO 80000-4).
    CHECK(sizing.actuator.load.mass_kg == Approx(12 * 0.45359237).epsilon(1e-6));
    CHECK(*sizing.actuator.cylinder.stroke_mm >= Approx(24 * 25.4 / 3).epsilon(1e-6));
    CHECK(sizing.out_ms <= 350.0);
    CHECK(desk.panel->parts().lines().size() == sizing.figures.size());
    for (const FigureLine& line : desk.panel->parts().lines()) {
        INFO(line.words.toStdString());
        CHECK_FALSE(line.figure.isEmpty());
        CHECK_FALSE(line.below.isEmpty());
    }
    CHECK(desk.panel->motion().lines().front().figure ==
          QStringLiteral("%1 ms").arg(sizing.out_ms, 0, 'f', 0));
}

TEST_CASE("a figure that is needed and blank is asked for at its place") {
    Desk desk;
    desk.want_a_lunge();
    desk.want("mass_kg", "");
    desk.work_out();
    CHECK_FALSE(desk.panel->sizing());
    CHECK(desk.panel->run_bar().said().contains("mass", Qt::CaseInsensitive));
    CHECK_FALSE(desk.panel->run_bar().said().contains("mass_kg"));
    CHECK(row_of(desk.panel->rows(), "mass_kg").editor()->hasFocus());
    desk.want("mass_kg", "12 lb");
    CHECK(desk.panel->run_bar().said().isEmpty());
    desk.want("working_kpa_gauge", "");
    desk.panel->resize(1000, 200);
    QWidget& far = *row_of(desk.panel->rows(), "working_kpa_gauge").editor();
    desk.panel->setFocus();
    QTest::qWait(1);
    REQUIRE(far.visibleRegion().isEmpty());
    desk.work_out();
    CHECK(far.hasFocus());
    CHECK_FALSE(far.visibleRegion().isEmpty());
    desk.want("out_ms", "fast");
    CHECK_FALSE(row_of(desk.panel->rows(), "out_ms").error().isEmpty());
}

TEST_CASE("parts go into the rig as one step, in place of an actuator's or as a new one") {
    Desk desk;
    put_rig(desk.document);
    desk.want_a_lunge();
    desk.work_out();
    const Show before = desk.document.show();
    desk.put();
    REQUIRE(desk.document.show().rig.actuators.size() == 2);
    CHECK(desk.document.show().rig.air_plant == before.rig.air_plant);
    desk.document.undo_stack().undo();
    CHECK(desk.document.show().rig == before.rig);

    desk.panel->target().setCurrentIndex(1);
    desk.panel->with_plant().setChecked(true);
    const int steps = desk.document.undo_stack().index();
    desk.put();
    CHECK(desk.document.undo_stack().index() == steps + 1);
    REQUIRE(desk.document.show().rig.actuators.size() == 1);
    const Actuator& put = desk.document.show().rig.actuators.front();
    CHECK(put.name == "Keeper");
    CHECK(put.base.mass_kg == 30.0);
    CHECK(put.cylinder.bore_mm == desk.panel->sizing()->actuator.cylinder.bore_mm);
    CHECK(desk.document.show().rig.air_plant.receiver_l == desk.panel->sizing()->plant.receiver_l);
    desk.document.undo_stack().undo();
    CHECK(desk.document.show().rig == before.rig);
}

TEST_CASE("what was wanted is remembered, and what was worked out says when it is old") {
    Desk desk;
    desk.want_a_lunge();
    desk.work_out();
    CHECK(desk.panel->run_bar().said().isEmpty());
    desk.want("mass_kg", "20 lb");
    CHECK(desk.panel->run_bar().said().contains("changed"));
    const SizingPanel again(desk.document, desk.settings);
    CHECK(qobject_cast<QLineEdit*>(row_of(again.rows(), "lift_mm").editor())->text() == "609.6");
    CHECK(qobject_cast<QLineEdit*>(row_of(again.rows(), "duty_percent").editor())->text().isEmpty());
}

TEST_CASE("a linkage is taken from an actuator, sized for, remembered, and given up again") {
    Desk desk;
    put_rig(desk.document);
    Actuator lever = desk.document.show().rig.actuators.front();
    lever.linkage.kind = LinkageKind::lever;
    lever.linkage.foot_mm = 400.0;
    lever.linkage.pin_mm = 200.0;
    lever.linkage.closed_mm = 320.0;
    lever.linkage.arm_mm = 600.0;
    lever.linkage.arm_deg = -30.0;
    desk.document.perform(set_actuator(desk.document.show(), lever));
    desk.want("scares_per_h", "40");
    desk.want("out_ms", "600");
    desk.panel->take_button().menu()->actions().front()->trigger();
    const auto shown = [&](std::string_view key) { return !row_of(desk.panel->rows(), key).isHidden(); };
    CHECK(shown("stroke_mm"));
    CHECK_FALSE(shown("lift_mm"));
    CHECK_FALSE(shown("ratio"));
    CHECK(qobject_cast<QLineEdit*>(row_of(desk.panel->rows(), "stroke_mm").editor())->text() == "200");
    CHECK(qobject_cast<QLineEdit*>(row_of(desk.panel->rows(), "out_ms").editor())->text() == "600");
    desk.work_out();
    INFO(desk.panel->run_bar().said().toStdString());
    REQUIRE(desk.panel->sizing());
    CHECK(desk.panel->sizing()->actuator.linkage == lever.linkage);
    CHECK(desk.panel->sizing()->out_ms <= 600.0);

    SizingPanel again(desk.document, desk.settings);
    CHECK_FALSE(row_of(again.rows(), "stroke_mm").isHidden());
    for (auto* button : desk.panel->findChildren<QPushButton*>()) {
        if (button->text() == "Without a linkage") {
            QTest::mouseClick(button, Qt::LeftButton);
        }
    }
    CHECK(shown("lift_mm"));
    CHECK_FALSE(shown("stroke_mm"));
}
