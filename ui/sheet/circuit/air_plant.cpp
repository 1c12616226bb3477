// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/circuit/air_circuit_parts.hpp"

#include <QStringList>

#include <algorithm>

namespace gasp {

namespace {

using Align = Sketch::Align;
using Q = Quantity;

constexpr double low_rail_y = 1270.0;   // from the receiver to the shut-off valve
constexpr double high_rail_y = 1100.0;  // from there to the regulator
constexpr double words_y = 1326.0;

QString said(Q quantity, const Figure& figure, UnitSystem units, const QString& before) {
    return before + (figure ? QString::fromStdString(print_quantity(quantity, *figure, units))
                            : QStringLiteral("not given"));
}

void draw_source(Sketch& sketch, const AirPlant& plant, UnitSystem units) {
    draw_compressor(sketch, {190, low_rail_y});
    sketch.lines({40, words_y}, Align::left,
                 QStringLiteral("compressor, ") + said(Q::free_air_flow, plant.delivery_l_min, units, "") +
                     QStringLiteral(" free air"),
                 250, 4);
    sketch.line({240, low_rail_y}, {330, low_rail_y});
    const QRectF receiver(330, low_rail_y - 42, 230, 84);
    draw_receiver(sketch, receiver);
    sketch.lines(
        {330, words_y + 30}, Align::left,
        said(Q::volume, plant.receiver_l, units, QStringLiteral("receiver ")) + QStringLiteral(", drain"),
        250, 3);
    draw_relief_valve(sketch, {receiver.center().x() - 40, receiver.top()});
    sketch.lines({receiver.center().x() + 44, receiver.top() - 96}, Align::left,
                 QStringLiteral("relief valve, as its maker set it"), 150, 3);
}

void draw_switch(Sketch& sketch, const AirPlant& plant, UnitSystem units) {
    sketch.line({560, low_rail_y}, {1060, low_rail_y});
    sketch.dot({690, low_rail_y});
    draw_pressure_switch(sketch, {690, low_rail_y});
    sketch.lines({600, words_y}, Align::left,
                 QStringLiteral("pressure switch, ") +
                     said(Q::gauge_pressure, plant.cut_in_kpa_gauge, units, QStringLiteral("on at ")) +
                     said(Q::gauge_pressure, plant.cut_out_kpa_gauge, units, QStringLiteral(", off at ")),
                 250, 4);
    sketch.dot({830, low_rail_y});
    draw_gauge(sketch, {830, low_rail_y});
}

void draw_outlet(Sketch& sketch, const AirPlant& plant, UnitSystem units) {
    draw_hand_valve(sketch, {1060, low_rail_y}, {1180, high_rail_y});
    sketch.lines({900, words_y}, Align::left,
                 QStringLiteral("shut-off valve by hand, lockable; shut, it vents what is behind it"), 330,
                 3);
    sketch.line({1180, high_rail_y}, {1275, high_rail_y});
    draw_filter(sketch, {1320, high_rail_y});
    sketch.lines({1262, high_rail_y + 76}, Align::left, QStringLiteral("filter, drain"), 180, 2);
    sketch.line({1365, high_rail_y}, {1455, high_rail_y});
    draw_regulator(sketch, {1500, high_rail_y});
    sketch.lines({1446, high_rail_y + 76}, Align::left,
                 said(Q::gauge_pressure, plant.regulator_kpa_gauge, units, QStringLiteral("regulator ")), 210,
                 3);
    sketch.line({1545, high_rail_y}, {air_riser_x, high_rail_y});
    sketch.dot({1690, high_rail_y});
    draw_gauge(sketch, {1690, high_rail_y});
    sketch.path(QPolygonF{{air_riser_x, high_rail_y}, {air_riser_x, air_rail_y}});
    sketch.dot({air_riser_x, air_rail_y});
}

}  // namespace

void draw_air_rail(Sketch& sketch, const AirRail& rail, std::size_t sheet) {
    double left = rail.first + 25;
    double right = rail.last + 45;
    if (sheet == 0) {
        left = std::min(left, air_riser_x);
        right = std::max(right, air_riser_x);
    }
    if (rail.from_before) {
        left = 20;
        sketch.words({left, air_rail_y + 26}, Align::left, QStringLiteral("from sheet %1").arg(sheet), 300);
    }
    if (rail.goes_on) {
        right += 190;
        sketch.arrow({right - 40, air_rail_y}, {right, air_rail_y});
        sketch.words({right, air_rail_y + 26}, Align::right, QStringLiteral("to sheet %1").arg(sheet + 2),
                     300);
    }
    sketch.line({left, air_rail_y}, {right, air_rail_y});
}

void draw_air_plant(Sketch& sketch, const AirPlant& plant, UnitSystem units) {
    draw_source(sketch, plant, units);
    draw_switch(sketch, plant, units);
    draw_outlet(sketch, plant, units);
}

}  // namespace gasp
