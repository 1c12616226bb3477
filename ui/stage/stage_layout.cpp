// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/stage_layout.hpp"

#include "ui/look/type.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr double margin = grid_px;
constexpr double head_height = 44.0;
constexpr double foot_height = 68.0;
constexpr double channel_height = 22.0;
constexpr double channel_width = 124.0;
constexpr double tallest_channel = 26.0;
constexpr double least_tile_height = 104.0;
constexpr double cramped_tile_height = 88.0;  // a figure that is smaller tells nothing
constexpr double least_tile_width = 112.0;
constexpr double tallest_tile = 280.0;
constexpr double line_height = 18.0;

int rows_of(int count, int columns) {
    return (count + columns - 1) / columns;
}

/// How many columns of tiles make the largest drawings in a room of this size.
int tile_columns(int count, const QSizeF& room) {
    int best = 1;
    double best_side = 0.0;
    for (int columns = 1; columns <= count; ++columns) {
        const double tile_width = room.width() / columns;
        const double tile_height = room.height() / rows_of(count, columns);
        const double side = std::min(tile_width, std::min(tile_height, tallest_tile) - 38.0);
        if (side > best_side + 1.0 && (columns == 1 || tile_width >= least_tile_width)) {
            best = columns;
            best_side = side;
        }
    }
    return best;
}

std::vector<QRectF> tiles(const QRectF& room, int count, int columns, double height) {
    std::vector<QRectF> boxes;
    boxes.reserve(static_cast<std::size_t>(count));
    const double gap = 2.0 * margin;
    const double width = (room.width() - gap * (columns - 1)) / columns;
    for (int i = 0; i < count; ++i) {
        const int row = i / columns;
        const int column = i % columns;
        boxes.emplace_back(std::floor(room.left() + column * (width + gap)),
                           std::floor(room.top() + row * height), std::floor(width), height);
    }
    return boxes;
}

/// Lays the actuators out in `room`; gives the height they take.
double lay_actuators(StageLayout& layout, const QRectF& room, int count) {
    if (count == 0) {
        return 0.0;
    }
    const int columns = tile_columns(count, room.size());
    const int fitting = std::max(1, static_cast<int>(room.height() / least_tile_height)) * columns;
    const int shown = std::min(count, fitting);
    const int rows = rows_of(shown, columns);
    const double height = std::floor(std::min(tallest_tile, room.height() / rows));
    layout.actuators = tiles(room, shown, columns, height);
    for (QRectF& box : layout.actuators) {
        box.adjust(0.0, 2.0, 0.0, -6.0);
    }
    layout.actuators_left_out = count - shown;
    return height * rows;
}

int most_columns(double width, double least_width) {
    return std::max(1, static_cast<int>((width + 2.0 * margin) / (least_width + 2.0 * margin)));
}

int channel_columns(double width, double height, int count) {
    const int most = most_columns(width, channel_width);
    int columns = 1;
    while (columns < most && rows_of(count, columns) * channel_height > height) {
        ++columns;
    }
    return columns;
}

void lay_channels(StageLayout& layout, const QRectF& room, int count) {
    if (count == 0) {
        return;
    }
    const int columns = channel_columns(room.width(), room.height(), count);
    const int rows = std::max(0, static_cast<int>(room.height() / channel_height));
    const int shown = std::min(count, rows * columns);
    const double height = std::floor(
        std::clamp(room.height() / std::max(1, rows_of(shown, columns)), channel_height, tallest_channel));
    layout.channels = tiles(room, shown, columns, height);
    layout.channels_left_out = count - shown;
}

void lay_foot(StageLayout& layout, const QRectF& foot) {
    const double part = std::floor(foot.width() * 0.56);
    layout.gauge = foot.adjusted(0.0, 4.0, -foot.width() + part - margin, 0.0);
    layout.loudspeaker = foot.adjusted(part, 4.0, 0.0, 0.0);
}

/// Actuators above, channels below. The channels stand in as many columns as it takes for every actuator to
/// have its least height, and get no more than half of the room, nor any that a figure needs to be seen.
void lay_stacked(StageLayout& layout, QRectF middle, int channels, int actuators) {
    if (channels == 0) {
        lay_actuators(layout, middle, actuators);
        return;
    }
    if (actuators > 0) {
        const double least =
            least_tile_height * rows_of(actuators, most_columns(middle.width(), least_tile_width));
        const double most = std::max(middle.height() / 2.0, middle.height() - least - margin);
        const double room = std::floor(std::min(most, middle.height() - least - margin));
        const int columns = channel_columns(middle.width(), std::max(room, channel_height), channels);
        const double left = std::max(0.0, middle.height() - cramped_tile_height - margin);
        const double wanted = std::min({most, left, rows_of(channels, columns) * channel_height});
        const double taken =
            lay_actuators(layout, middle.adjusted(0.0, 0.0, 0.0, -wanted - margin), actuators);
        middle.setTop(middle.top() + taken + margin);
        layout.rules.emplace_back(middle.left(), middle.top() - 4.5, middle.right(), middle.top() - 4.5);
    }
    lay_channels(layout, middle, channels);
}

void lay_beside(StageLayout& layout, const QRectF& middle, int channels, int actuators) {
    const double left = std::floor(middle.width() * 0.58);
    lay_actuators(layout, QRectF(middle.left(), middle.top(), left - margin, middle.height()), actuators);
    lay_channels(layout, middle.adjusted(left + margin, 0.0, 0.0, 0.0), channels);
    const double x = middle.left() + left + 0.5;
    layout.rules.emplace_back(x, middle.top(), x, middle.bottom());
}

}  // namespace

StageLayout stage_layout(const QSizeF& size, int channels, int actuators) {
    StageLayout layout;
    const QRectF whole = QRectF(QPointF(0.0, 0.0), size).adjusted(margin, margin, -margin, -margin);
    layout.clock = QRectF(whole.left(), whole.top(), whole.width() / 2.0, head_height);
    layout.state = QRectF(whole.center().x(), whole.top(), whole.width() / 2.0, head_height);
    const QRectF foot(whole.left(), whole.bottom() - foot_height, whole.width(), foot_height);
    lay_foot(layout, foot);
    const QRectF middle(whole.left(), whole.top() + head_height + margin, whole.width(),
                        whole.height() - head_height - foot_height - 2.0 * margin);
    layout.rules.emplace_back(whole.left(), middle.top() - 4.5, whole.right(), middle.top() - 4.5);
    layout.rules.emplace_back(whole.left(), foot.top() - 2.5, whole.right(), foot.top() - 2.5);
    const bool wide = size.width() >= 520.0 && size.width() > 1.1 * size.height();
    const auto lay = [&](const QRectF& room) {
        if (wide && channels > 0 && actuators > 0) {
            lay_beside(layout, room, channels, actuators);
        } else {
            lay_stacked(layout, room, channels, actuators);
        }
    };
    const std::vector<QLineF> rules = layout.rules;
    lay(middle);
    if (layout.channels_left_out + layout.actuators_left_out > 0) {
        layout.rules = rules;
        layout.left_out = QRectF(middle.left(), middle.bottom() - line_height, middle.width(), line_height);
        lay(middle.adjusted(0.0, 0.0, 0.0, -line_height));
    }
    return layout;
}

}  // namespace gasp
