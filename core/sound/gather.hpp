// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"
#include "core/show/show.hpp"
#include "core/sound/missing.hpp"
#include "core/units/error.hpp"

#include <atomic>
#include <filesystem>
#include <string>
#include <vector>

namespace gasp {

/// Where a sound came to lie in a folder.
struct PutSound {
    std::string name;     ///< below the folder, as shows write it
    bool copied = false;  ///< it was not there before
};

/// Copies a sound below a folder, under the wanted name or, where another sound has that, "name 2.wav",
/// "name 3.wav"...; one that is there already, byte for byte, is not copied again. `content` is that of the
/// file. Error: a copy fails, cancelled; nothing half-copied is left.
[[nodiscard]] Result<PutSound> put_sound(const std::filesystem::path& file, const std::string& content,
                                         const std::filesystem::path& folder, const std::string& wanted,
                                         const std::atomic<bool>& cancel);

struct Gathered {
    /// Gives clips the names their copies had to take; empty where all kept theirs.
    Edit renaming;
    std::vector<MissingSound> missing;  ///< left out
    std::size_t copied = 0;
};

/// Copies every sound of a show from one folder to another, as put_sound() does, for a show that goes there.
/// Error: do not save the show there.
[[nodiscard]] Result<Gathered> gather_sounds(const Show& show, const std::filesystem::path& from,
                                             const std::filesystem::path& to,
                                             const std::atomic<bool>& cancel);

}  // namespace gasp
