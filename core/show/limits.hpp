// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/fields.hpp"
#include "core/show/sequence.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <string_view>
#include <vector>

namespace gasp {

// What single values may be. Validity refuses what is outside, edits never make it.

inline constexpr double least_gain_db = -120.0;
inline constexpr double most_gain_db = 60.0;
inline constexpr std::uint32_t most_sound_lanes = 8;
inline constexpr double fastest_flashes_hz = 1000.0;
inline constexpr double least_duty_percent = 1.0;
inline constexpr double most_duty_percent = 99.0;

/// The two fades of a clip do not overlap.
[[nodiscard]] inline bool fades_allowed(const SoundClip& clip) {
    return clip.fade_in >= Micros{0} && clip.fade_out >= Micros{0} && clip.fade_in <= clip.length &&
           clip.fade_out <= clip.length - clip.fade_in;
}

[[nodiscard]] inline bool rate_allowed(double hz) {
    return hz > 0 && hz <= fastest_flashes_hz;
}

[[nodiscard]] inline bool duty_allowed(double percent) {
    return percent >= least_duty_percent && percent <= most_duty_percent;
}

[[nodiscard]] inline bool flashes_allowed(const Flashes& flashes) {
    return rate_allowed(flashes.rate_hz) && duty_allowed(flashes.duty_percent);
}

inline constexpr Micros most_freedom{60'000'000};

[[nodiscard]] inline bool trigger_after_allowed(const Figure& seconds) {
    return !seconds || (*seconds >= 0 && *seconds <= 3600);
}

inline constexpr std::size_t most_timed_strokes = 1000;

[[nodiscard]] inline bool timed_allowed(const std::vector<double>& strokes_ms) {
    return strokes_ms.size() <= most_timed_strokes &&
           std::ranges::all_of(strokes_ms, [](double each) { return each >= 1 && each <= 60'000; });
}

inline constexpr double most_groups_per_h = 1000.0;
inline constexpr double longest_night_h = 24.0;
inline constexpr std::size_t most_arrivals = 20'000;

[[nodiscard]] inline bool hourly_allowed(const std::vector<double>& groups) {
    return groups.size() <= static_cast<std::size_t>(longest_night_h) &&
           std::ranges::all_of(groups, [](double each) { return each >= 0 && each <= most_groups_per_h; });
}

[[nodiscard]] inline bool arrivals_allowed(const std::vector<double>& seconds) {
    return seconds.size() <= most_arrivals && std::ranges::is_sorted(seconds) &&
           std::ranges::all_of(seconds,
                               [](double each) { return each >= 0 && each <= longest_night_h * 3600; });
}

inline constexpr double most_point_travel_mm = 5000.0;  // the longest stroke
inline constexpr double most_point_deg = 720.0;
inline constexpr std::size_t most_points = 1000;

[[nodiscard]] inline bool point_allowed(const LinkagePoint& point) {
    return point.travel_mm >= 0 && point.travel_mm <= most_point_travel_mm &&
           std::abs(point.arm_deg) <= most_point_deg;
}

/// The points of a measured linkage: within their ranges, each at more travel than the one before.
[[nodiscard]] inline bool points_allowed(const std::vector<LinkagePoint>& points) {
    return points.size() <= most_points && std::ranges::all_of(points, point_allowed) &&
           std::ranges::is_sorted(points, std::less_equal{}, &LinkagePoint::travel_mm);
}

inline constexpr std::size_t longest_text = 400;  // bytes

/// One line without control characters.
[[nodiscard]] inline bool text_allowed(std::string_view text) {
    return text.size() <= longest_text && std::ranges::none_of(text, [](char c) {
               return static_cast<unsigned char>(c) < 0x20 || c == 0x7f;
           });
}

/// A blank figure is allowed.
template <class T>
[[nodiscard]] bool figure_allowed(const FigureField<T>& field, const T& part) {
    const Figure& figure = part.*field.member;
    return !figure || (*figure >= field.least && *figure <= field.most);
}

}  // namespace gasp
