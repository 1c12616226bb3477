// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/timecode.hpp"

#include <fmt/format.h>

#include <cstdlib>

namespace gasp {

namespace {

constexpr std::int64_t numbers_a_minute = 1800;       // of the counts of 30
constexpr std::int64_t frames_a_short_minute = 1798;  // all but each tenth
constexpr std::int64_t frames_in_ten_minutes = 17'982;

/// Of a frame, in microseconds, as a fraction.
struct Length {
    std::int64_t over;
    std::int64_t under;
};

Length length_of(FrameRate rate) {
    const bool slow = rate == FrameRate::fps_2997 || rate == FrameRate::fps_2997_drop;
    return {slow ? 1'001'000 : 1'000'000, numbers_a_second(rate)};
}

std::int64_t floor_div(std::int64_t a, std::int64_t b) {
    return a / b - (a % b < 0 ? 1 : 0);
}

/// How many frames there were before the one of a number in a drop count.
std::int64_t frames_before(std::int64_t number) {
    const std::int64_t minutes = floor_div(number, numbers_a_minute);
    const std::int64_t left_out = 2 * (minutes - floor_div(minutes, 10));
    const std::int64_t in_minute = number - minutes * numbers_a_minute;
    const bool is_left_out = in_minute < 2 && minutes - 10 * floor_div(minutes, 10) != 0;
    return number - left_out + (is_left_out ? 2 - in_minute : 0);
}

std::int64_t number_in_drop_count(std::int64_t frame) {
    const std::int64_t tens = floor_div(frame, frames_in_ten_minutes);
    const std::int64_t rest = frame - tens * frames_in_ten_minutes;
    // The first minute of the ten has two frames more.
    const std::int64_t minutes = rest < 2 ? 0 : (rest - 2) / frames_a_short_minute;
    return frame + 18 * tens + 2 * minutes;
}

}  // namespace

int numbers_a_second(FrameRate rate) {
    switch (rate) {
        case FrameRate::fps_24:
            return 24;
        case FrameRate::fps_25:
            return 25;
        case FrameRate::fps_2997_drop:
        case FrameRate::fps_2997:
        case FrameRate::fps_30:
            break;
    }
    return 30;
}

Micros time_of_number(FrameRate rate, std::int64_t number) {
    const std::int64_t frame = rate == FrameRate::fps_2997_drop ? frames_before(number) : number;
    const auto [over, under] = length_of(rate);
    return Micros{floor_div(2 * frame * over + under, 2 * under)};
}

std::int64_t number_at(FrameRate rate, Micros time) {
    const auto [over, under] = length_of(rate);
    // A frame that begins within half a microsecond of the time, which is how times are rounded, has begun.
    const std::int64_t frame = floor_div(2 * time.count() * under + under, 2 * over);
    return rate == FrameRate::fps_2997_drop ? number_in_drop_count(frame) : frame;
}

std::string print_timecode(FrameRate rate, std::int64_t number) {
    const std::int64_t fps = numbers_a_second(rate);
    const std::int64_t size = std::abs(number);
    const std::int64_t seconds = size / fps;
    const char* sign = number < 0 ? "-" : "";
    const char before_frames = rate == FrameRate::fps_2997_drop ? ';' : ':';
    if (seconds >= 3600) {
        return fmt::format("{}{}:{:02}:{:02}{}{:02}", sign, seconds / 3600, seconds / 60 % 60, seconds % 60,
                           before_frames, size % fps);
    }
    return fmt::format("{}{}:{:02}{}{:02}", sign, seconds / 60, seconds % 60, before_frames, size % fps);
}

}  // namespace gasp
