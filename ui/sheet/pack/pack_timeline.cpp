// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/pack_parts.hpp"
#include "ui/sheet/pack/pack_words.hpp"
#include "ui/sheet/print_palette.hpp"
#include "ui/sheet/timeline_picture.hpp"
#include "ui/timeline/lane_layout.hpp"

#include <QPainter>

#include <algorithm>
#include <array>

namespace gasp {

namespace {

constexpr double units_a_px = 2.2;
constexpr Micros second{1'000'000};
constexpr std::int64_t most_stretches = 40;

/// How much of the ruler stands on a page: enough to read single cues, as long as the paper lasts.
Micros stretch_of(Micros length) {
    constexpr std::array<int, 9> steps{20, 30, 60, 120, 300, 600, 1200, 1800, 3600};
    for (const int step : steps) {
        if ((length + step * second - Micros{1}) / (step * second) <= most_stretches) {
            return std::min(step * second, std::max(length, Micros{1}));
        }
    }
    return steps.back() * second;
}

/// Whether anything happens on the ruler between two moments.
bool anything(const Sequence& played, Micros from, Micros to) {
    const auto within = [&](Micros begin, Micros end) { return begin < to && end >= from; };
    return std::ranges::any_of(played.cues,
                               [&](const Cue& cue) {
                                   const Micros start = start_of(played, cue);
                                   return within(start, start + cue.length);
                               }) ||
           std::ranges::any_of(
               played.clips,
               [&](const SoundClip& clip) { return within(clip.start, clip.start + clip.length); }) ||
           std::ranges::any_of(played.marks, [&](const Mark& mark) { return within(mark.time, mark.time); });
}

/// Lanes in bunches that a page has room for: the place of the first of each, and how many there are.
std::vector<std::pair<std::size_t, std::size_t>> bunches_of(const Show& show, const Sequence& sequence,
                                                            double room_px) {
    const LaneLayout layout(show, sequence);
    std::vector<std::pair<std::size_t, std::size_t>> bunches;
    double used = 0.0;
    for (std::size_t i = 0; i < layout.lanes().size(); ++i) {
        const double high = layout.lanes()[i].height;
        if (bunches.empty() || used + high > room_px) {
            bunches.push_back({i, 0});
            used = 0.0;
        }
        ++bunches.back().second;
        used += high;
    }
    return bunches;
}

}  // namespace

void add_timeline(PackFlow& flow, const PackSource& source, const PackSequence& one) {
    const PackContent& content = source.content;
    const Sequence& written = *find(content.show, one.id);
    const Sequence& played = one.run.played(written);
    flow.section(QStringLiteral("Timeline: %1").arg(text_of(written.name)), true);
    const Micros stretch = stretch_of(written.length);
    constexpr double above_lanes_px = 130.0;
    const double room_px = (flow.room() - 2 * print_line(PrintSize::head)) / units_a_px;
    const auto bunches = bunches_of(content.show, played, room_px - above_lanes_px);
    int left_out = 0;
    for (Micros from{0}; from < std::max(written.length, Micros{1}); from += stretch) {
        if (from > Micros{0} && !anything(played, from, from + stretch)) {
            ++left_out;
            continue;
        }
        for (const auto& [first, count] : bunches) {
            PictureStyle style;
            style.units = content.units;
            style.bare = true;
            style.ink = &print_palette();
            style.from = from;
            style.to = from + stretch;
            style.first_lane = first;
            style.most_lanes = count;
            const TimelinePicture picture(
                {content.show, played, one.run.schedule, one.run.air, one.findings, one.peaks}, style);
            const int width_px = static_cast<int>(flow.width() / units_a_px);
            flow.new_page();
            flow.paragraph(
                QStringLiteral("%1, %2 to %3 of %4%5")
                    .arg(text_of(written.name), time_text(from),
                         time_text(std::min(from + stretch, written.length)), time_text(written.length),
                         bunches.size() > 1 ? QStringLiteral(", lanes %1 to %2 of %3")
                                                  .arg(first + 1)
                                                  .arg(first + count)
                                                  .arg(bunches.back().first + bunches.back().second)
                                            : QString()),
                {PrintSize::body, true}, 1);
            flow.drawing(std::min(picture.height_for(width_px), static_cast<int>(room_px)) * units_a_px,
                         [picture](QPainter& painter, const QRectF& box) {
                             painter.translate(box.topLeft());
                             painter.scale(units_a_px, units_a_px);
                             picture.paint(painter, {{0, 0}, box.size() / units_a_px});
                         });
        }
    }
    if (left_out > 0) {
        flow.paragraph(QStringLiteral("%1 stretches of %2 in which nothing happens are left out.")
                           .arg(left_out)
                           .arg(span_text(stretch)));
    }
}

}  // namespace gasp
