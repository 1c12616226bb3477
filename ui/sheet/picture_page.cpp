// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/picture_page.hpp"

#include "ui/look/type.hpp"
#include "ui/sheet/picture_text.hpp"

#include <algorithm>
#include <array>

namespace gasp {

namespace {

constexpr double head_px = 72.0;
constexpr double pins_px = 24.0;
constexpr double ruler_px = 26.0;
constexpr double gap_px = 16.0;
constexpr double finding_px = 20.0;
constexpr double legend_px = 40.0;
/// Lanes of a picture are drawn this much higher than those of the editor: nothing in it scrolls.
constexpr double lane_stretch = 1.35;

/// The lanes of this page, the first of them at 0.
std::vector<Lane> lanes_of(const PictureContent& content, const PictureStyle& style) {
    const LaneLayout layout(content.show, content.sequence);
    const std::size_t first = std::min(style.first_lane, layout.lanes().size());
    const std::size_t count = std::min(style.most_lanes, layout.lanes().size() - first);
    std::vector<Lane> lanes(layout.lanes().begin() + static_cast<std::ptrdiff_t>(first),
                            layout.lanes().begin() + static_cast<std::ptrdiff_t>(first + count));
    const int above = lanes.empty() ? 0 : lanes.front().top;
    for (Lane& lane : lanes) {
        lane.top -= above;
    }
    return lanes;
}

int height_of(const std::vector<Lane>& lanes) {
    return lanes.empty() ? 0 : lanes.back().bottom();
}

double findings_height(const PictureContent& content, const PictureStyle& style) {
    if (style.bare) {
        return 0.0;
    }
    const std::size_t lines = std::min(content.findings.size(), PicturePage::most_listed + 1);
    return lines == 0 ? 0.0 : gap_px + static_cast<double>(lines) * finding_px;
}

std::vector<const Mark*> marks_in_order(const Sequence& sequence) {
    std::vector<const Mark*> marks;
    for (const Mark& mark : sequence.marks) {
        marks.push_back(&mark);
    }
    std::ranges::stable_sort(marks, {}, &Mark::time);
    return marks;
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

double PicturePage::height(const PictureContent& content, const PictureStyle& style, double width) {
    const PicturePage page(content, style, {width, 0});
    return page.marks.bottom() + height_of(lanes_of(content, style)) * lane_stretch +
           findings_height(content, style) + (style.bare ? 0.0 : gap_px + legend_px);
}

PicturePage::PicturePage(const PictureContent& shown, const PictureStyle& how, QSizeF page)
    : content(shown), style(how), colours(how.ink != nullptr ? *how.ink : palette(how.theme)), size(page) {
    const double beside = how.bare ? 0.0 : margin;
    const double inner = page.width() - 2 * beside;
    plot_left_ = beside + side_px;
    view_ = view_of(shown, how, inner - side_px);
    head = {0, 0, page.width(), how.bare ? 0.0 : head_px};
    pins = {beside, head.bottom(), inner, pins_px};
    ruler = {beside, pins.bottom(), inner, ruler_px};
    place_flags();
    const bool two_rows = std::ranges::find(flags, 1U, &PictureFlag::row) != flags.end();
    marks = {beside, ruler.bottom(), inner, two_rows ? 2 * flag_px : flag_px};
    const double below = how.bare ? 0.0 : legend_px;
    legend = {0, page.height() - below, page.width(), below};
    const double listed = findings_height(shown, how);
    findings = {beside, legend.top() - (how.bare ? 0.0 : gap_px) - listed, inner, listed};
    place_lanes(marks.bottom(), findings.top());
}

void PicturePage::place_flags() {
    constexpr double pennant_px = 12.0;
    for (const Mark* mark : marks_in_order(content.sequence)) {
        if (const double mast = x_of(mark->time); mast >= left() && mast <= right()) {
            flags.push_back({mark, 0, mast, 0.0});
        }
    }
    const QFont strong = font(TypeSize::small, true);
    std::array<double, 2> used{left(), left()};  // how far each row is taken
    for (std::size_t index = 0; index < flags.size(); ++index) {
        PictureFlag& flag = flags[index];
        flag.row = used[0] <= flag.left || used[1] > flag.left ? 0 : 1;
        // In its row a flag may reach to the mast after next, whose own flag finds the other row free.
        const double end = index + 2 < flags.size() ? flags[index + 2].left - 4 : right();
        flag.left = std::max(flag.left, used[flag.row]) + pennant_px;
        flag.width = std::clamp(end - flag.left, 0.0, text_width(strong, shown(flag.mark->name)) + 1);
        used[flag.row] = flag.left + flag.width + 8;
    }
}

void PicturePage::place_lanes(double top, double bottom) {
    const std::vector<Lane> shown = lanes_of(content, style);
    const double stretch = std::max(bottom - top, 1.0) / std::max(height_of(shown), 1);
    for (const Lane& lane : shown) {
        lanes.push_back(
            {lane, {ruler.left(), top + lane.top * stretch, ruler.width(), lane.height * stretch}});
    }
}

QRectF PicturePage::plot_of(const QRectF& lane) const {
    return {plot_left_, lane.top(), view_.width(), lane.height()};
}

QRectF PicturePage::label_of(const QRectF& lane) const {
    return {lane.left(), lane.top(), side_px, lane.height()};
}

}  // namespace gasp
