// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/icons.hpp"

#include "ui/look/look.hpp"
#include "ui/look/painted_icon.hpp"

#include <QByteArray>
#include <QPainter>
#include <QSvgRenderer>

namespace gasp {

namespace {

/// SVG path data on a grid of 16: what is drawn as a line, and what is filled.
struct Drawing {
    Icon icon;
    const char* line;
    const char* fill;
};

constexpr Drawing drawings[] = {
    {Icon::play, "", "M4 2.5 L13.5 8 L4 13.5 Z"},
    {Icon::pause, "", "M4 3h3v10h-3z M9 3h3v10h-3z"},
    {Icon::stop, "", "M3.5 3.5h9v9h-9z"},
    {Icon::loop, "M4.5 5h6a3 3 0 0 1 0 7h-5a3 3 0 0 1 -3 -3 M7 2.5 L4.5 5 L7 7.5", ""},
    {Icon::slow, "M2.5 3v10 M5.5 3v10", "M8.5 3.5 L14 8 L8.5 12.5 Z"},
    {Icon::to_start, "M3.5 3v10", "M13 3 L5.5 8 L13 13 Z"},
    {Icon::follow, "M8 2v12 M10.5 8h4 M12.5 6l2 2l-2 2", "M5 2h6l-3 3.5z"},
    {Icon::grid, "M2 13.5v-11 M5 13.5v-4 M8 13.5v-11 M11 13.5v-4 M14 13.5v-11", ""},
    {Icon::trigger, "M8 1.5v3 M8 11.5v3 M1.5 8h3 M11.5 8h3 M8 5a3 3 0 1 0 0.01 0z",
     "M8 6.8a1.2 1.2 0 1 0 0.01 0z"},
    {Icon::lockout, "M3.5 7.5h9v6h-9z M5.5 7.5v-2.5a2.5 2.5 0 0 1 5 0v2.5", ""},
    {Icon::undo, "M5.5 3 L2.5 6 L5.5 9 M2.5 6h7a3.7 3.7 0 0 1 0 7.4h-3", ""},
    {Icon::redo, "M10.5 3 L13.5 6 L10.5 9 M13.5 6h-7a3.7 3.7 0 0 0 0 7.4h3", ""},
    {Icon::open, "M1.5 13v-9.5h4.5l1.5 2h6v2 M1.5 13l2.5 -5.5h10.5l-2.3 5.5z", ""},
    {Icon::save, "M8 2v7.5 M4.8 6.5 L8 9.7 L11.2 6.5 M2.5 10v3.5h11v-3.5", ""},
    {Icon::new_show, "M3.5 1.5h6l3 3v10h-9z M9.5 1.5v3h3 M8 7v5 M5.5 9.5h5", ""},
    {Icon::export_table, "M1.5 2.5h9v11h-9z M1.5 6h9 M1.5 9.5h9 M4.7 2.5v11 M12.5 8h2.5", ""},
    {Icon::picture, "M1.5 3h13v10h-13z M1.5 11l4 -4l3.5 3.5l2 -2l3.5 3.5", "M10.6 5a1.1 1.1 0 1 0 0.01 0z"},
    {Icon::sheet, "M3.5 1.5h9v13h-9z M5.5 5h5 M5.5 8h5 M5.5 11h3", ""},
    {Icon::zoom_in, "M6.8 2a4.8 4.8 0 1 0 0.01 0z M10.4 10.4 L14.3 14.3 M6.8 4.6v4.4 M4.6 6.8h4.4", ""},
    {Icon::zoom_out, "M6.8 2a4.8 4.8 0 1 0 0.01 0z M10.4 10.4 L14.3 14.3 M4.6 6.8h4.4", ""},
    {Icon::fit, "M2 2.5v11 M14 2.5v11 M4.5 8h7 M6.5 6l-2 2l2 2 M9.5 6l2 2l-2 2", ""},
    {Icon::zoom_selection, "M2 5v-2.5h2.5 M14 5v-2.5h-2.5 M2 11v2.5h2.5 M14 11v2.5h-2.5", "M5 6h6v4h-6z"},
    {Icon::add, "M8 2.5v11 M2.5 8h11", ""},
    {Icon::remove, "M3.5 4.5h9 M6 4.5v-2h4v2 M4.5 4.5l0.7 9h5.6l0.7 -9", ""},
    {Icon::up, "M8 13v-10 M4 7l4 -4l4 4", ""},
    {Icon::down, "M8 3v10 M4 9l4 4l4 -4", ""},
    {Icon::cut, "M4 1.5l6 9 M12 1.5l-6 9 M4.6 10a2 2 0 1 0 0.01 0z M11.4 10a2 2 0 1 0 0.01 0z", ""},
    {Icon::copy, "M5.5 5.5h8v9h-8z M3 10.5h-0.5v-9h8v1.5", ""},
    {Icon::paste, "M3 3h10v11.5h-10z M5.5 8h5 M5.5 11h5", "M5.5 1.5h5v3h-5z"},
    {Icon::rename, "M3 13l0.8 -3.2l7.2 -7.2l2.4 2.4l-7.2 7.2z M9.5 4.1l2.4 2.4", ""},
    {Icon::mark, "M4 1.5v13", "M4 2h9l-2.5 3l2.5 3h-9z"},
    {Icon::cue, "M1.5 12.5h13", "M4 5h8v5h-8z"},
    {Icon::tie,
     "M6.5 9.5l3 -3 M7.5 4.5l1.5 -1.5a2.8 2.8 0 0 1 4 4l-1.5 1.5 M8.5 11.5l-1.5 1.5a2.8 2.8 0 0 1 -4 -4l1.5 "
     "-1.5",
     ""},
    {Icon::untie,
     "M8.5 4l1 -1a2.8 2.8 0 0 1 4 4l-1 1 M7.5 12l-1 1a2.8 2.8 0 0 1 -4 -4l1 -1 M3 2l2.5 2.5 M13 14l-2.5 -2.5",
     ""},
    {Icon::flashes, "M1.5 12.5v-8h2.6v8h2.6v-8h2.6v8h2.6v-8h2.6v8", ""},
    {Icon::steady, "M1.5 12.5h2v-8h9v8h2", ""},
    {Icon::nudge_left, "M13.5 3v10 M10.5 8h-8 M5.5 5l-3 3l3 3", ""},
    {Icon::nudge_right, "M2.5 3v10 M5.5 8h8 M10.5 5l3 3l-3 3", ""},
    {Icon::rig, "M2 14.5v-12h5 M2 6l4 -3.5 M7 2.5v4 M5.3 6.5h3.4v3h-3.4z M2 14.5h12", ""},
    {Icon::air, "M4 3.5h8a3 3 0 0 1 0 9h-8a3 3 0 0 1 0 -9z M4.5 12.5v2 M11.5 12.5v2 M8 3.5v-2", ""},
    {Icon::actuator, "M1.5 5h8v6h-8z M6 5v6 M6 8h7.5 M13.5 6v4", ""},
    {Icon::channel, "M1.5 11h4l5 -5.5 M10.5 11h4 M5.5 9.8a1.2 1.2 0 1 0 0.01 0z", ""},
    {Icon::board, "M2.5 3.5h11v9h-11z M5 1.5v2 M8 1.5v2 M11 1.5v2 M5 12.5v2 M8 12.5v2 M11 12.5v2",
     "M6 6h4v4h-4z"},
    {Icon::supply, "M2.5 4h11v8h-11z M5 2v2 M11 2v2 M4.5 7h2.6 M9.2 7h2.6 M10.5 5.7v2.6 M5 12v2 M11 12v2",
     ""},
    {Icon::sensor, "M2 13.5h12 M5 10a4.2 4.2 0 0 1 6 0 M2.8 7.6a7.3 7.3 0 0 1 10.4 0",
     "M8 11a1.2 1.2 0 1 0 0.01 0z"},
    {Icon::sound, "M1.5 8h2 M5 5v6 M7.5 2.5v11 M10 4.5v7 M12.5 6.5v3 M14.5 8h0.2", ""},
    {Icon::findings, "M2 4h1.5 M2 8h1.5 M2 12h1.5 M6 4h8 M6 8h8 M6 12h8", ""},
    {Icon::search, "M6.8 2a4.8 4.8 0 1 0 0.01 0z M10.4 10.4 L14.3 14.3", ""},
    {Icon::settings,
     "M2 4.5h6 M11.5 4.5h2.5 M2 11.5h2.5 M8 11.5h6 M9.8 2.8a1.7 1.7 0 1 0 0.01 0z M6.2 9.8a1.7 1.7 0 1 0 "
     "0.01 0z",
     ""},
    {Icon::theme, "M8 2a6 6 0 1 0 0.01 0z", "M8 2a6 6 0 0 1 0 12z"},
    {Icon::hand,
     "M4 8.5v-3.5 M6.3 7.5v-5 M8.6 7.5v-5.5 M10.9 8v-4.5 M4 8v2a4.4 4.4 0 0 0 4.4 4.4c2.3 0 3.4 -1.5 4.2 "
     "-3.4l1.2 -3l-1.6 -0.6l-1.3 2.1",
     ""},
    {Icon::help, "M5.5 5.5a2.6 2.6 0 1 1 3.8 2.3c-0.9 0.5 -1.3 1 -1.3 2.2", "M8 12a0.9 0.9 0 1 0 0.01 0z"},
};

const Drawing& drawing_of(Icon icon) {
    for (const Drawing& drawing : drawings) {
        if (drawing.icon == icon) {
            return drawing;
        }
    }
    Q_UNREACHABLE();
}

QByteArray svg_of(const Drawing& drawing, const QColor& colour) {
    const QByteArray ink = colour.name().toLatin1();
    QByteArray svg = R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 16 16">)";
    svg += R"(<path fill="none" stroke-width="1.3" stroke-linecap="round" stroke-linejoin="round" stroke=")" +
           ink + R"(" d=")" + drawing.line + R"("/>)";
    svg += R"(<path fill=")" + ink + R"(" d=")" + drawing.fill + R"("/></svg>)";
    return svg;
}

QColor ink_for(QIcon::Mode mode, QIcon::State state) {
    QColor colour = state == QIcon::On ? look().brass_text : look().text;
    if (mode == QIcon::Disabled) {
        colour = look().rule_strong;
    }
    return colour;
}

}  // namespace

QIcon icon(Icon which) {
    return painted_icon("icon" + QString::number(static_cast<int>(which)),
                        [which](QPainter& painter, const QRectF& box, QIcon::Mode mode, QIcon::State state) {
                            QSvgRenderer renderer(svg_of(drawing_of(which), ink_for(mode, state)));
                            renderer.render(&painter, box);
                        });
}

}  // namespace gasp
