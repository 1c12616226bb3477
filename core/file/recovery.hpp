// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <filesystem>
#include <vector>

namespace gasp {

// What keeps unsaved work through a crash. Each running editor has at most one recovery file in a folder that
// all of them share; its name tells whose it is, so that nobody takes the file of an editor that still runs.
// show_file.md describes the file.

/// Unsaved work of an editor that ended without saving it.
struct Recovery {
    std::filesystem::path file;
    std::filesystem::path original;  ///< the show it is of; empty for one that was never saved
    std::filesystem::file_time_type saved;
};

/// Keeps the show as this process's recovery, in place of the one before. Makes the folder. `original` is
/// where the show was last saved, empty when it never was.
[[nodiscard]] Result<void> save_recovery(const Show& show, const std::filesystem::path& original,
                                         const std::filesystem::path& folder);

/// What processes that no longer run have left, the latest first. Files that are no recoveries are passed
/// over.
[[nodiscard]] std::vector<Recovery> find_recoveries(const std::filesystem::path& folder);

/// Reads a recovery and makes it this process's own, so that no other editor takes it too and it outlives
/// another crash. Error: this process has one already, another has taken it, or it cannot be read; then it
/// stays where it is.
[[nodiscard]] Result<Show> take_recovery(const Recovery& recovery);

/// Throws a recovery away. Done when it is gone already.
[[nodiscard]] Result<void> discard_recovery(const Recovery& recovery);

/// Throws this process's own away, if it has one: after a save, and when the user closes without saving.
[[nodiscard]] Result<void> discard_own_recovery(const std::filesystem::path& folder);

}  // namespace gasp
