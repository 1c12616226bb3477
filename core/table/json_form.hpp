// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"

#include <cstdint>
#include <string_view>

namespace gasp {

// What the writer and the reader of JSON must agree on.

inline constexpr std::string_view json_table_format = "gaspworks event table";
inline constexpr std::int64_t json_table_version = 1;

/// "NO" or "NC".
[[nodiscard]] constexpr std::string_view contact_word(Contact contact) {
    return contact == Contact::normally_open ? "NO" : "NC";
}

}  // namespace gasp
