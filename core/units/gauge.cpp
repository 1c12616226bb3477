// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/gauge.hpp"

#include "core/units/unit_tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace gasp {
namespace {

/// Takes "awg", "ga", "gauge" or "#" off one end; false when there is none.
bool take_word(std::string_view& text) {
    for (const std::string_view word : {"awg", "gauge", "ga"}) {
        if (text.ends_with(word)) {
            text.remove_suffix(word.size());
            return true;
        }
        if (text.starts_with(word)) {
            text.remove_prefix(word.size());
            return true;
        }
    }
    if (text.starts_with('#')) {
        text.remove_prefix(1);
        return true;
    }
    return false;
}

std::optional<int> whole(std::string_view text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool all = !text.empty() && error == std::errc{} && end == text.data() + text.size();
    return all && text.front() != '-' ? std::optional(value) : std::nullopt;
}

}  // namespace

double area_of_gauge(int gauge) {
    constexpr double quarter_pi = 3.14159265358979323846 / 4;
    const double diameter_mm = 0.127 * std::pow(92.0, (36.0 - gauge) / 39.0);
    return quarter_pi * diameter_mm * diameter_mm;
}

std::optional<int> gauge_of_area(double mm2) {
    constexpr double near_enough = 0.005;
    for (int gauge = thickest_gauge; gauge <= thinnest_gauge; ++gauge) {
        if (std::abs(mm2 / area_of_gauge(gauge) - 1) <= near_enough) {
            return gauge;
        }
    }
    return std::nullopt;
}

std::string gauge_text(int gauge) {
    return gauge < 0 ? fmt::format("{}/0 AWG", 1 - gauge) : fmt::format("{} AWG", gauge);
}

std::optional<int> read_gauge(std::string_view text, bool bare) {
    const std::string plain = folded(text);
    std::string_view rest = plain;
    if (!take_word(rest) && !bare) {
        return std::nullopt;
    }
    std::optional<int> gauge;
    if (rest.ends_with("/0")) {
        const auto zeros = whole(rest.substr(0, rest.size() - 2));
        gauge = zeros ? std::optional(1 - *zeros) : std::nullopt;
    } else if (rest.size() > 1 && std::ranges::all_of(rest, [](char c) { return c == '0'; })) {
        gauge = 1 - static_cast<int>(rest.size());
    } else {
        gauge = whole(rest);
    }
    return gauge && *gauge >= thickest_gauge && *gauge <= thinnest_gauge ? gauge : std::nullopt;
}

}  // namespace gasp
