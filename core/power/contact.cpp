// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/contact.hpp"

#include <limits>

namespace gasp {

double usual_surge(LoadKind kind) {
    switch (kind) {
        case LoadKind::lamp:
        case LoadKind::led:
        case LoadKind::sound_player:
            return 10.0;
        case LoadKind::motor:
            return 6.0;
        case LoadKind::not_stated:
        case LoadKind::coil:
        case LoadKind::fogger:
        case LoadKind::other:
            break;
    }
    return 1.0;
}

bool surges(LoadKind kind) {
    return usual_surge(kind) > 1.0;
}

double share_of_resistive(LoadKind kind) {
    constexpr double coil_share = 0.4;
    return kind == LoadKind::coil ? coil_share : 1.0 / usual_surge(kind);
}

LoadKind load_kind(const Channel& channel) {
    const bool valve = channel.kind == ChannelKind::valve;
    return valve && channel.circuit.load == LoadKind::not_stated ? LoadKind::coil : channel.circuit.load;
}

double contact_nights(double operations, double a_night) {
    return a_night > 0.0 ? operations / a_night : std::numeric_limits<double>::infinity();
}

}  // namespace gasp
