// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/table/table_form.hpp"
#include "core/units/time.hpp"

#include <optional>
#include <string>
#include <vector>

namespace gasp {

/// What is to be exported, and how.
struct ExportChoice {
    std::optional<SequenceId> sequence;  ///< every one where empty
    TableForm form = TableForm::csv;
    std::optional<BoardId> board;  ///< every one where empty
    bool comments = true;          ///< of CSV
};

/// What an export writes, and what should be known about it.
struct ExportText {
    std::string bytes;
    std::optional<Error> error;  ///< the form cannot hold it; then there are no bytes
    std::size_t rows = 0;
    Micros largest_rounding{0};
    std::size_t lost_in_tick = 0;
    Figure drift_ms;  ///< the most any two boards may be apart; blank: one board, or not known
};

[[nodiscard]] ExportText export_text(const Show& show, const ExportChoice& choice);

}  // namespace gasp
