// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/table/event_table.hpp"

#include <cstdint>
#include <optional>
#include <string>

namespace gasp {

/// What keeps rows from being an event table. Readers of every form ask for it, and say where it stands in
/// their file.
struct TableFault {
    enum class Part : std::uint8_t { sequence, time, channel, output };
    std::size_t row = 0;  ///< index of the row at fault, or of the last
    Part part = Part::sequence;
    std::string what;
    std::string remedy;
};

/// Whether the table ends with a row of rest for each of its channels at one time. Every row names a channel
/// that the table has.
[[nodiscard]] std::optional<TableFault> end_fault(const EventTable& table);

/// Whether the rows between the two blocks of rest are in order, on their ticks and within the length, change
/// their channel each, and leave every channel at rest. Requires: no end_fault().
[[nodiscard]] std::optional<TableFault> change_fault(const EventTable& table);

}  // namespace gasp
