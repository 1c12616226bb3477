// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/quantity.hpp"

#include "core/units/gauge.hpp"
#include "core/units/number.hpp"
#include "core/units/unit_tables.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <charconv>
#include <cmath>
#include <optional>

namespace gasp {
namespace {

constexpr int kept_digits = 9;

std::string list_of_units(Quantity quantity) {
    std::vector<std::string_view> names;
    for (const Unit& unit : units_of(quantity)) {
        if (!unit.name.empty()) {
            names.push_back(unit.name);
        }
    }
    if (quantity == Quantity::wire_area) {
        names.emplace_back("AWG from 4/0 to 40");
    }
    return names.empty() ? "Write the number alone" : fmt::format("Use {}", fmt::join(names, ", "));
}

/// Feet with inches and pounds with ounces are one value; other units do not go together.
bool go_together(const Unit& first, const Unit& second) {
    return (first.name == "ft" && second.name == "in") || (first.name == "lb" && second.name == "oz");
}

Result<const Unit*> unit_of(Quantity quantity, const Term& term, UnitSystem system) {
    if (term.unit.empty()) {
        return &shown_unit(quantity, system);
    }
    if (const Unit* unit = find_unit(quantity, term.unit)) {
        return unit;
    }
    return fail(fmt::format("{} is not a unit of {}", quote(term.unit), name_of(quantity)), {},
                list_of_units(quantity));
}

Result<double> sum(Quantity quantity, const std::vector<Term>& terms, UnitSystem system) {
    double total = 0;
    const Unit* before = nullptr;
    for (const Term& term : terms) {
        const auto unit = unit_of(quantity, term, system);
        if (!unit) {
            return tl::unexpected(unit.error());
        }
        const bool fits = !before || go_together(*before, **unit);
        if (!fits || (terms.size() > 1 && term.unit.empty())) {
            return fail("There is more than one number", {}, "Write one number and one unit");
        }
        total += term.value * (*unit)->scale + (*unit)->offset;
        before = *unit;
    }
    return total;
}

/// At most `digits` significant digits, without zeros at the end.
std::string plain_number(double value, int digits) {
    value = round_to_digits(value, digits);
    const double size = std::abs(value);
    if (size == 0) {
        return "0";
    }
    if (size >= 1e7 || size < 1e-6) {
        return fmt::format("{:.{}g}", value, digits);
    }
    const int decimals = std::max(0, digits - 1 - static_cast<int>(std::floor(std::log10(size))));
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (decimals > 0) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') {
            text.pop_back();
        }
    }
    return text;
}

double kept(double document_value) {
    return round_to_digits(document_value, kept_digits);
}

/// Wire that is a gauge's, where gauges are shown.
std::optional<int> shown_gauge(Quantity quantity, double document_value, UnitSystem system) {
    return quantity == Quantity::wire_area && system == UnitSystem::us ? gauge_of_area(document_value)
                                                                       : std::nullopt;
}

}  // namespace

Result<double> parse_quantity(Quantity quantity, std::string_view text, UnitSystem system) {
    if (quantity == Quantity::wire_area) {
        if (const auto gauge = read_gauge(plain_text(text), system == UnitSystem::us)) {
            return kept(area_of_gauge(*gauge));
        }
    }
    auto terms = read_terms(plain_text(text));
    if (!terms) {
        if (quantity == Quantity::wire_area) {
            terms.error().remedy = "Write it like 0.75 mm2 or 18 AWG";
        } else if (terms.error().remedy.empty()) {
            const Unit& unit = shown_unit(quantity, system);
            terms.error().remedy =
                "Write it like 12.5" + std::string(unit.name.empty() ? "" : " ") + std::string(unit.name);
        }
        return tl::unexpected(terms.error());
    }
    const auto total = sum(quantity, *terms, system);
    if (!total) {
        return total;
    }
    const double value = kept(*total);
    if (!std::isfinite(value)) {
        return fail(quote(text) + " is beyond what a number can hold");
    }
    return value == 0 ? 0.0 : value;
}

std::string print_number(Quantity quantity, double document_value, UnitSystem system) {
    if (const auto gauge = shown_gauge(quantity, document_value, system)) {
        return gauge_text(*gauge);
    }
    const Unit& unit = shown_unit(quantity, system);
    const double shown = (document_value - unit.offset) / unit.scale;
    if (!std::isfinite(shown)) {
        return "-";
    }
    // What was typed in this unit comes back as it was typed; what was not is rounded.
    constexpr int typed_digits = 6;
    constexpr int rounded_digits = 4;
    const double typed = round_to_digits(shown, typed_digits);
    const bool exact = kept(typed * unit.scale + unit.offset) == kept(document_value);
    const std::string number = plain_number(shown, exact ? typed_digits : rounded_digits);
    return quantity == Quantity::wire_area && unit.name.empty() ? number + " mm2" : number;
}

std::string print_quantity(Quantity quantity, double document_value, UnitSystem system) {
    const std::string_view unit = shown_unit(quantity, system).name;
    const bool close_up = unit.empty() || unit == "\u00b0";
    return print_number(quantity, document_value, system) + (close_up ? "" : " ") + std::string(unit);
}

double si(Quantity quantity, double document_value) {
    constexpr double pi = 3.14159265358979323846;
    switch (quantity) {
        case Quantity::small_length:
        case Quantity::volume:
        case Quantity::free_air:
        case Quantity::time_ms:
            return document_value / 1000;
        case Quantity::gauge_pressure:
            return document_value * 1000;
        case Quantity::free_air_flow:
            return document_value / 60'000;
        case Quantity::angle:
            return document_value * pi / 180;
        case Quantity::temperature:
            return document_value + 273.15;
        case Quantity::percent:
            return document_value / 100;
        case Quantity::small_volume:
        case Quantity::wire_area:
            return document_value * 1e-6;
        case Quantity::conductance:
            return document_value * 1e-8;  // dm3/(s bar) to m3/(s Pa)
        case Quantity::stiffness:
            return document_value * 1e3;
        case Quantity::length:
        case Quantity::mass:
        case Quantity::force:
        case Quantity::time_s:
        case Quantity::frequency:
        case Quantity::current:
        case Quantity::voltage:
        case Quantity::power:
        case Quantity::sound_level:
        case Quantity::damping:
        case Quantity::speed:
        case Quantity::energy:
        case Quantity::charge:
        case Quantity::number:
            break;
    }
    return document_value;
}

}  // namespace gasp
