// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace gasp {

/// What is wrong with a JSON text as such, whatever it is meant to say.
struct JsonTrouble {
    std::optional<std::size_t> at;  ///< the byte at which it shows; empty when that is not known
    std::string what;               ///< one sentence without its full stop
    std::string remedy;             ///< likewise
};

/// How deep objects and lists may stand in each other.
inline constexpr std::size_t deepest_nesting = 64;

/// The first thing that keeps the text from being one JSON value (RFC 8259) in UTF-8, with finite numbers and
/// nested at most so deep. Empty for a good text. Reads all of it: for small texts, and for saying what is
/// wrong.
[[nodiscard]] std::optional<JsonTrouble> trouble_in(std::string_view json);

}  // namespace gasp
