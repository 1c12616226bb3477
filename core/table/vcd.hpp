// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/table/event_table.hpp"

#include <span>
#include <string>

namespace gasp {

/// The tables as one value change dump (IEEE 1364-2005, clause 18), as vcd.md describes it: any waveform
/// viewer shows it.
[[nodiscard]] std::string write_vcd(std::span<const EventTable> tables);

}  // namespace gasp
