// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <atomic>
#include <filesystem>

namespace gasp {

/// Copies a file, making the folders on the way; what stands there is replaced as one step. Error: it cannot
/// be read or written, cancelled; nothing half-copied is left.
[[nodiscard]] Result<void> copy_sound(const std::filesystem::path& from, const std::filesystem::path& to,
                                      const std::atomic<bool>& cancel);

}  // namespace gasp
