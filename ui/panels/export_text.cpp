// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/export_text.hpp"

#include "core/schedule/schedule.hpp"
#include "core/table/csv.hpp"
#include "core/table/event_table.hpp"

#include <algorithm>
#include <vector>

namespace gasp {

ExportText export_text(const Show& show, std::optional<SequenceId> only, bool comments) {
    ExportText made;
    std::vector<EventTable> tables;
    for (const Sequence& sequence : show.sequences) {
        if (only && sequence.id != *only) {
            continue;
        }
        const Schedule schedule = resolve(show, sequence);
        made.largest_rounding = std::max(made.largest_rounding, schedule.largest_rounding);
        made.lost_in_tick += schedule.lost_in_tick;
        tables.push_back(tabulate(show, sequence, schedule));
        made.rows += tables.back().rows.size();
    }
    made.csv = write_csv(tables, {.comments = comments});
    return made;
}

}  // namespace gasp
