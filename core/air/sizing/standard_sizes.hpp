// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/quantity.hpp"

#include <cstddef>
#include <span>
#include <string_view>

namespace gasp {

// What shops have, in both systems of units, smallest first. Sources stand beside the tables.

/// A cylinder with its usual rod and ports.
struct BoreSize {
    double bore_mm;
    double rod_mm;
    std::size_t port;       ///< which one of standard_ports
    std::string_view name;  ///< "40 mm, ISO 15552", "1 1/2 in"
};

/// A plastic tube, called by its outside diameter as its connectors are.
struct TubeSize {
    double outside_mm;
    double bore_mm;
    std::string_view name;  ///< "8 mm outside, 5.5 mm inside"
};

/// The port thread of a directional control valve, and the conductance a common valve of it has, b about 0.3.
struct PortSize {
    std::string_view name;  ///< "G 1/4", "1/4 NPT"
    double c_l_s_bar;
};

struct ReceiverSize {
    double volume_l;
    std::string_view name;  ///< "50 L", "20 gal"
};

[[nodiscard]] std::span<const BoreSize> standard_bores(UnitSystem system);
[[nodiscard]] std::span<const TubeSize> standard_tubes(UnitSystem system);
[[nodiscard]] std::span<const PortSize> standard_ports(UnitSystem system);
[[nodiscard]] std::span<const ReceiverSize> standard_receivers(UnitSystem system);

}  // namespace gasp
