// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace gasp {

// Sizes in bytes, and limits, of the image of resources/board-player/image.md.

inline constexpr std::string_view image_magic{"\xA7GTB", 4};
inline constexpr unsigned image_version = 1;
inline constexpr std::size_t image_head = 56;
inline constexpr std::size_t image_sequence = 40;
inline constexpr std::size_t image_event = 6;
inline constexpr std::size_t image_crc = 4;
inline constexpr std::size_t image_board_name = 24;
inline constexpr std::size_t image_sequence_name = 16;
inline constexpr std::int64_t least_image_tick_us = 100;
inline constexpr std::int64_t most_image_tick_us = 250'000;
inline constexpr std::int64_t most_image_length = 2'147'483'647;  // ticks

}  // namespace gasp
