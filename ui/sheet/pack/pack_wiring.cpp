// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/fields.hpp"
#include "ui/sheet/circuit/wiring_diagram.hpp"
#include "ui/sheet/pack/pack_parts.hpp"
#include "ui/sheet/pack/pack_words.hpp"

#include <QStringList>

#include <algorithm>

namespace gasp {

namespace {

using Q = Quantity;

QString choice_of(const Circuit& circuit, std::size_t field) {
    const auto& choice = fields<Circuit>().choices[field];
    return text_of(choice.labels[choice.get(circuit)]);
}

QString joined(QStringList parts) {
    parts.removeAll(QString());
    return parts.isEmpty() ? QString(QChar(0x2013)) : parts.join(", ");
}

QString given(Q quantity, const Figure& figure, UnitSystem units) {
    return figure ? figure_text(quantity, figure, units) : QString();
}

PackRow row_of(const Show& show, const WiredChannel& wired, UnitSystem units) {
    const Channel& channel = *wired.channel;
    const Circuit& circuit = channel.circuit;
    const Supply* supply = circuit.supply ? find(show, *circuit.supply) : nullptr;
    return {QString::number(wired.number),
            text_of(channel.name),
            supply != nullptr ? text_of(supply->name) : QStringLiteral("not given"),
            circuit.fuse_a ? wired.fuse() + ' ' + figure_text(Q::current, circuit.fuse_a, units)
                           : QStringLiteral("none"),
            output_text(show, channel) + (channel.contact == Contact::normally_open ? ", NO" : ", NC"),
            wired.out_terminal() + ", " + wired.return_terminal(),
            joined({choice_of(circuit, 0), given(Q::voltage, circuit.volts, units),
                    given(Q::current, channel.load_current_a, units)}),
            choice_of(circuit, 2),
            joined({given(Q::wire_area, circuit.wire_mm2, units), text_of(circuit.wire_colour),
                    given(Q::length, circuit.wire_length_m, units)}),
            joined({circuit.return_path == ReturnPath::own_wire ? QStringLiteral("own wire back")
                                                                : QStringLiteral("shared return"),
                    text_of(circuit.route)})};
}

void add_chart(PackFlow& flow, const PackContent& content) {
    flow.heading(QStringLiteral("Wiring chart"));
    std::vector<PackRow> rows;
    for (const WiringGroup& group : wiring_of(content.show)) {
        for (const WiredChannel& wired : group.circuits) {
            rows.push_back(row_of(content.show, wired, content.units));
        }
    }
    flow.table({{"No.", 66, 0, true},
                {"Channel", 0, 2.4, false, true},
                {"Supply", 0, 2},
                {"Fuse", 150},
                {"Output, contact", 0, 2.2},
                {"Terminals", 160},
                {"Load", 0, 2.6},
                {"Suppression", 0, 1.6},
                {"Wire, one way", 0, 2.4},
                {"Return, route", 0, 2.2}},
               rows);
    const bool mains = std::ranges::find(content.show.rig.supplies, SupplyKind::mains, &Supply::kind) !=
                       content.show.rig.supplies.end();
    flow.paragraph(
        QStringLiteral("Terminals X are numbered along the strip, the way out odd, the way back even. %1"
                       "The local electrical code comes before this chart.")
            .arg(mains ? "This rig has mains: those circuits are work for a licensed electrician. "
                       : "Mains wiring is work for a licensed electrician. "),
        {PrintSize::small, false, true});
}

void add_diagrams(PackFlow& flow, const PackContent& content) {
    const WiringDiagram diagram(content.show, content.units);
    for (const WiringDiagram::Sheet& sheet : diagram.sheets(flow.width())) {
        flow.new_page();
        QString title = QStringLiteral("Wiring, drawn without power: %1")
                            .arg(sheet.supply != nullptr ? text_of(sheet.supply->name)
                                                         : QStringLiteral("no supply given"));
        if (sheet.parts > 1) {
            title += QStringLiteral(", %1 of %2").arg(sheet.part + 1).arg(sheet.parts);
        }
        flow.heading(title);
        flow.drawing(WiringDiagram::height, [diagram, sheet](QPainter& painter, const QRectF& box) {
            diagram.paint(painter, box, sheet);
        });
    }
}

}  // namespace

void add_wiring(PackFlow& flow, const PackSource& source) {
    if (source.content.show.rig.channels.empty()) {
        return;
    }
    flow.section(QStringLiteral("Wiring"), true);
    add_chart(flow, source.content);
    add_diagrams(flow, source.content);
}

}  // namespace gasp
