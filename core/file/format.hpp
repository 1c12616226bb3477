// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>
#include <string_view>

namespace gasp {

// What the writer and the reader of show files agree on; show_file.md describes the rest.

inline constexpr std::string_view format_name = "gaspworks-show";
inline constexpr std::int64_t newest_version = 1;
inline constexpr std::uint64_t largest_file_bytes = 512ULL * 1024 * 1024;

}  // namespace gasp
