// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace gasp {

/// The show as the text of a `.gasp` file, as show_file.md describes it: stable key order, one cue a line.
/// Requires: the show has no breaches().
[[nodiscard]] std::string write_show(const Show& show);

/// The same for a show that may be at fault. Error: it breaches what a document must keep, so that the text
/// could not be read again. `name` is what errors call the file.
[[nodiscard]] Result<std::string> savable_text(const Show& show, std::string_view name);

/// Reads such a text. `name` is what errors call it. Error: `where` is "<name>:<line>: <key path>".
[[nodiscard]] Result<Show> read_show(std::string_view text, std::string_view name);

/// Reads a file of at most 512 MiB.
[[nodiscard]] Result<Show> load_show(const std::filesystem::path& path);

/// Replaces the file as one step: it holds the old show or the new one, whole, whatever happens in between.
/// Error: those of savable_text() and atomic_write(); the old file is untouched.
[[nodiscard]] Result<void> save_show(const Show& show, const std::filesystem::path& path);

}  // namespace gasp
