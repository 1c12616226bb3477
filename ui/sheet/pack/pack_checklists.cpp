// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/checklists.hpp"
#include "ui/sheet/pack/pack_parts.hpp"

namespace gasp {

void add_checklists(PackFlow& flow, const PackSource& source) {
    flow.section(QStringLiteral("Checklists"));
    for (const Checklist& list : checklists_of(source.content)) {
        flow.new_page();
        flow.heading(list.title);
        flow.paragraph(
            QStringLiteral("Common practice of the trade, filled in from the rig. The makers' instructions, "
                           "the local code and a competent person come before it."),
            {PrintSize::small, false, true});
        flow.gap(12);
        for (const QString& item : list.items) {
            flow.tick_box(item);
        }
        flow.gap(40);
        flow.paragraph(QStringLiteral("Date ____________________   Done by ______________________________"));
    }
}

}  // namespace gasp
