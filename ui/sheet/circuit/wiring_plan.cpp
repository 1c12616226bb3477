// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/circuit/wiring_plan.hpp"

#include <algorithm>

namespace gasp {

std::vector<WiringGroup> wiring_of(const Show& show) {
    std::vector<WiringGroup> groups;
    for (const Supply& supply : show.rig.supplies) {
        groups.push_back({&supply, {}});
    }
    groups.push_back({});
    int number = 0;
    for (const Channel& channel : show.rig.channels) {
        const Supply* supply = channel.circuit.supply ? find(show, *channel.circuit.supply) : nullptr;
        std::ranges::find(groups, supply, &WiringGroup::supply)->circuits.push_back({&channel, ++number});
    }
    if (groups.back().circuits.empty()) {
        groups.pop_back();
    }
    return groups;
}

}  // namespace gasp
