// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/table/event_table.hpp"

#include <vector>

namespace gasp {

/// Of which bytes the names of a random show are.
enum class Names { any, utf8 };

/// A show of named sequences and channels with boards, outputs, contacts and ticks; names hold quotes,
/// commas, line ends, marks of comments, and beginnings a spreadsheet would take for a formula. For use
/// inside rc::check.
[[nodiscard]] Show random_show(Names names = Names::any);

/// A schedule over a show's channels that keeps all a Schedule promises; lengths need not be on the tick.
[[nodiscard]] Schedule random_schedule(const Show& show, const Sequence& sequence);

/// The tables of every sequence of a show, from random schedules.
[[nodiscard]] std::vector<EventTable> random_tables(const Show& show);

}  // namespace gasp
