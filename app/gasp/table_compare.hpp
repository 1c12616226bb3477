// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "app/gasp/open_show.hpp"
#include "app/gasp/verbs.hpp"
#include "core/table/event_table.hpp"

#include <optional>
#include <span>
#include <string>

namespace gasp {

/// Tells for each of the show's tables where the one of the same sequence in the file `options.compare`
/// differs; of `board` alone, where one is given or the file is of one. Error: the file cannot be read.
[[nodiscard]] Result<Outcome> compare(const OpenShow& open, std::span<const EventTable> tables,
                                      const std::optional<std::string>& board, const TableOptions& options);

}  // namespace gasp
