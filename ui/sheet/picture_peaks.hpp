// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"
#include "core/sound/peaks.hpp"

#include <atomic>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

namespace gasp {

/// The peaks of every clip whose file can be read; of the others `messages` tells. Decodes every file once;
/// stops soon after `cancel` becomes true.
[[nodiscard]] std::map<ClipId, std::shared_ptr<const PeakPyramid>> peaks_of(
    const Sequence& sequence, const std::filesystem::path& folder, const std::atomic<bool>& cancel,
    std::vector<std::string>& messages);

}  // namespace gasp
