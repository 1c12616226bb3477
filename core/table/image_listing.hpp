// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <string>
#include <string_view>

namespace gasp {

/// The bytes of a board's image in hexadecimal, a line for each part with where it stands and what it means;
/// of one that is bad, bytes and the reason. At most about `most` bytes of text: the last line says so.
[[nodiscard]] std::string image_listing(std::string_view bytes, std::size_t most);

}  // namespace gasp
