// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/circuit/air_symbols.hpp"

#include <algorithm>

namespace gasp {

namespace {

using Way = Sketch::Way;
constexpr double bar = 9.0;    // half the bar across a shut port
constexpr double stub = 22.0;  // how far a port shut inside its square reaches in
constexpr double exhaust_a = 15.0;
constexpr double supply_at = 45.0;
constexpr double exhaust_b = 75.0;
constexpr double outlet_a = 25.0;
constexpr double outlet_b = 65.0;

void shut_port(Sketch& sketch, QPointF at, bool below) {
    const QPointF end(at.x(), at.y() + (below ? -stub : stub));
    sketch.line(at, end);
    sketch.line({end.x() - bar, end.y()}, {end.x() + bar, end.y()});
}

void coil(Sketch& sketch, double edge, double middle, bool at_left, bool pilot) {
    constexpr double width = 48.0;
    constexpr double height = 44.0;
    constexpr double pilot_width = 26.0;
    const double towards = at_left ? -1.0 : 1.0;
    double inner = edge;
    if (pilot) {
        const double outer = inner + towards * pilot_width;
        sketch.box(QRectF(QPointF(std::min(inner, outer), middle - height / 2), QSizeF(pilot_width, height)));
        sketch.triangle({inner, middle}, at_left ? Way::right : Way::left, 16.0);
        inner = outer;
    }
    const double outer = inner + towards * width;
    const QRectF box(QPointF(std::min(inner, outer), middle - height / 2), QSizeF(width, height));
    sketch.box(box);
    if (at_left) {
        sketch.line(box.topLeft(), box.bottomRight());
    } else {
        sketch.line(box.topRight(), box.bottomLeft());
    }
}

void numbers(Sketch& sketch, QPointF at, bool below, bool at_left, const char* number) {
    constexpr double apart = 6.0;
    sketch.words({at.x() + (at_left ? -apart : apart), at.y() + (below ? 15.0 : -15.0)},
                 at_left ? Sketch::Align::right : Sketch::Align::left, QString::fromLatin1(number), 60.0);
}

void three_two_inside(Sketch& sketch, double left, double top) {
    const double bottom = top + valve_square;
    const double mid = left + valve_square;
    sketch.arrow({left + outlet_a, bottom}, {left + supply_at, top});  // shifted: 1 to 2
    shut_port(sketch, {left + outlet_b, bottom}, true);
    sketch.arrow({mid + supply_at, top}, {mid + outlet_b, bottom});  // at rest: 2 to 3
    shut_port(sketch, {mid + outlet_a, bottom}, true);
}

void five_two_inside(Sketch& sketch, double left, double top) {
    const double bottom = top + valve_square;
    const double mid = left + valve_square;
    sketch.arrow({left + supply_at, bottom}, {left + outlet_a, top});  // shifted: 1 to 4
    sketch.arrow({left + outlet_b, top}, {left + exhaust_b, bottom});  // 2 to 3
    shut_port(sketch, {left + exhaust_a, bottom}, true);               // 5 shut
    sketch.arrow({mid + supply_at, bottom}, {mid + outlet_b, top});    // at rest: 1 to 2
    sketch.arrow({mid + outlet_a, top}, {mid + exhaust_a, bottom});    // 4 to 5
    shut_port(sketch, {mid + exhaust_b, bottom}, true);                // 3 shut
}

}  // namespace

CylinderPorts draw_cylinder(Sketch& sketch, QPointF centre, CylinderAction action, bool cushions) {
    constexpr double half = 165.0;
    constexpr double half_high = 40.0;
    constexpr double port_at = 130.0;
    const QRectF barrel(centre.x() - half, centre.y() - half_high, 2 * half, 2 * half_high);
    sketch.box(barrel);
    const QRectF piston(centre.x() - 105, barrel.top(), 22, barrel.height());
    sketch.box(piston);
    const QRectF rod(piston.right(), centre.y() - 8, barrel.right() + 62 - piston.right(), 16);
    sketch.box(rod);
    if (action == CylinderAction::single_spring_return) {
        sketch.spring({piston.right(), centre.y() + 24}, {barrel.right(), centre.y() + 24}, 20);
        sketch.spring({piston.right(), centre.y() - 24}, {barrel.right(), centre.y() - 24}, 20);
    }
    if (cushions) {
        sketch.box({piston.left() - 12, centre.y() - 12, 12, 24});
        sketch.box({piston.right(), centre.y() - 16, 12, 32});
        sketch.arrow({piston.left() - 30, barrel.bottom() - 8}, {piston.left() + 40, barrel.top() + 8});
    }
    const QPointF cap(centre.x() - port_at, barrel.bottom());
    const QPointF rod_port(centre.x() + port_at, barrel.bottom());
    if (action != CylinderAction::double_acting) {
        sketch.line(rod_port, rod_port + QPointF(0, 16));  // it breathes
        sketch.triangle(rod_port + QPointF(0, 34), Way::down, 18);
    }
    return {cap, rod_port};
}

ValvePorts draw_valve(Sketch& sketch, QPointF centre, ValveKind kind, bool pilot) {
    const double left = centre.x() - valve_square;
    const double top = centre.y() - valve_square / 2;
    const double bottom = top + valve_square;
    sketch.box({left, top, valve_square, valve_square});
    sketch.box({centre.x(), top, valve_square, valve_square});
    coil(sketch, left, centre.y(), true, pilot);
    const double right = centre.x() + valve_square;
    if (kind == ValveKind::five_two_two_coils) {
        coil(sketch, right, centre.y(), false, pilot);
    } else {
        sketch.spring({right, centre.y()}, {right + 54, centre.y()}, 36);
    }
    if (kind == ValveKind::three_two) {
        three_two_inside(sketch, left, top);
        const ValvePorts ports{{centre.x() + outlet_a, bottom},
                               {centre.x() + supply_at, top},
                               std::nullopt,
                               {centre.x() + outlet_b, bottom},
                               std::nullopt};
        numbers(sketch, ports.supply, true, true, "1");
        numbers(sketch, ports.out, false, true, "2");
        numbers(sketch, ports.exhaust_of_out, true, false, "3");
        return ports;
    }
    five_two_inside(sketch, left, top);
    const ValvePorts ports{{centre.x() + supply_at, bottom},
                           {centre.x() + outlet_a, top},
                           QPointF(centre.x() + outlet_b, top),
                           {centre.x() + exhaust_a, bottom},
                           QPointF(centre.x() + exhaust_b, bottom)};
    numbers(sketch, ports.supply, true, false, "1");
    numbers(sketch, ports.out, false, true, "4");
    numbers(sketch, *ports.back, false, false, "2");
    numbers(sketch, ports.exhaust_of_out, true, true, "5");
    numbers(sketch, *ports.exhaust_of_back, true, false, "3");
    return ports;
}

void draw_exhaust(Sketch& sketch, QPointF from, bool silencer) {
    constexpr double fall = 32.0;
    const QPointF end = from + QPointF(0, fall);
    sketch.line(from, end);
    if (!silencer) {
        sketch.triangle(end + QPointF(0, 18), Way::down, 18);
        return;
    }
    sketch.box({end.x() - 12, end.y(), 24, 34});
    sketch.line({end.x() - 5, end.y()}, {end.x() - 5, end.y() + 34}, Sketch::Stroke::dashed);
    sketch.line({end.x() + 5, end.y()}, {end.x() + 5, end.y() + 34}, Sketch::Stroke::dashed);
    sketch.triangle(end + QPointF(0, 52), Way::down, 18);
}

void draw_flow_control(Sketch& sketch, QPointF bottom, QPointF top, bool meters_out, bool check_at_left) {
    const double x = bottom.x();
    const double y = (bottom.y() + top.y()) / 2;
    const double side = x + (check_at_left ? -46.0 : 46.0);
    const double high = (bottom.y() - top.y()) / 2 - 10;
    sketch.line(bottom, top);
    // A throttle that can be set: two bows beside the line, an arrow across.
    for (const double way : {-1.0, 1.0}) {
        sketch.path(QPolygonF{{x + way * 15, y - 22},
                              {x + way * 8, y - 10},
                              {x + way * 6, y},
                              {x + way * 8, y + 10},
                              {x + way * 15, y + 22}});
    }
    sketch.arrow({x - 24, y + 24}, {x + 24, y - 24});
    // The way around it, with a ball on a seat: it lifts off the seat the way the air may pass.
    sketch.path(QPolygonF{{x, y + high}, {side, y + high}, {side, y + 14}});
    sketch.path(QPolygonF{{side, y - 14}, {side, y - high}, {x, y - high}});
    sketch.dot({x, y + high});
    sketch.dot({x, y - high});
    sketch.circle({side, y}, 9);
    const double seat =
        meters_out ? y + 14 : y - 14;  // metering out, air coming in from below lifts the ball
    const double wing = meters_out ? y - 2 : y + 2;
    sketch.path(QPolygonF{{side - 16, wing}, {side, seat}, {side + 16, wing}});
}

void draw_quick_exhaust(Sketch& sketch, QPointF bottom, QPointF top, bool exhaust_at_left) {
    const double x = bottom.x();
    const double y = (bottom.y() + top.y()) / 2;
    constexpr double half = 30.0;
    sketch.line(bottom, {x, y + half});
    sketch.line({x, y - half}, top);
    sketch.box({x - half, y - half, 2 * half, 2 * half});
    const double way = exhaust_at_left ? -1.0 : 1.0;
    // The ball shuts the exhaust while air comes in, and the inlet while it goes out.
    sketch.circle({x + way * 8, y}, 8);
    sketch.path(QPolygonF{{x + way * 14, y - 14}, {x + way * 20, y}, {x + way * 14, y + 14}});
    sketch.line({x + way * 20, y}, {x + way * half, y});
    sketch.path(QPolygonF{{x, y + half}, {x, y + 14}});
    sketch.path(QPolygonF{{x, y - half}, {x, y - 14}});
    sketch.line({x + way * half, y}, {x + way * (half + 16), y});
    sketch.triangle({x + way * (half + 34), y}, exhaust_at_left ? Way::left : Way::right, 18);
    const Sketch::Align outward = exhaust_at_left ? Sketch::Align::right : Sketch::Align::left;
    sketch.words({x + way * 8, y + half + 14}, outward, QStringLiteral("1"), 30);
    sketch.words({x + way * 8, y - half - 14}, outward, QStringLiteral("2"), 30);
    sketch.words({x + way * (half + 10), y - 22},
                 exhaust_at_left ? Sketch::Align::right : Sketch::Align::left, QStringLiteral("3"), 30);
}

void draw_compressor(Sketch& sketch, QPointF centre) {
    sketch.circle(centre, 50);
    sketch.triangle({centre.x() + 50, centre.y()}, Way::right, 30);
    const QPointF motor = centre - QPointF(112, 0);
    sketch.circle(motor, 36);
    sketch.words(motor, Sketch::Align::centre, QStringLiteral("M"), 60, {PrintSize::body});
    sketch.line({motor.x() + 36, motor.y() - 5}, {centre.x() - 50, centre.y() - 5});
    sketch.line({motor.x() + 36, motor.y() + 5}, {centre.x() - 50, centre.y() + 5});
}

void draw_receiver(Sketch& sketch, const QRectF& box) {
    sketch.capsule(box);
    const QPointF drain(box.center().x(), box.bottom());
    sketch.line(drain, drain + QPointF(0, 12));
    sketch.path(QPolygonF{drain + QPointF(-12, 12), drain + QPointF(12, 34), drain + QPointF(-12, 34),
                          drain + QPointF(12, 12), drain + QPointF(-12, 12)});
}

void draw_relief_valve(Sketch& sketch, QPointF bottom) {
    const QRectF box(bottom.x() - 28, bottom.y() - 86, 56, 56);
    sketch.line(bottom, {bottom.x(), box.bottom()});
    sketch.box(box);
    sketch.arrow({box.left() + 14, box.bottom()}, {box.left() + 14, box.top()});
    sketch.spring({box.right(), box.center().y()}, {box.right() + 40, box.center().y()}, 26);
    sketch.line({bottom.x(), box.top()}, {bottom.x(), box.top() - 8});
    sketch.triangle({bottom.x(), box.top() - 26}, Way::up, 18);
    sketch.path(QPolygonF{{bottom.x(), bottom.y() - 16},
                          {box.left() - 14, bottom.y() - 16},
                          {box.left() - 14, box.center().y()},
                          {box.left(), box.center().y()}},
                Sketch::Stroke::dashed);
}

void draw_pressure_switch(Sketch& sketch, QPointF bottom) {
    const QRectF box(bottom.x() - 30, bottom.y() - 90, 60, 60);
    sketch.line(bottom, {bottom.x(), box.bottom()});
    sketch.box(box);
    // A contact that opens as the pressure rises, against a spring that can be set.
    sketch.line({box.left() + 8, box.center().y() - 10}, {box.left() + 20, box.center().y() - 10});
    sketch.line({box.left() + 20, box.center().y() + 2}, {box.right() - 18, box.center().y() - 14});
    sketch.line({box.right() - 18, box.center().y() - 10}, {box.right() - 8, box.center().y() - 10});
    sketch.triangle({box.center().x(), box.bottom() - 20}, Way::up, 14);
    sketch.spring({box.right(), box.center().y() + 8}, {box.right() + 42, box.center().y() + 8}, 24);
    sketch.arrow({box.right() + 4, box.center().y() + 28}, {box.right() + 42, box.center().y() - 14});
}

void draw_gauge(Sketch& sketch, QPointF bottom) {
    constexpr double radius = 26.0;
    const QPointF centre = bottom - QPointF(0, 16 + radius);
    sketch.line(bottom, bottom - QPointF(0, 16));
    sketch.circle(centre, radius);
    sketch.arrow(centre + QPointF(-15, 15), centre + QPointF(16, -16));
}

void draw_hand_valve(Sketch& sketch, QPointF supply, QPointF outlet) {
    const double middle = (supply.y() + outlet.y()) / 2;
    const double top = middle - valve_square / 2;
    const double bottom = top + valve_square;
    const double rest = supply.x() - outlet_a;  // the square it is drawn in, at the right
    const double left = rest - valve_square;
    sketch.box({left, top, valve_square, valve_square});
    sketch.box({rest, top, valve_square, valve_square});
    three_two_inside(sketch, left, top);
    sketch.line(supply, {supply.x(), bottom});
    const QPointF out(rest + supply_at, top);
    sketch.path(QPolygonF{out, {out.x(), outlet.y()}, outlet});
    draw_exhaust(sketch, {rest + outlet_b, bottom}, false);
    numbers(sketch, {supply.x(), bottom}, true, true, "1");
    numbers(sketch, out, false, true, "2");
    numbers(sketch, {rest + outlet_b, bottom}, true, false, "3");
    // A hand lever with notches that hold it.
    sketch.box({left - 34, middle - 14, 34, 28});
    sketch.path(QPolygonF{{left - 26, middle + 14}, {left - 20, middle + 4}, {left - 14, middle + 14}});
    sketch.line({left - 34, middle}, {left - 58, middle});
    sketch.line({left - 58, middle - 20}, {left - 58, middle + 20});
}

void draw_filter(Sketch& sketch, QPointF centre) {
    constexpr double half = 45.0;
    sketch.path(QPolygonF{centre + QPointF(-half, 0), centre + QPointF(0, -half), centre + QPointF(half, 0),
                          centre + QPointF(0, half), centre + QPointF(-half, 0)});
    sketch.line(centre + QPointF(0, -half), centre + QPointF(0, half), Sketch::Stroke::dashed);
    sketch.line(centre + QPointF(-22, 23), centre + QPointF(22, 23));
    sketch.line(centre + QPointF(0, half), centre + QPointF(0, half + 16));
}

void draw_regulator(Sketch& sketch, QPointF centre) {
    constexpr double half = 45.0;
    sketch.box({centre.x() - half, centre.y() - half, 2 * half, 2 * half});
    sketch.arrow(centre + QPointF(-half, 0), centre + QPointF(half, 0));
    // Held open by a spring that can be set, shut by the pressure behind it.
    QPolygonF spring{centre + QPointF(0, -half)};
    for (int i = 0; i < 4; ++i) {
        spring << centre + QPointF(i % 2 == 0 ? -14 : 14, -half - 5 - 9.0 * i);
    }
    spring << centre + QPointF(0, -half - 40);
    sketch.path(spring);
    sketch.arrow(centre + QPointF(-26, -half - 4), centre + QPointF(26, -half - 38));
    sketch.path(QPolygonF{centre + QPointF(half + 18, 0), centre + QPointF(half + 18, half + 18),
                          centre + QPointF(0, half + 18), centre + QPointF(0, half)},
                Sketch::Stroke::dashed);
    sketch.triangle(centre + QPointF(-half, half - 16), Way::right, 14);
}

}  // namespace gasp
