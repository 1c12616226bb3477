// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edits.hpp"
#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <atomic>
#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace gasp {

/// A sound that a show names and its folder does not have.
struct MissingSound {
    std::string file;       ///< as the show names it
    std::string content;    ///< what it held; empty where the show does not say
    std::size_t clips = 0;  ///< that play it
    bool operator==(const MissingSound&) const = default;
};

/// Each of them once, in the order of the show. Costs a look at the folder.
[[nodiscard]] std::vector<MissingSound> missing_sounds(const Show& show,
                                                       const std::filesystem::path& show_folder);

/// Where missing sounds were found again.
struct FoundSounds {
    /// Elsewhere below the show's folder: the edit set_clip_files() names them anew.
    std::vector<MovedSound> moved;
    /// Outside it, and copied to where the show names them.
    std::vector<std::string> copied;
    std::vector<MissingSound> still_missing;
};

/// Looks below a folder for files that hold, byte for byte, what missing sounds held, whatever they are
/// called now. Only files named like sounds are read, those with a missing one's name first; symbolic links
/// to folders are not followed. What lies outside the show's folder is copied to its old place there.
/// `progress` (may be empty) gets the share of files looked at; `cancel` ends it early with an error.
/// Error: the folder cannot be read, a copy fails, cancelled.
[[nodiscard]] Result<FoundSounds> find_missing(const std::vector<MissingSound>& missing,
                                               const std::filesystem::path& show_folder,
                                               const std::filesystem::path& search_folder,
                                               const std::atomic<bool>& cancel,
                                               const std::function<void(double)>& progress);

}  // namespace gasp
