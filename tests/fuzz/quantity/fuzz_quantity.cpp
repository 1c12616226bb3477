// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/quantity.hpp"
#include "core/units/time.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

namespace {

void require(bool holds) {
    if (!holds) {
        std::abort();
    }
}

void fuzz_quantity(gasp::Quantity quantity, gasp::UnitSystem system, std::string_view text) {
    const auto value = gasp::parse_quantity(quantity, text, system);
    if (!value) {
        require(!value.error().text().empty());
        return;
    }
    require(std::isfinite(*value));
    require(
        gasp::parse_quantity(quantity, gasp::print_quantity(quantity, *value, system), system).has_value());
}

void fuzz_time(std::string_view text) {
    const auto time = gasp::parse_time(text);
    if (time) {
        require(gasp::parse_time(gasp::print_time(*time, 6)) == time);
        require(gasp::parse_time(gasp::print_duration(*time)).has_value());
    }
}

}  // namespace

/// The first byte picks the quantity and the system, the rest is the text.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) {
        return 0;
    }
    constexpr int quantities = static_cast<int>(gasp::Quantity::number) + 1;
    const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
    const auto system = (data[0] & 0x80U) != 0 ? gasp::UnitSystem::us : gasp::UnitSystem::metric;
    fuzz_quantity(static_cast<gasp::Quantity>((data[0] & 0x7fU) % quantities), system, text);
    fuzz_time(text);
    return 0;
}
