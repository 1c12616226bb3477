// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/channel_lanes.hpp"

#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/look/look.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr double least_label_px = 26.0;
constexpr double least_flash_px = 3.0;
/// Narrower cues are drawn without looking at what they are.
constexpr double least_detail_px = 8.0;

LaneColours colours_of(const Lane& lane) {
    const Palette& p = look();
    LaneColours colours;
    colours.fill = p.kind(lane.channel_kind).rgb();
    colours.edge = p.kind_edge(lane.channel_kind).rgb();
    colours.dark = mixed(p.canvas, p.kind(lane.channel_kind), 0.25).rgb();
    colours.frame = p.text.rgb();
    colours.gap = p.canvas.rgb();
    colours.overlap = p.stop.rgb();
    colours.rule = p.rule.rgb();
    return colours;
}

}  // namespace

void ChannelLanes::paint(const Lane& lane, QImage& image, int top, int height,
                         std::span<const QRgb> background, double scale) {
    look_at(lane, ColumnScale(scene_.view(), scale));
    cues_painted_ += picture_.boxes.size();
    painter_.paint(image, top, height, scale, background, picture_, colours_of(lane));
}

void ChannelLanes::look_at(const Lane& lane, const ColumnScale& column) {
    picture_.boxes.clear();
    picture_.flashes.clear();
    picture_.rail.clear();
    const Sequence& sequence = scene_.document().sequence();
    const Selection& selection = scene_.document().selection();
    const Micros left = scene_.view().left();
    const Micros right = scene_.view().right();
    const Micros least_detail = scene_.view().length_of(least_detail_px);
    const Micros least_label = scene_.view().length_of(least_label_px);
    scene_.cues().of(lane.channel).overlapping(left, right, [&](const PlacedCue& placed) {
        CueBox box;
        box.at.begin = column(placed.begin);
        box.at.end = std::max(column(placed.end), box.at.begin + 1);
        box.selected = selection.has(placed.id);
        const Micros length = placed.end - placed.begin;
        if (const Cue* cue = length >= least_detail ? find(sequence, placed.id) : nullptr) {
            if (cue->flashes) {
                add_flashes(box, placed, *cue, column);
            }
            if (length >= least_label) {
                add_label(lane, placed, *cue);
            }
        }
        picture_.boxes.push_back(box);
    });
    const std::span<const Dwell> dwells = scene_.dwells_of(lane.channel);
    auto dwell = std::lower_bound(dwells.begin(), dwells.end(), left,
                                  [](const Dwell& one, Micros time) { return one.end < time; });
    for (; dwell != dwells.end() && dwell->begin <= right; ++dwell) {
        picture_.rail.push_back({column(dwell->begin), column(dwell->end)});
    }
}

void ChannelLanes::add_flashes(CueBox& box, const PlacedCue& placed, const Cue& cue,
                               const ColumnScale& column) {
    box.flashing = true;
    box.flash_begin = box.flash_end = static_cast<std::uint32_t>(picture_.flashes.size());
    const double period_us = 1e6 / cue.flashes->rate_hz;
    const Micros period{std::max<std::int64_t>(std::llround(period_us), 1)};
    if (scene_.view().px_of(period) < least_flash_px) {
        return;
    }
    // Only the flashes in sight are made: those of the same cue begun whole periods later.
    Cue seen = cue;
    const auto skipped =
        std::floor(static_cast<double>((scene_.view().left() - placed.begin).count()) / period_us);
    const Micros shift{std::llround(std::max(skipped, 0.0) * period_us)};
    seen.mark.reset();
    seen.at = placed.begin + shift;
    seen.length = std::min(placed.end, scene_.view().right() + period) - seen.at;
    for (const Dwell& flash : dwells_of(scene_.document().sequence(), seen)) {
        picture_.flashes.push_back({column(flash.begin), column(flash.end)});
    }
    box.flash_end = static_cast<std::uint32_t>(picture_.flashes.size());
}

void ChannelLanes::add_label(const Lane& lane, const PlacedCue& placed, const Cue& cue) {
    const double left = std::max(scene_.view().x_of(placed.begin), 0.0);
    const double right = std::min(scene_.view().x_of(placed.end), scene_.view().width());
    if (right - left < least_label_px) {
        return;
    }
    const LaneBands bands = bands_of(lane.height);
    const double top = scene_.top_of(lane);
    CueLabel label;
    // Travel rises through the middle of its lane: the words stand at the foot.
    const double label_top = lane.travel ? bands.comb_top - 10.0 : bands.cue_top;
    const double label_bottom = cue.flashes ? bands.comb_top + 3.0 : bands.cue_bottom;
    label.box = QRectF(left, top + label_top, right - left, label_bottom - label_top);
    label.text = QString::fromStdString(cue.name.empty() ? print_duration(cue.length) : cue.name);
    label.ink = look().on_kind(lane.channel_kind);
    label.kind = lane.channel_kind;
    label.tied = cue.mark.has_value();
    label.named = !cue.name.empty();
    labels_.push_back(std::move(label));
}

}  // namespace gasp
