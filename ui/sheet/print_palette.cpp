// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/print_palette.hpp"

namespace gasp {

namespace {

Palette make() {
    Palette p = palette(Theme::light);
    p.ground = p.canvas = p.raised = QColor(Qt::white);
    p.canvas_soft = QColor(0xf4, 0xf4, 0xf4);
    p.rule = QColor(0xc8, 0xc8, 0xc8);
    p.rule_strong = QColor(0x70, 0x70, 0x70);
    p.text = p.brass_text = QColor(Qt::black);
    p.text_soft = QColor(0x48, 0x48, 0x48);
    return p;
}

}  // namespace

const Palette& print_palette() {
    static const Palette palette = make();
    return palette;
}

}  // namespace gasp
