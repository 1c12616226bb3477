// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <simdjson.h>

#include <filesystem>

namespace gasp {

/// The bytes of a plain file, in a buffer the JSON library can read. Error: it is not there, may not be read,
/// is no plain file, is empty or larger than 512 MiB.
[[nodiscard]] Result<simdjson::padded_string> file_text(const std::filesystem::path& path);

}  // namespace gasp
