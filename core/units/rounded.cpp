// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/rounded.hpp"

#include "core/units/number.hpp"

#include <cmath>

namespace gasp {

std::string print_rounded(Quantity quantity, double document_value, UnitSystem system, int digits) {
    const Unit& unit = shown_unit(quantity, system);
    const double shown = round_to_digits((document_value - unit.offset) / unit.scale, digits);
    return print_quantity(quantity, shown * unit.scale + unit.offset, system);
}

std::pair<std::string, std::string> print_apart(Quantity quantity, double figure, double limit,
                                                UnitSystem system) {
    constexpr int least_digits = 3;
    constexpr int most_digits = 6;
    std::pair<std::string, std::string> texts;
    for (int digits = least_digits; digits <= most_digits; ++digits) {
        texts = {print_rounded(quantity, figure, system, digits),
                 print_rounded(quantity, limit, system, digits)};
        if (texts.first != texts.second) {
            break;
        }
    }
    return texts;
}

double rounded_up(Quantity quantity, double document_value, UnitSystem system) {
    const Unit& unit = shown_unit(quantity, system);
    const double step = quantity == Quantity::gauge_pressure && system == UnitSystem::metric ? 0.1 : 1.0;
    // What stands on a step but for the rounding of its computation stays there.
    constexpr double slack = 1e-9;
    const double steps = std::ceil((document_value - unit.offset) / unit.scale / step - slack);
    return steps * step * unit.scale + unit.offset;
}

std::string print_rounded_up(Quantity quantity, double document_value, UnitSystem system) {
    return print_quantity(quantity, rounded_up(quantity, document_value, system), system);
}

}  // namespace gasp
