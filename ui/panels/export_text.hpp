// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/units/time.hpp"

#include <optional>
#include <string>

namespace gasp {

/// What an export writes, and what should be known about it.
struct ExportText {
    std::string csv;
    std::size_t rows = 0;
    Micros largest_rounding{0};
    std::size_t lost_in_tick = 0;
};

/// The event table of one sequence, or of every one.
[[nodiscard]] ExportText export_text(const Show& show, std::optional<SequenceId> only, bool comments);

}  // namespace gasp
