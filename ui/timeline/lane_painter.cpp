// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/lane_painter.hpp"

#include <algorithm>
#include <array>
#include <climits>
#include <cmath>
#include <cstring>

namespace gasp {

namespace {

constexpr int frame_px = 2;

using Row = std::span<QRgb>;

/// Of most cues there are many, a few columns wide and not all equally many: by whole fours, the last one
/// over what the one before it wrote, a width more or less is no other way through the code.
void fill(Row row, int begin, int end, QRgb colour) {
    const int from = std::max(begin, 0);
    const int count = std::min(end, static_cast<int>(row.size())) - from;
    if (count <= 0) {
        return;
    }
    QRgb* const at = row.data() + from;
    const std::array<QRgb, 4> four{colour, colour, colour, colour};
    constexpr int step = four.size();
    if (count < step) {
        at[0] = at[count / 2] = at[count - 1] = colour;
        return;
    }
    for (int i = 0; i + step < count; i += step) {
        std::memcpy(at + i, four.data(), sizeof four);
    }
    std::memcpy(at + count - step, four.data(), sizeof four);
}

void copy_row(std::span<const QRgb> row, QImage& image, int begin, int end) {
    const int from = std::max(begin, 0);
    const int to = std::min(end, image.height());
    for (int y = from; y < to; ++y) {
        std::memcpy(image.scanLine(y), row.data(), row.size_bytes());
    }
}

int device(double logical, double scale) {
    return static_cast<int>(std::lround(logical * scale));
}

/// The cue inside its frame, where it is selected and wide enough to show one.
Columns inside_frame(const CueBox& box, int thin) {
    const int frame = frame_px * thin + thin;
    if (!box.selected || box.at.end - box.at.begin <= 2 * frame) {
        return box.at;
    }
    return {box.at.begin + frame, box.at.end - frame};
}

void draw_frame_sides(Row row, const CueBox& box, const LaneColours& colours, int thin) {
    fill(row, box.at.begin, box.at.end, colours.gap);
    fill(row, box.at.begin, box.at.begin + frame_px * thin, colours.frame);
    fill(row, box.at.end - frame_px * thin, box.at.end, colours.frame);
}

void draw_body(Row row, const CueBox& box, const LaneColours& colours, int thin, QRgb inner) {
    if (box.selected) {
        draw_frame_sides(row, box, colours, thin);
    }
    const Columns in = inside_frame(box, thin);
    if (in.end - in.begin <= 2 * thin) {
        fill(row, in.begin, in.end, box.selected && in == box.at ? colours.frame : inner);
        return;
    }
    fill(row, in.begin, in.end, colours.edge);
    fill(row, in.begin + thin, in.end - thin, inner);
}

void draw_comb(Row row, const CueBox& box, const LanePicture& picture, const LaneColours& colours, int thin) {
    draw_body(row, box, colours, thin, box.flashing ? colours.dark : colours.fill);
    const Columns in = inside_frame(box, thin);
    for (std::uint32_t i = box.flash_begin; i < box.flash_end; ++i) {
        const Columns& flash = picture.flashes[i];
        fill(row, std::max(flash.begin, in.begin), std::min(flash.end, in.end), colours.fill);
    }
}

}  // namespace

LaneBands bands_of(int lane_height) {
    constexpr int least_airy_px = 32;
    const bool airy = lane_height >= least_airy_px;
    LaneBands bands;
    bands.cue_top = airy ? 5 : 3;
    bands.cue_bottom = lane_height - (airy ? 8 : 7);
    bands.comb_top = bands.cue_bottom - (airy ? 6 : 5);
    bands.rail_top = lane_height - (airy ? 5 : 4);
    bands.rail_bottom = lane_height - 2;
    return bands;
}

void LanePainter::compose(std::span<const QRgb> background, const LanePicture& picture,
                          const LaneColours& colours, int thin) {
    for (std::vector<QRgb>* row : {&outline_, &body_, &rail_}) {
        row->assign(background.begin(), background.end());
    }
    int reach = INT_MIN;
    any_flashing_ = any_framed_ = false;
    for (const CueBox& box : picture.boxes) {
        any_flashing_ = any_flashing_ || box.flashing;
        if (box.selected) {
            draw_frame_sides(outline_, box, colours, thin);
            frame(background, box.at, colours.frame);
        } else {
            fill(outline_, box.at.begin, box.at.end, colours.edge);
        }
        draw_body(body_, box, colours, thin, colours.fill);
        if (box.at.begin < reach) {
            const Columns both{box.at.begin, std::min(box.at.end, reach)};
            fill(outline_, both.begin, both.end, colours.overlap);
            frame(background, both, colours.overlap);
        }
        reach = std::max(reach, box.at.end);
    }
    for (const Columns& driven : picture.rail) {
        fill(rail_, driven.begin, std::max(driven.end, driven.begin + 1), colours.edge);
    }
    if (any_flashing_) {
        comb_.assign(background.begin(), background.end());
        for (const CueBox& box : picture.boxes) {
            draw_comb(comb_, box, picture, colours, thin);
        }
    }
}

void LanePainter::frame(std::span<const QRgb> background, Columns at, QRgb colour) {
    if (!any_framed_) {
        frame_.assign(background.begin(), background.end());
        any_framed_ = true;
    }
    fill(frame_, at.begin, at.end, colour);
}

void LanePainter::paint(QImage& image, int top, int height, double scale, std::span<const QRgb> background,
                        const LanePicture& picture, const LaneColours& colours) {
    const int thin = std::max(1, device(1, scale));
    compose(background, picture, colours, thin);
    make_rule(background.size(), colours.rule);
    const LaneBands bands = bands_of(static_cast<int>(std::lround(height / scale)));
    const auto y = [top, scale](int logical) { return top + device(logical, scale); };
    const std::span<const QRgb> framed = any_framed_ ? std::span<const QRgb>(frame_) : background;
    copy_row(background, image, top, y(bands.cue_top - frame_px));
    copy_row(framed, image, y(bands.cue_top - frame_px), y(bands.cue_top));
    copy_row(outline_, image, y(bands.cue_top), y(bands.cue_top) + thin);
    copy_row(body_, image, y(bands.cue_top) + thin, y(bands.comb_top));
    copy_row(any_flashing_ ? comb_ : body_, image, y(bands.comb_top), y(bands.cue_bottom) - thin);
    copy_row(outline_, image, y(bands.cue_bottom) - thin, y(bands.cue_bottom));
    copy_row(framed, image, y(bands.cue_bottom), y(bands.cue_bottom + frame_px));
    copy_row(background, image, y(bands.cue_bottom + frame_px), y(bands.rail_top));
    copy_row(rail_, image, y(bands.rail_top), y(bands.rail_bottom));
    copy_row(background, image, y(bands.rail_bottom), top + height - thin);
    copy_row(rule_, image, top + height - thin, top + height);
}

void LanePainter::make_rule(std::size_t width, QRgb colour) {
    if (rule_.size() != width || rule_.front() != colour) {
        rule_.assign(width, colour);
    }
}

void LanePainter::paint_empty(QImage& image, int top, int height, double scale,
                              std::span<const QRgb> background, QRgb rule) {
    const int thin = std::max(1, device(1, scale));
    make_rule(background.size(), rule);
    copy_row(background, image, top, top + height - thin);
    copy_row(rule_, image, top + height - thin, top + height);
}

}  // namespace gasp
