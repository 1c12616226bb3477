// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/csv_text.hpp"

#include "core/show/validity.hpp"

#include <fmt/compile.h>

#include <charconv>
#include <cstdint>

namespace gasp {

std::string guarded(std::string_view name) {
    constexpr std::string_view taken_for_a_formula = "=+-@\t\r'";
    const bool guard = !name.empty() && taken_for_a_formula.find(name.front()) != std::string_view::npos;
    return (guard ? "'" : "") + std::string(name);
}

std::string unguarded(std::string cell) {
    if (cell.starts_with('\'')) {
        cell.erase(0, 1);
    }
    return cell;
}

char* write_ms(char* place, Micros time) {
    const auto count = static_cast<std::uint64_t>(time.count());
    place = fmt::format_to(place, FMT_COMPILE("{}"), count / 1000);
    if (const std::uint64_t rest = count % 1000; rest != 0) {
        place = fmt::format_to(place, FMT_COMPILE(".{:03}"), rest);
        while (place[-1] == '0') {
            --place;
        }
    }
    return place;
}

std::optional<Micros> read_ms(std::string_view text) {
    const std::string_view whole = text.substr(0, text.find('.'));
    std::int64_t ms = 0;
    const auto [end, error] = std::from_chars(whole.data(), whole.data() + whole.size(), ms);
    if (error != std::errc{} || end != whole.data() + whole.size() || whole.front() == '-' ||
        ms > longest_sequence / std::chrono::milliseconds(1)) {
        return std::nullopt;
    }
    std::int64_t us = ms * 1000;
    if (whole.size() < text.size()) {
        const std::string_view decimals = text.substr(whole.size() + 1);
        if (decimals.empty() || decimals.size() > 3 ||
            decimals.find_first_not_of("0123456789") != std::string_view::npos) {
            return std::nullopt;
        }
        std::int64_t scale = 100;
        for (const char digit : decimals) {
            us += scale * (digit - '0');
            scale /= 10;
        }
    }
    return Micros{us} <= longest_sequence ? std::optional(Micros{us}) : std::nullopt;
}

}  // namespace gasp
