// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edits.hpp"
#include "tests/support/catch.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"
#include "ui/panels/form_row.hpp"

#include <QLineEdit>
#include <QSettings>
#include <QTest>

#include <algorithm>
#include <string_view>
#include <vector>

namespace gasp {

/// A panel's row of this key.
inline FormRow& row_of(const std::vector<FormRow*>& rows, std::string_view key) {
    const auto it = std::find_if(rows.begin(), rows.end(), [&](const FormRow* r) { return r->key() == key; });
    REQUIRE(it != rows.end());
    return **it;
}

/// As a user does: focus, select all, type, Enter.
inline void type_into(FormRow& row, const QString& text) {
    auto* edit = qobject_cast<QLineEdit*>(row.editor());
    REQUIRE(edit != nullptr);
    edit->setFocus();
    edit->selectAll();
    QTest::keyClick(edit, Qt::Key_Delete);
    QTest::keyClicks(edit, text);
    QTest::keyClick(edit, Qt::Key_Return);
}

/// The air of a lighthouse's yard and a figure that lunges from a locker: invented.
inline void put_rig(Document& document) {
    AirPlant plant;
    plant.receiver_l = 24.0;
    plant.cut_in_kpa_gauge = 620.0;
    plant.cut_out_kpa_gauge = 830.0;
    plant.delivery_l_min = 75.0;
    plant.regulator_kpa_gauge = 400.0;
    document.perform(set_air_plant(document.show(), plant));
    Actuator actuator;
    actuator.name = "Keeper";
    actuator.cylinder.bore_mm = 32.0;
    actuator.cylinder.rod_mm = 12.0;
    actuator.cylinder.stroke_mm = 200.0;
    actuator.valve.supply_c_l_s_bar = 2.5;
    actuator.valve.opening_delay_ms = 18.0;
    actuator.valve.closing_delay_ms = 26.0;
    actuator.flow_controls.out_c_l_s_bar = 0.8;
    actuator.tube.length_m = 1.2;
    actuator.tube.bore_mm = 5.5;
    actuator.load.mass_kg = 4.5;
    actuator.load.angle_deg = 15.0;
    actuator.load.ratio = 1.6;
    actuator.load.friction_percent = 10.0;
    actuator.base.mass_kg = 30.0;
    document.perform(add_actuator(document.show(), actuator));
}

}  // namespace gasp
