// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/ticks.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace gasp {

namespace {

constexpr double least_tick_px = 4.0;
/// Parts of a beat that are counted.
constexpr std::int64_t beat_parts = 16;

constexpr std::int64_t ms(std::int64_t count) {
    return count * 1000;
}
constexpr std::int64_t sec(std::int64_t count) {
    return count * 1'000'000;
}

constexpr TickScale below_a_second[] = {
    {100, 20, 4},        {200, 50, 4},         {500, 100, 4},        {ms(1), 200, 3},
    {ms(2), 500, 3},     {ms(5), ms(1), 3},    {ms(10), ms(2), 2},   {ms(20), ms(5), 2},
    {ms(50), ms(10), 2}, {ms(100), ms(20), 1}, {ms(200), ms(50), 1}, {ms(500), ms(100), 1},
};

/// In seconds.
constexpr TickScale from_a_second[] = {
    {5, 1},         {10, 2},        {30, 5},          {60, 10},          {120, 30},
    {300, 60},      {600, 120},     {1800, 300},      {3600, 600},       {7200, 1800},
    {18'000, 3600}, {36'000, 7200}, {86'400, 14'400}, {432'000, 86'400}, {4'320'000, 864'000},
};

std::int64_t floor_div(std::int64_t a, std::int64_t b) {
    return a / b - (a % b < 0 ? 1 : 0);
}

void add_seconds(std::vector<TickScale>& ladder, std::int64_t second) {
    for (const TickScale& scale : from_a_second) {
        ladder.push_back({scale.labelled * second, scale.plain * second, 0});
    }
}

std::vector<TickScale> ladder_of_seconds() {
    std::vector<TickScale> ladder(std::begin(below_a_second), std::end(below_a_second));
    ladder.push_back({sec(1), ms(200), 0});
    ladder.push_back({sec(2), ms(500), 0});
    add_seconds(ladder, sec(1));
    return ladder;
}

std::vector<TickScale> ladder_of_frames(std::int64_t a_second) {
    constexpr std::int64_t most_between_labels = 6;
    std::vector<TickScale> ladder;
    std::int64_t plain = 1;
    for (std::int64_t frames = 1; frames <= a_second; ++frames) {
        if (a_second % frames == 0) {
            while (frames % plain != 0 || frames / plain > most_between_labels) {
                ++plain;
            }
            ladder.push_back({frames, plain, 0});
        }
    }
    ladder.push_back({2 * a_second, a_second, 0});
    add_seconds(ladder, a_second);
    return ladder;
}

std::vector<TickScale> ladder_of_beats(std::int64_t a_bar) {
    std::vector<TickScale> ladder;
    for (std::int64_t part = 1; part < beat_parts; part *= 2) {
        ladder.push_back({beat_parts, part, 0});
    }
    ladder.push_back({beat_parts, beat_parts, 0});
    const std::int64_t bar = a_bar * beat_parts;
    if (a_bar > 1) {
        ladder.push_back({bar, beat_parts, 0});
    }
    for (std::int64_t bars = 2; bars <= 65'536; bars *= 2) {
        ladder.push_back({bars * bar, std::max(bar, bars / 4 * bar), 0});
    }
    return ladder;
}

double beat_part_us(const Grid& grid) {
    return 60e6 / grid.beats_a_minute / static_cast<double>(beat_parts);
}

Micros time_of(const Grid& grid, std::int64_t unit) {
    switch (grid.kind) {
        case Grid::Kind::frames:
            return time_of_number(grid.rate, unit);
        case Grid::Kind::beats:
            return grid.first_beat + Micros{std::llround(static_cast<double>(unit) * beat_part_us(grid))};
        case Grid::Kind::seconds:
            break;
    }
    return Micros{unit};
}

/// The last unit at or before a time, or the one before that.
std::int64_t unit_before(const Grid& grid, Micros time) {
    switch (grid.kind) {
        case Grid::Kind::frames:
            return number_at(grid.rate, time) - 1;
        case Grid::Kind::beats:
            return static_cast<std::int64_t>(std::floor(
                       static_cast<double>((time - grid.first_beat).count()) / beat_part_us(grid))) -
                   1;
        case Grid::Kind::seconds:
            break;
    }
    return time.count();
}

std::string beat_label(const Grid& grid, const TickScale& scale, std::int64_t unit) {
    const std::int64_t beat = floor_div(unit, beat_parts);
    const std::int64_t bar = floor_div(beat, grid.beats_a_bar);
    const std::string text = std::to_string(bar + 1);
    const bool whole_bars = scale.labelled % (beat_parts * grid.beats_a_bar) == 0;
    return whole_bars ? text : text + "." + std::to_string(beat - bar * grid.beats_a_bar + 1);
}

/// How far apart, at least, the ticks of a step are.
double step_us(const Grid& grid, std::int64_t step) {
    // Past a minute of a drop count the next step is shorter by the numbers that are left out.
    const bool drops = grid.kind == Grid::Kind::frames && grid.rate == FrameRate::fps_2997_drop && step > 2;
    return static_cast<double>((time_of(grid, drops ? step - 2 : step) - time_of(grid, 0)).count());
}

}  // namespace

std::vector<TickScale> tick_ladder(const Grid& grid) {
    switch (grid.kind) {
        case Grid::Kind::frames:
            return ladder_of_frames(numbers_a_second(grid.rate));
        case Grid::Kind::beats:
            return ladder_of_beats(grid.beats_a_bar);
        case Grid::Kind::seconds:
            break;
    }
    return ladder_of_seconds();
}

std::string tick_label(const Grid& grid, const TickScale& scale, std::int64_t unit) {
    switch (grid.kind) {
        case Grid::Kind::frames: {
            // A number that is left out is written as the one that stands for it.
            const std::int64_t there = number_at(grid.rate, time_of_number(grid.rate, unit));
            return print_timecode(grid.rate, there);
        }
        case Grid::Kind::beats:
            return beat_label(grid, scale, unit);
        case Grid::Kind::seconds:
            break;
    }
    return print_time(Micros{unit}, scale.decimals);
}

TickScale tick_scale(const Grid& grid, double us_per_px, Micros left, Micros right, double gap_px,
                     const std::function<double(const std::string&)>& label_px) {
    const std::vector<TickScale> ladder = tick_ladder(grid);
    for (const TickScale& scale : ladder) {
        const double widest = std::max(label_px(tick_label(grid, scale, unit_before(grid, left))),
                                       label_px(tick_label(grid, scale, unit_before(grid, right) + 1)));
        const bool labels_fit = step_us(grid, scale.labelled) >= (widest + gap_px) * us_per_px;
        const bool ticks_fit = step_us(grid, scale.plain) >= least_tick_px * us_per_px;
        if (labels_fit && ticks_fit) {
            return scale;
        }
    }
    return ladder.back();
}

std::vector<Tick> ticks(const Grid& grid, const TickScale& scale, Micros left, Micros right) {
    std::vector<Tick> result;
    std::int64_t unit = floor_div(unit_before(grid, left), scale.plain) * scale.plain;
    for (Micros time = time_of(grid, unit); time <= right; time = time_of(grid, unit)) {
        if (time >= left && (result.empty() || time > result.back().time)) {
            result.push_back({time, unit, unit % scale.labelled == 0});
        }
        unit += scale.plain;
    }
    return result;
}

std::vector<Micros> grid_beside(const Grid& grid, const TickScale& scale, Micros time) {
    std::int64_t step = scale.plain;
    if (step == 0 && grid.kind == Grid::Kind::seconds) {
        return {};
    }
    if (step == 0) {
        step = grid.kind == Grid::Kind::beats ? beat_parts : 1;
    }
    std::int64_t unit = floor_div(unit_before(grid, time), step) * step;
    while (time_of(grid, unit + step) <= time) {
        unit += step;
    }
    return {time_of(grid, unit), time_of(grid, unit + step)};
}

}  // namespace gasp
