// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/pack_parts.hpp"
#include "ui/sheet/pack/pack_words.hpp"
#include "ui/sheet/pack/parts_list.hpp"

namespace gasp {

namespace {

QString quantity_text(const Part& part, UnitSystem units) {
    return part.length ? figure_text(Quantity::length, part.quantity, units)
                       : QString::number(part.quantity, 'f', 0);
}

}  // namespace

void add_parts_list(PackFlow& flow, const PackSource& source) {
    const PackContent& content = source.content;
    flow.section(QStringLiteral("Parts list"));
    flow.heading(QStringLiteral("Parts list"));
    flow.paragraph(
        QStringLiteral("What the rig describes, alike parts together. \"Not in the plan\" is what the usual "
                       "practice of the trade "
                       "adds: choose its size by the maker's sheets. Lengths are those of the plan, without "
                       "spare; fittings, "
                       "screws and boxes are not counted."));
    for (const PartsGroup& group : parts_of(content.show, content.units)) {
        flow.heading(group.title);
        std::vector<PackRow> rows;
        for (const Part& part : group.parts) {
            rows.push_back({quantity_text(part, content.units),
                            part.name,
                            {part.size, !part.planned},
                            {part.used_for.join(", "), true},
                            QString()});
        }
        flow.table({{"Quantity", 170, 0, true},
                    {"Part", 0, 2.4, false, true},
                    {"Size", 0, 3.2, false, false, 6},
                    {"For", 0, 2.6, false, false, 8},
                    {"Have it", 130}},
                   rows);
    }
}

}  // namespace gasp
