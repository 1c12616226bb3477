// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/circuit/air_circuit.hpp"
#include "ui/sheet/pack/pack_parts.hpp"

#include <algorithm>
#include <memory>

namespace gasp {

void add_air_circuit(PackFlow& flow, const PackSource& source) {
    const Show& show = source.content.show;
    if (show.rig.actuators.empty()) {
        return;
    }
    flow.section(QStringLiteral("Air circuit"), true);
    const AirCircuit circuit(show, source.content.units);
    const std::size_t each = std::min(AirCircuit::columns_in(flow.width()), circuit.columns());
    for (std::size_t sheet = 0; sheet < circuit.sheets(each); ++sheet) {
        flow.new_page();
        flow.heading(
            circuit.sheets(each) == 1
                ? QStringLiteral("Air circuit, drawn without power and air")
                : QStringLiteral("Air circuit, drawn without power and air, sheet %1").arg(sheet + 1));
        flow.drawing(AirCircuit::height, [circuit, sheet, each](QPainter& painter, const QRectF& box) {
            circuit.paint(painter, box, sheet, each);
        });
    }
}

}  // namespace gasp
