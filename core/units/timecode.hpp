// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/time.hpp"

#include <cstdint>
#include <string>

namespace gasp {

/// How film and video count frames. At 29.97 a second lasts 1.001 s of its own count; "drop" leaves out two
/// frame numbers (no frames) at every minute that is no multiple of ten, so that the count keeps to the
/// clock. Source: SMPTE ST 12-1.
enum class FrameRate : std::uint8_t { fps_24, fps_25, fps_2997_drop, fps_2997, fps_30 };

/// Frame numbers in a counted second: 24, 25 or 30.
[[nodiscard]] int numbers_a_second(FrameRate rate);

/// A frame number, from 0 and with those that are left out, is the time where its frame begins, to the
/// nearest microsecond. One that is left out stands for the first that is not.
[[nodiscard]] Micros time_of_number(FrameRate rate, std::int64_t number);

/// The number of the frame that a time lies in; negative before 0. The inverse of time_of_number() where the
/// number is not left out.
[[nodiscard]] std::int64_t number_at(FrameRate rate, Micros time);

/// "1:02:07:12", hours only where there are any; before the frames of a drop count stands a semicolon.
[[nodiscard]] std::string print_timecode(FrameRate rate, std::int64_t number);

}  // namespace gasp
