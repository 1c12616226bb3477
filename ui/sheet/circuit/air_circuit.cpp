// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/circuit/air_circuit.hpp"

#include "core/show/fields.hpp"
#include "ui/sheet/circuit/air_circuit_parts.hpp"
#include "ui/sheet/circuit/circuit_words.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QPainter>
#include <QStringList>

#include <algorithm>

namespace gasp {

namespace {

using Align = Sketch::Align;
using Q = Quantity;

constexpr double cylinder_y = 200.0;
constexpr double upper_y = 262.0;       // below the cylinder's ports
constexpr double lower_y = 622.0;       // above the valve
constexpr double control_high = 110.0;  // a flow control
constexpr double exhaust_high = 116.0;  // a quick exhaust
constexpr double valve_y = 742.0;
constexpr double port_apart = 130.0;

/// One actuator's column.
class Column {
  public:
    Column(Sketch& sketch, const Show& show, const Actuator& actuator, UnitSystem units, double middle,
           double width)
        : sketch_(sketch), show_(show), actuator_(actuator), figure_{units}, x_(middle), width_(width) {}

    void draw() {
        draw_words();
        const CylinderPorts cylinder = draw_cylinder(sketch_, {x_, cylinder_y}, actuator_.cylinder.action,
                                                     actuator_.cylinder.cushion_mm.value_or(0.0) > 0.0);
        const ValvePorts valve = draw_valve(sketch_, {x_, valve_y}, actuator_.valve.kind,
                                            actuator_.valve.least_kpa_gauge.value_or(0.0) > 0.0);
        const bool both_ways = actuator_.cylinder.action == CylinderAction::double_acting;
        join(valve.out, cylinder.cap, true);
        if (valve.back && both_ways) {
            join(*valve.back, cylinder.rod, false);
        } else if (valve.back) {
            plug(*valve.back);
        }
        draw_tube_words();
        draw_exhausts(valve);
        draw_coil_words();
        draw_feed(valve.supply);
    }

  private:
    template <class T>
    static QString choice(const T& part) {
        const auto& field = fields<T>().choices.front();
        return shown(field.labels[field.get(part)]);
    }

    void draw_words() {
        const double left = x_ - 165;
        const double room = width_ / 2 + 165 - 20;
        sketch_.words({left, 18}, Align::left, shown(actuator_.name), room, {PrintSize::body, true});
        const Cylinder& cylinder = actuator_.cylinder;
        sketch_.words({left, 56}, Align::left, choice(cylinder), room);
        sketch_.words({left, 88}, Align::left,
                      joined({figure_(Q::small_length, cylinder.bore_mm, "bore "),
                              figure_(Q::small_length, cylinder.rod_mm, "rod "),
                              figure_(Q::small_length, cylinder.stroke_mm, "stroke ")}),
                      room);
        sketch_.words({left, 120}, Align::left,
                      joined({figure_(Q::mass, actuator_.load.mass_kg, "moves "),
                              figure_(Q::gauge_pressure, cylinder.rating_kpa_gauge, "rated ")}),
                      room);
    }

    /// From a port of the valve up to one of the cylinder, with what stands on the way.
    void join(QPointF from, QPointF to, bool cap_end) {
        const FlowControls& controls = actuator_.flow_controls;
        const double turn = lower_y + (cap_end ? 14.0 : 28.0);
        sketch_.path(QPolygonF{from, {from.x(), turn}, {to.x(), turn}, {to.x(), lower_y}});
        double upper = upper_y;
        double lower = lower_y;
        sketch_.line(to, {to.x(), upper});
        if (controls.quick_exhaust_c_l_s_bar) {
            draw_quick_exhaust(sketch_, {to.x(), upper + exhaust_high}, {to.x(), upper}, cap_end);
            upper += exhaust_high;
        }
        const bool at_cylinder = controls.place == ControlPlace::at_cylinder;
        for (const bool out : {true, false}) {
            if (!(out ? controls.out_c_l_s_bar : controls.in_c_l_s_bar)) {
                continue;
            }
            if (at_cylinder) {
                draw_flow_control(sketch_, {to.x(), upper + control_high}, {to.x(), upper}, out, cap_end);
                upper += control_high;
            } else {
                draw_flow_control(sketch_, {to.x(), lower}, {to.x(), lower - control_high}, out, cap_end);
                lower -= control_high;
            }
        }
        sketch_.line({to.x(), lower}, {to.x(), upper});
    }

    void plug(QPointF port) {
        sketch_.line(port, port - QPointF(0, 20));
        sketch_.line(port + QPointF(-9, -20), port + QPointF(9, -20));
        sketch_.words(port + QPointF(36, -22), Align::left, QStringLiteral("plugged"), 120);
    }

    /// Between the two lines, or beside the one: what stands on them, and the tube.
    void draw_tube_words() {
        const FlowControls& controls = actuator_.flow_controls;
        const double left = x_ - port_apart + 34;
        constexpr double room = 2 * port_apart - 68;
        const auto say = [&](double top, const QString& text) {
            return sketch_.lines({left, top}, Align::left, text, room, 3) + 8;
        };
        double y = upper_y + 10;
        if (controls.quick_exhaust_c_l_s_bar) {
            y += say(y, figure_(Q::conductance, controls.quick_exhaust_c_l_s_bar, "quick exhaust "));
        }
        const bool at_cylinder = controls.place == ControlPlace::at_cylinder;
        const QString out = figure_(Q::conductance, controls.out_c_l_s_bar, "metering out ");
        const QString in = figure_(Q::conductance, controls.in_c_l_s_bar, "metering in ");
        const QString tube = joined({figure_(Q::length, actuator_.tube.length_m, "tube "),
                                     figure_(Q::small_length, actuator_.tube.bore_mm, "bore ")});
        const QStringList order = at_cylinder ? QStringList{out, in, tube} : QStringList{tube, in, out};
        if (!at_cylinder) {
            y = std::max(y, lower_y - 270);
        }
        for (const QString& text : order) {
            if (!text.isEmpty()) {
                y += say(y, text);
            }
        }
    }

    void draw_exhausts(const ValvePorts& valve) {
        const bool silencer = actuator_.flow_controls.silencer_c_l_s_bar.has_value();
        draw_exhaust(sketch_, valve.exhaust_of_out, silencer);
        if (valve.exhaust_of_back) {
            draw_exhaust(sketch_, *valve.exhaust_of_back, silencer);
        }
    }

    [[nodiscard]] QString coil_words(Coil coil, const QString& number) const {
        const Channel* channel = channel_of(show_, actuator_.id, coil);
        if (channel == nullptr) {
            return number + QStringLiteral(": no channel");
        }
        QString text = number + ": " + shown(channel->name);
        if (channel->contact == Contact::normally_closed) {
            text += QStringLiteral(", has power at rest");
        }
        return text;
    }

    void draw_coil_words() {
        const double top = valve_y + valve_square / 2 + 10;
        const bool three_two = actuator_.valve.kind == ValveKind::three_two;
        const double room = width_ / 2 - 26;
        sketch_.lines({x_ - 26, top}, Align::right, coil_words(Coil::out, three_two ? "12" : "14"), room - 80,
                      3);
        if (actuator_.valve.kind == ValveKind::five_two_two_coils) {
            sketch_.lines({x_ + 108, top}, Align::left, coil_words(Coil::back, "12"), room - 100, 3);
        }
        const double beside = actuator_.valve.kind == ValveKind::five_two_two_coils ? 176.0 : 156.0;
        sketch_.lines({x_ + beside, valve_y - 34}, Align::left,
                      figure_(Q::conductance, actuator_.valve.supply_c_l_s_bar, {}), width_ / 2 - beside - 10,
                      2);
    }

    void draw_feed(QPointF port) {
        sketch_.line(port, {port.x(), air_rail_y});
        sketch_.dot({port.x(), air_rail_y});
        const QString tube = joined({figure_(Q::length, actuator_.feed.length_m, "feed "),
                                     figure_(Q::small_length, actuator_.feed.bore_mm, "bore ")});
        sketch_.lines({port.x() + 18, air_rail_y - 84}, Align::left, tube, width_ / 2 - 80, 2);
        if (!actuator_.feed.reservoir_l) {
            return;
        }
        const double y = air_rail_y - 60;
        const QRectF vessel(port.x() - 190, y - 24, 130, 48);
        sketch_.capsule(vessel);
        sketch_.line({vessel.right(), y}, {port.x(), y});
        sketch_.dot({port.x(), y});
        sketch_.words({vessel.left() - 8, y}, Align::right,
                      figure_(Q::volume, actuator_.feed.reservoir_l, "reservoir "), width_ / 2 - 160);
    }

    Sketch& sketch_;
    const Show& show_;
    const Actuator& actuator_;
    FigureWords figure_;
    double x_;
    double width_;
};

}  // namespace

std::size_t AirCircuit::columns_in(double width) {
    return std::max<std::size_t>(static_cast<std::size_t>(width / least_column), 1);
}

std::size_t AirCircuit::sheets(std::size_t columns_each) const {
    return std::max<std::size_t>((columns() + columns_each - 1) / columns_each, 1);
}

double AirCircuit::width_of_all() const {
    return std::max(least_width, static_cast<double>(columns()) * least_column);
}

void AirCircuit::paint(QPainter& painter, const QRectF& box, std::size_t sheet,
                       std::size_t columns_each) const {
    painter.save();
    painter.translate(box.topLeft());
    Sketch sketch(painter);
    const std::size_t first = sheet * columns_each;
    const std::size_t last = std::min(first + columns_each, columns());
    const double column =
        box.width() / static_cast<double>(std::min(columns_each, std::max<std::size_t>(columns(), 1)));
    double middle = std::min(column, 2 * least_column) / 2;
    const double step = std::min(column, 2 * least_column);
    double furthest = middle;
    for (std::size_t i = first; i < last; ++i) {
        Column(sketch, show_, show_.rig.actuators[i], units_, middle, step).draw();
        furthest = middle;
        middle += step;
    }
    const AirRail rail{step / 2, first < last ? furthest : step / 2, first > 0, last < columns()};
    draw_air_rail(sketch, rail, sheet);
    if (sheet == 0) {
        draw_air_plant(sketch, show_.rig.air_plant, units_);
    }
    painter.restore();
}

}  // namespace gasp
