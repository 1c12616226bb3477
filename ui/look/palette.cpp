// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/palette.hpp"

#include <array>
#include <cmath>

namespace gasp {

namespace {

constexpr QRgb okabe_ito_orange = 0xffe69f00;
constexpr QRgb okabe_ito_sky_blue = 0xff56b4e9;
constexpr QRgb okabe_ito_green = 0xff009e73;
constexpr QRgb okabe_ito_yellow = 0xfff0e442;
constexpr QRgb okabe_ito_blue = 0xff0072b2;
constexpr QRgb okabe_ito_vermilion = 0xffd55e00;
constexpr QRgb okabe_ito_purple = 0xffcc79a7;
constexpr QRgb okabe_ito_grey = 0xff999999;

void set_fixed_colours(Palette& p) {
    p.valve = okabe_ito_blue;
    p.lamp = okabe_ito_yellow;
    p.motor = okabe_ito_green;
    p.jaw = okabe_ito_purple;
    p.other = okabe_ito_grey;
    p.on_valve = 0xffffffff;
    p.on_lamp = p.on_motor = p.on_jaw = p.on_other = 0xff12181b;
    p.stop = okabe_ito_vermilion;
    p.warn = okabe_ito_orange;
    p.note = okabe_ito_sky_blue;
}

Palette make_dark() {
    Palette p;
    set_fixed_colours(p);
    p.ground = 0xff20282d;
    p.canvas = 0xff151b1f;
    p.canvas_soft = 0xff1a2126;
    p.raised = 0xff2a343a;
    p.rule = 0xff36424a;
    p.rule_strong = 0xff6f808b;
    p.text = 0xffeee8d9;
    p.text_soft = 0xffacb2ae;
    p.brass = 0xffd0a548;
    p.on_brass = 0xff17140b;
    p.brass_text = 0xffdeb964;
    p.selection = 0xff3c3828;
    p.sound = 0xff66808f;
    p.sound_core = 0xffb4c4cc;
    p.pressure = 0xff8fc7be;
    p.stop_text = 0xfff58f50;
    p.warn_text = 0xfff0b23a;
    p.note_text = 0xff7cc4ee;
    return p;
}

Palette make_light() {
    Palette p;
    set_fixed_colours(p);
    p.ground = 0xffe8e3d7;
    p.canvas = 0xfffbf9f3;
    p.canvas_soft = 0xfff2eee4;
    p.raised = 0xffdcd6c7;
    p.rule = 0xffcbc4b4;
    p.rule_strong = 0xff7c7667;
    p.text = 0xff1c252b;
    p.text_soft = 0xff4a545a;
    p.brass = 0xff86621a;
    p.on_brass = 0xfffffdf6;
    p.brass_text = 0xff664a0d;
    p.selection = 0xffebe0c2;
    p.sound = 0xff8496a1;
    p.sound_core = 0xff3b5463;
    p.pressure = 0xff25665f;
    p.stop_text = 0xff8f3e00;
    p.warn_text = 0xff6b4900;
    p.note_text = 0xff0f557f;
    return p;
}

/// The colour, darkened or lightened in small steps until it stands out from `back`.
QColor standing_out(QColor colour, const QColor& back, double least) {
    const bool darker = relative_luminance(back) > 0.2;
    for (int step = 0; step < 40 && contrast_ratio(colour, back) < least; ++step) {
        colour = darker ? colour.darker(106) : colour.lighter(106);
    }
    return colour;
}

double linear(double share) {
    return share <= 0.03928 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
}

void add_text(std::vector<ColourPair>& pairs, const char* what, const QColor& front,
              std::initializer_list<QColor> backs) {
    for (const QColor& back : backs) {
        pairs.push_back({what, front, back, 4.5});
    }
}

void add_mark(std::vector<ColourPair>& pairs, const char* what, const QColor& front,
              std::initializer_list<QColor> backs) {
    for (const QColor& back : backs) {
        pairs.push_back({what, front, back, 3.0});
    }
}

}  // namespace

QColor Palette::kind(ChannelKind which) const {
    const std::array colours{valve, lamp, motor, jaw, other};
    return colours.at(static_cast<std::size_t>(which));
}

QColor Palette::on_kind(ChannelKind which) const {
    const std::array colours{on_valve, on_lamp, on_motor, on_jaw, on_other};
    return colours.at(static_cast<std::size_t>(which));
}

QColor Palette::kind_edge(ChannelKind which) const {
    return standing_out(kind(which), raised, 3.05);
}

QColor Palette::severity(Severity which) const {
    const std::array colours{stop, warn, note};
    return colours.at(static_cast<std::size_t>(which));
}

QColor Palette::severity_text(Severity which) const {
    const std::array colours{stop_text, warn_text, note_text};
    return colours.at(static_cast<std::size_t>(which));
}

const Palette& palette(Theme theme) {
    static const Palette dark = make_dark();
    static const Palette light = make_light();
    return theme == Theme::dark ? dark : light;
}

QColor mixed(const QColor& below, const QColor& above, double share) {
    const auto one = [share](double a, double b) { return static_cast<float>(a + (b - a) * share); };
    return QColor::fromRgbF(one(below.redF(), above.redF()), one(below.greenF(), above.greenF()),
                            one(below.blueF(), above.blueF()));
}

double relative_luminance(const QColor& colour) {
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

double contrast_ratio(const QColor& one, const QColor& other) {
    const double a = relative_luminance(one);
    const double b = relative_luminance(other);
    return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

std::vector<ColourPair> colour_pairs(const Palette& p) {
    std::vector<ColourPair> pairs;
    add_text(pairs, "text", p.text, {p.ground, p.canvas, p.canvas_soft, p.raised, p.selection});
    add_text(pairs, "text_soft", p.text_soft, {p.ground, p.canvas, p.canvas_soft, p.raised, p.selection});
    add_text(pairs, "brass_text", p.brass_text, {p.ground, p.canvas, p.canvas_soft, p.raised});
    add_text(pairs, "on_brass", p.on_brass, {p.brass});
    for (const ChannelKind kind :
         {ChannelKind::valve, ChannelKind::lamp, ChannelKind::motor, ChannelKind::jaw, ChannelKind::other}) {
        add_text(pairs, "on_kind", p.on_kind(kind), {p.kind(kind)});
        add_mark(pairs, "kind_edge", p.kind_edge(kind), {p.ground, p.canvas, p.canvas_soft, p.raised});
    }
    for (const Severity severity : {Severity::stop, Severity::warn, Severity::note}) {
        add_text(pairs, "severity_text", p.severity_text(severity),
                 {p.ground, p.canvas, p.canvas_soft, p.raised});
    }
    add_mark(pairs, "brass", p.brass, {p.ground, p.canvas, p.canvas_soft, p.raised});
    add_mark(pairs, "rule_strong", p.rule_strong, {p.ground, p.canvas, p.canvas_soft});
    add_mark(pairs, "pressure", p.pressure, {p.canvas, p.canvas_soft});
    add_mark(pairs, "sound_core", p.sound_core, {p.canvas, p.canvas_soft});
    return pairs;
}

}  // namespace gasp
