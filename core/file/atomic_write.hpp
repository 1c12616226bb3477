// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/file/disk.hpp"
#include "core/units/error.hpp"

#include <filesystem>
#include <string_view>

namespace gasp {

/// Gives a file new contents as one step: at every moment, also after a crash or a power cut, it holds the
/// old ones or the new ones, whole. Follows symbolic links to the file they mean; keeps the permissions, and
/// where it may the owner, of a file that was there. show_file.md tells what remains after a crash at each
/// step.
///
/// Error: the folder or the file is read-only, the disk is full, the path is no plain file. Then the old
/// contents stand untouched and nothing new lies in the folder.
[[nodiscard]] Result<void> atomic_write(const std::filesystem::path& path, std::string_view contents,
                                        Disk& disk = real_disk());

}  // namespace gasp
