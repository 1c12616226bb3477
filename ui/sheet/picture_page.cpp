// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/picture_page.hpp"

#include <algorithm>

namespace gasp {

namespace {

constexpr double head_px = 72.0;
constexpr double pins_px = 24.0;
constexpr double ruler_px = 26.0;
constexpr double marks_px = 44.0;
constexpr double gap_px = 16.0;
constexpr double finding_px = 20.0;
constexpr double legend_px = 40.0;
/// Lanes of a picture are drawn this much higher than those of the editor: nothing in it scrolls.
constexpr double lane_stretch = 1.35;

double findings_height(const PictureContent& content) {
    const std::size_t lines = std::min(content.findings.size(), PicturePage::most_listed + 1);
    return lines == 0 ? 0.0 : gap_px + static_cast<double>(lines) * finding_px;
}

double height_without_lanes(const PictureContent& content) {
    return head_px + pins_px + ruler_px + marks_px + findings_height(content) + gap_px + legend_px;
}

ViewTransform view_of(const PictureContent& content, const PictureStyle& style, double width) {
    const Micros end = std::max(content.sequence.length, content.schedule.length);
    const Micros from = style.from.value_or(Micros{0});
    const Micros to = style.to.value_or(end);
    ViewTransform view;
    view.set_width(width);
    view.set_extent(std::max(end, to));
    view.fit_to(from, std::max(to, from + Micros{1}));
    return view;
}

}  // namespace

double PicturePage::height(const PictureContent& content) {
    return height_without_lanes(content) + LaneLayout(content.show).height() * lane_stretch;
}

PicturePage::PicturePage(const PictureContent& shown, const PictureStyle& how, QSizeF page)
    : content(shown), style(how), colours(palette(how.theme)), size(page) {
    const double inner = page.width() - 2 * margin;
    plot_left_ = margin + side_px;
    view_ = view_of(shown, how, inner - side_px);
    head = {0, 0, page.width(), head_px};
    pins = {margin, head.bottom(), inner, pins_px};
    ruler = {margin, pins.bottom(), inner, ruler_px};
    marks = {margin, ruler.bottom(), inner, marks_px};
    legend = {0, page.height() - legend_px, page.width(), legend_px};
    const double listed = findings_height(shown);
    findings = {margin, legend.top() - gap_px - listed, inner, listed};
    place_lanes(marks.bottom(), findings.top());
}

void PicturePage::place_lanes(double top, double bottom) {
    const LaneLayout layout(content.show);
    const double stretch = std::max(bottom - top, 1.0) / std::max(layout.height(), 1);
    for (const Lane& lane : layout.lanes()) {
        lanes.push_back(
            {lane, {margin, top + lane.top * stretch, size.width() - 2 * margin, lane.height * stretch}});
    }
}

QRectF PicturePage::plot_of(const QRectF& lane) const {
    return {plot_left_, lane.top(), view_.width(), lane.height()};
}

QRectF PicturePage::label_of(const QRectF& lane) const {
    return {lane.left(), lane.top(), side_px, lane.height()};
}

}  // namespace gasp
