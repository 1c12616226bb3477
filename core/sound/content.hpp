// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace gasp {

/// How the content of a file begins: "xxh3:<16 hex digits>" of its bytes, by which a moved sound file is
/// known again: XXH3 of 64 bits, by Y. Collet. It tells files apart; it is no guard against someone who wants
/// two alike.
inline constexpr std::string_view content_kind = "xxh3:";
/// Older shows have FNV-1a of 64 bits, by G. Fowler, L. C. Noll and K.-P. Vo, which takes as long for an hour
/// of FLAC as a tenth of its decoding.
inline constexpr std::string_view old_content_kind = "fnv1a64:";

/// Error: there is no such file, or it cannot be read.
[[nodiscard]] Result<std::string> content_of(const std::filesystem::path& path,
                                             std::string_view kind = content_kind);

}  // namespace gasp
