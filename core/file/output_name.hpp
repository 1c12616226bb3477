// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <filesystem>
#include <span>
#include <vector>

namespace gasp {

struct Show;

/// The files a show is made of: its own, where it has one, and its sounds below the folder.
[[nodiscard]] std::vector<std::filesystem::path> files_of(const Show& show, const std::filesystem::path& file,
                                                          const std::filesystem::path& folder);

/// Whether what was made from a show may be written under a name: a slip of the hand must not replace a show
/// or a recording by a table or a picture. Error: it is one of `sources`, by whatever path, or ends on .gasp.
[[nodiscard]] Result<void> check_output_name(const std::filesystem::path& output,
                                             std::span<const std::filesystem::path> sources);

}  // namespace gasp
