// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/circuit/circuit_picture.hpp"

#include "ui/sheet/circuit/air_circuit.hpp"
#include "ui/sheet/circuit/sketch.hpp"
#include "ui/sheet/circuit/wiring_diagram.hpp"
#include "ui/sheet/picture_file.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QPainter>

#include <cmath>

namespace gasp {

namespace {

constexpr double margin = 60.0;
constexpr double head = 90.0;

QString title_of(const Show& show, const QString& what) {
    return show.name.empty() ? what : shown(show.name) + ": " + what;
}

void paint_title(QPainter& painter, const QString& title, double width) {
    Sketch sketch(painter);
    sketch.words({margin, margin + 20}, Sketch::Align::left, title, width - 2 * margin,
                 {PrintSize::head, true});
}

QSize pixels(const CircuitPicture& picture, int width_px) {
    return {width_px, static_cast<int>(std::lround(picture.size.height() * width_px / picture.size.width()))};
}

std::function<void(QPainter&)> on_white(const CircuitPicture& picture, int width_px) {
    return [&picture, width_px](QPainter& painter) {
        const QSize size = pixels(picture, width_px);
        painter.fillRect(QRect(QPoint(0, 0), size), Qt::white);
        painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
        // A name in Arabic letters must not turn the order of the figures beside it.
        painter.setLayoutDirection(Qt::LeftToRight);
        const double scale = width_px / picture.size.width();
        painter.scale(scale, scale);
        picture.paint(painter);
    };
}

}  // namespace

Result<CircuitPicture> air_picture(const Show& show, UnitSystem units) {
    if (show.rig.actuators.empty()) {
        return fail("there is no air circuit to draw", show.name, "Add an actuator to the rig");
    }
    const AirCircuit circuit(show, units);
    const double width = circuit.width_of_all();
    CircuitPicture picture{title_of(show, QStringLiteral("air circuit, drawn without power and air")),
                           {width + 2 * margin, AirCircuit::height + head + 2 * margin},
                           {}};
    picture.paint = [circuit, width, title = picture.title](QPainter& painter) {
        paint_title(painter, title, width + 2 * margin);
        circuit.paint(painter, {margin, margin + head, width, AirCircuit::height}, 0, circuit.columns());
    };
    return picture;
}

Result<CircuitPicture> wiring_picture(const Show& show, UnitSystem units) {
    if (show.rig.channels.empty()) {
        return fail("there is no wiring to draw", show.name, "Add a channel to the rig");
    }
    const WiringDiagram diagram(show, units);
    const double width = diagram.width_of_all();
    const std::vector<WiringDiagram::Sheet> sheets = diagram.sheets(width);
    CircuitPicture picture{
        title_of(show, QStringLiteral("wiring, drawn without power")),
        {width + 2 * margin, WiringDiagram::height * static_cast<double>(sheets.size()) + head + 2 * margin},
        {}};
    picture.paint = [diagram, sheets, width, title = picture.title](QPainter& painter) {
        paint_title(painter, title, width + 2 * margin);
        double y = margin + head;
        for (const WiringDiagram::Sheet& sheet : sheets) {
            diagram.paint(painter, {margin, y, width, WiringDiagram::height}, sheet);
            y += WiringDiagram::height;
        }
    };
    return picture;
}

Result<std::string> png_of(const CircuitPicture& picture, int width_px) {
    return png_painted(pixels(picture, width_px), on_white(picture, width_px));
}

Result<std::string> svg_of(const CircuitPicture& picture, int width_px) {
    return svg_painted(pixels(picture, width_px), picture.title, on_white(picture, width_px));
}

}  // namespace gasp
