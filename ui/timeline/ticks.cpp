// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/ticks.hpp"

#include <algorithm>

namespace gasp {

namespace {

constexpr double least_tick_px = 4.0;

constexpr Micros us(std::int64_t count) {
    return Micros{count};
}
constexpr Micros ms(std::int64_t count) {
    return Micros{count * 1000};
}
constexpr Micros sec(std::int64_t count) {
    return Micros{count * 1'000'000};
}
constexpr Micros minutes(std::int64_t count) {
    return sec(count * 60);
}
constexpr Micros hours(std::int64_t count) {
    return sec(count * 3600);
}

constexpr TickScale ladder[] = {
    {us(100), us(20), 4},         {us(200), us(50), 4},         {us(500), us(100), 4},
    {ms(1), us(200), 3},          {ms(2), us(500), 3},          {ms(5), ms(1), 3},
    {ms(10), ms(2), 2},           {ms(20), ms(5), 2},           {ms(50), ms(10), 2},
    {ms(100), ms(20), 1},         {ms(200), ms(50), 1},         {ms(500), ms(100), 1},
    {sec(1), ms(200), 0},         {sec(2), ms(500), 0},         {sec(5), sec(1), 0},
    {sec(10), sec(2), 0},         {sec(30), sec(5), 0},         {minutes(1), sec(10), 0},
    {minutes(2), sec(30), 0},     {minutes(5), minutes(1), 0},  {minutes(10), minutes(2), 0},
    {minutes(30), minutes(5), 0}, {hours(1), minutes(10), 0},   {hours(2), minutes(30), 0},
    {hours(5), hours(1), 0},      {hours(10), hours(2), 0},     {hours(24), hours(4), 0},
    {hours(120), hours(24), 0},   {hours(1200), hours(240), 0},
};

std::int64_t floor_div(std::int64_t a, std::int64_t b) {
    return a / b - (a % b < 0 ? 1 : 0);
}

}  // namespace

std::span<const TickScale> tick_ladder() {
    return ladder;
}

std::string tick_label(const TickScale& scale, Micros time) {
    return print_time(time, scale.decimals);
}

TickScale tick_scale(double us_per_px, Micros left, Micros right, double gap_px,
                     const std::function<double(const std::string&)>& label_px) {
    for (const TickScale& scale : ladder) {
        const double widest = std::max(label_px(tick_label(scale, left)), label_px(tick_label(scale, right)));
        const bool labels_fit = static_cast<double>(scale.labelled.count()) >= (widest + gap_px) * us_per_px;
        const bool ticks_fit = static_cast<double>(scale.plain.count()) >= least_tick_px * us_per_px;
        if (labels_fit && ticks_fit) {
            return scale;
        }
    }
    return *std::prev(std::end(ladder));
}

std::vector<Tick> ticks(const TickScale& scale, Micros left, Micros right) {
    std::vector<Tick> result;
    const std::int64_t step = scale.plain.count();
    const std::int64_t first = -floor_div(-left.count(), step);
    const std::int64_t last = floor_div(right.count(), step);
    for (std::int64_t i = first; i <= last; ++i) {
        const std::int64_t time = i * step;
        result.push_back({Micros{time}, time % scale.labelled.count() == 0});
    }
    return result;
}

}  // namespace gasp
