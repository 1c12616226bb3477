// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/table/event_table.hpp"

#include <vector>

namespace gasp {

/// A show of named sequences and channels with boards, outputs, contacts and ticks; names are of any bytes,
/// among them quotes, commas, line ends, and beginnings a spreadsheet would take for a formula. For use
/// inside rc::check.
[[nodiscard]] Show random_show();

/// A schedule over a show's channels that keeps all a Schedule promises; lengths need not be on the tick.
[[nodiscard]] Schedule random_schedule(const Show& show, const Sequence& sequence);

/// The tables of every sequence of a show, from random schedules.
[[nodiscard]] std::vector<EventTable> random_tables(const Show& show);

}  // namespace gasp
