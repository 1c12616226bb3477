// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/export_text.hpp"

#include "core/schedule/clock_drift.hpp"
#include "core/schedule/schedule.hpp"
#include "core/table/event_table.hpp"

#include <algorithm>

namespace gasp {

namespace {

void note_drift(ExportText& made, const std::vector<ClockDrift>& drifts) {
    for (const ClockDrift& drift : drifts) {
        if (drift.other && drift.drift_ms) {
            made.drift_ms = std::max(made.drift_ms.value_or(0.0), *drift.drift_ms);
        }
    }
}

}  // namespace

ExportText export_text(const Show& show, const ExportChoice& choice) {
    ExportText made;
    std::vector<EventTable> tables;
    for (const Sequence& sequence : show.sequences) {
        if (choice.sequence && sequence.id != *choice.sequence) {
            continue;
        }
        const Schedule schedule = resolve(show, sequence);
        made.largest_rounding = std::max(made.largest_rounding, schedule.largest_rounding);
        made.lost_in_tick += schedule.lost_in_tick;
        note_drift(made, clock_drifts(show, sequence, schedule));
        tables.push_back(tabulate(show, sequence, schedule));
        const Board* board = choice.board ? find(show, *choice.board) : nullptr;
        made.rows += (board != nullptr ? of_board(tables.back(), board->name) : tables.back()).rows.size();
    }
    Result<std::string> text = write_form(choice.form, show, tables, choice.board, choice.comments);
    if (text) {
        made.bytes = std::move(*text);
    } else {
        made.error = std::move(text.error());
    }
    return made;
}

}  // namespace gasp
