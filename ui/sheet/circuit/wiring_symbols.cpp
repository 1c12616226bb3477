// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/circuit/wiring_symbols.hpp"

namespace gasp {

namespace {

using Align = Sketch::Align;

/// A diode between two points of an upright line, its bar above: it takes no current from the supply.
void diode(Sketch& sketch, QPointF middle, bool zener) {
    constexpr double half = 15.0;
    sketch.path(QPolygonF{middle + QPointF(-half, half), middle + QPointF(half, half),
                          middle + QPointF(0, -half), middle + QPointF(-half, half)});
    if (zener) {
        sketch.path(QPolygonF{middle + QPointF(-half, -half + 8), middle + QPointF(-half, -half),
                              middle + QPointF(half, -half), middle + QPointF(half, -half - 8)});
    } else {
        sketch.line(middle + QPointF(-half, -half), middle + QPointF(half, -half));
    }
}

void resistor(Sketch& sketch, QPointF middle) {
    sketch.box({middle.x() - 9, middle.y() - 22, 18, 44});
}

void capacitor(Sketch& sketch, QPointF middle) {
    sketch.line(middle + QPointF(-18, -6), middle + QPointF(18, -6));
    sketch.line(middle + QPointF(-18, 6), middle + QPointF(18, 6));
}

/// Beside a load, joined to its line above and below.
void draw_suppression(Sketch& sketch, QPointF top, QPointF bottom, Suppression kind) {
    constexpr double beside = 84.0;
    if (kind == Suppression::not_stated || kind == Suppression::none) {
        return;
    }
    const double x = top.x() + beside;
    const double middle = (top.y() + bottom.y()) / 2;
    const double upper = top.y() + 14;
    const double lower = bottom.y() - 14;
    sketch.dot({top.x(), upper});
    sketch.dot({top.x(), lower});
    const auto join = [&](double from, double to) {
        sketch.path(QPolygonF{{top.x(), upper}, {x, upper}, {x, from}});
        sketch.path(QPolygonF{{x, to}, {x, lower}, {top.x(), lower}});
    };
    switch (kind) {
        case Suppression::diode:
            join(middle - 15, middle + 15);
            diode(sketch, {x, middle}, false);
            break;
        case Suppression::diode_and_zener:
            join(middle - 47, middle + 47);
            diode(sketch, {x, middle - 32}, false);
            sketch.line({x, middle - 17}, {x, middle + 17});
            diode(sketch, {x, middle + 32}, true);
            break;
        case Suppression::resistor_capacitor:
            join(middle - 52, middle + 32);
            resistor(sketch, {x, middle - 30});
            sketch.line({x, middle - 8}, {x, middle + 20});
            capacitor(sketch, {x, middle + 26});
            break;
        case Suppression::varistor:
            join(middle - 22, middle + 22);
            resistor(sketch, {x, middle});
            sketch.path(QPolygonF{{x - 26, middle + 22}, {x - 16, middle + 22}, {x + 18, middle - 22}});
            break;
        default:
            break;
    }
}

void round(Sketch& sketch, QPointF middle, bool crossed, const char* letter) {
    constexpr double radius = 42.0;
    constexpr double slant = radius * 0.7071;
    sketch.circle(middle, radius);
    if (crossed) {
        sketch.line(middle + QPointF(-slant, -slant), middle + QPointF(slant, slant));
        sketch.line(middle + QPointF(-slant, slant), middle + QPointF(slant, -slant));
    } else {
        sketch.words(middle, Align::centre, QString::fromLatin1(letter), 60, {PrintSize::body});
    }
}

void boxed(Sketch& sketch, QPointF middle, const char* words) {
    sketch.box({middle.x() - 46, middle.y() - 40, 92, 80});
    sketch.words(middle, Align::centre, QString::fromLatin1(words), 86);
}

}  // namespace

QPointF draw_fuse(Sketch& sketch, QPointF top) {
    const QPointF bottom = top + QPointF(0, fuse_high);
    sketch.line(top, bottom);
    sketch.box({top.x() - 12, top.y() + 16, 24, fuse_high - 32});
    return bottom;
}

QPointF draw_contact(Sketch& sketch, QPointF top, Contact contact, SwitchedBy by) {
    const QPointF bottom = top + QPointF(0, contact_high);
    const double upper = top.y() + 36;
    const double lower = bottom.y() - 36;
    const bool makes = contact == Contact::normally_open;
    sketch.line(top, {top.x(), upper});
    sketch.line({top.x(), lower}, bottom);
    if (makes) {
        sketch.line({top.x(), lower}, {top.x() - 30, upper + 2});
    } else {
        sketch.line({top.x(), upper}, {top.x() + 22, upper});
        sketch.line({top.x(), lower}, {top.x() + 16, upper - 8});
    }
    const char* const first = makes ? "13" : "11";
    const char* const second = makes ? "14" : "12";
    sketch.words({top.x() - 10, upper - 14}, Align::right, QString::fromLatin1(first), 60);
    sketch.words({top.x() - 10, lower + 16}, Align::right, QString::fromLatin1(second), 60);
    if (by == SwitchedBy::transistor) {
        sketch.box({top.x() - 50, top.y() + 6, 86, contact_high - 12}, Sketch::Stroke::chain);
    }
    return bottom;
}

QPointF draw_load(Sketch& sketch, QPointF top, LoadKind kind, Suppression suppression) {
    const QPointF bottom = top + QPointF(0, load_high);
    const QPointF middle = (top + bottom) / 2;
    double half = 42.0;
    switch (kind) {
        case LoadKind::coil:
            half = 26.0;
            sketch.box({middle.x() - 46, middle.y() - half, 92, 2 * half});
            sketch.words({top.x() - 10, middle.y() - half - 18}, Align::right, QStringLiteral("A1"), 60);
            sketch.words({top.x() - 10, middle.y() + half + 18}, Align::right, QStringLiteral("A2"), 60);
            break;
        case LoadKind::lamp:
            round(sketch, middle, true, "");
            break;
        case LoadKind::led:
            round(sketch, middle, true, "");
            sketch.words({top.x() - 10, middle.y() - half - 18}, Align::right, QStringLiteral("+"), 60);
            break;
        case LoadKind::motor:
            round(sketch, middle, false, "M");
            break;
        case LoadKind::fogger:
            half = 40.0;
            boxed(sketch, middle, "fog");
            break;
        case LoadKind::sound_player:
            half = 40.0;
            boxed(sketch, middle, "player");
            break;
        case LoadKind::other:
        case LoadKind::not_stated:
            half = 40.0;
            boxed(sketch, middle, "load");
            break;
    }
    sketch.line(top, {middle.x(), middle.y() - half});
    sketch.line({middle.x(), middle.y() + half}, bottom);
    draw_suppression(sketch, top, bottom, suppression);
    return bottom;
}

void draw_terminal(Sketch& sketch, QPointF at) {
    sketch.circle(at, 10);
}

}  // namespace gasp
