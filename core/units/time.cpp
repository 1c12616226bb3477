// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/time.hpp"

#include "core/units/number.hpp"
#include "core/units/unit_tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <optional>

namespace gasp {
namespace {

constexpr double us_per_s = 1e6;
constexpr double longest_s = 24.0 * 3600;

tl::unexpected<Error> not_a_time(std::string_view text) {
    return fail(quote(text) + " is not a time", {}, "Write it like 1.25, 250 ms or 1:02.5");
}

Result<Micros> from_seconds(double seconds, std::string_view text) {
    if (!(std::abs(seconds) <= longest_s)) {
        return fail(quote(text) + " is beyond 24 h", {}, "Write a time of at most 24 h");
    }
    return Micros{std::llround(seconds * us_per_s)};
}

/// Digits, with a point and decimals only in the last part.
std::optional<double> clock_part(std::string_view part, bool last) {
    const bool only_digits =
        part.find_first_not_of(last ? "0123456789." : "0123456789") == std::string_view::npos;
    const auto terms = read_terms(only_digits ? part : std::string_view{});
    return terms && terms->size() == 1 && terms->front().unit.empty() ? std::optional(terms->front().value)
                                                                      : std::nullopt;
}

/// The parts of "1:02:03.5", first hours.
Result<Micros> parse_clock(std::string_view text) {
    std::string pointed(text);
    std::ranges::replace(pointed, ',', '.');
    std::string_view rest = pointed;
    const bool negative = rest.starts_with('-');
    if (negative || rest.starts_with('+')) {
        rest.remove_prefix(1);
    }
    double seconds = 0;
    int parts = 0;
    for (bool last = false; !last; ++parts) {
        const std::size_t colon = rest.find(':');
        last = colon == std::string_view::npos;
        const auto value = clock_part(rest.substr(0, colon), last);
        if (!value || parts == 3 || (parts > 0 && *value >= 60)) {
            return not_a_time(text);
        }
        seconds = seconds * 60 + *value;
        rest.remove_prefix(last ? rest.size() : colon + 1);
    }
    return from_seconds(negative ? -seconds : seconds, text);
}

/// Seconds in a unit of time; 0 when it is none.
double seconds_in(std::string_view unit) {
    if (const Unit* found = find_unit(Quantity::time_s, unit)) {
        return found->scale;
    }
    const Unit* found = find_unit(Quantity::time_ms, unit);
    return found ? found->scale / 1000 : 0;
}

/// "1.25 s", or "1 min 30 s" with each unit smaller than the one before.
Result<Micros> parse_terms(std::string_view text) {
    const auto terms = read_terms(text);
    if (!terms) {
        return terms.error().remedy.empty() ? not_a_time(text) : tl::unexpected(terms.error());
    }
    double seconds = 0;
    double unit_before = HUGE_VAL;
    for (const Term& term : *terms) {
        const bool bare = term.unit.empty() && terms->size() == 1;
        const double unit = bare ? 1.0 : seconds_in(term.unit);
        if (unit == 0 || unit >= unit_before) {
            return not_a_time(text);
        }
        seconds += term.value * unit;
        unit_before = unit;
    }
    return from_seconds(seconds, text);
}

}  // namespace

Micros from_ms(double ms) {
    constexpr double most = 9.2e18;
    return Micros{std::llround(std::clamp(ms * 1000.0, -most, most))};
}

Result<Micros> parse_time(std::string_view text) {
    const std::string plain = plain_text(text);
    return plain.find(':') == std::string::npos ? parse_terms(plain) : parse_clock(plain);
}

std::string print_time(Micros time, int decimals) {
    decimals = std::clamp(decimals, 0, 6);
    std::int64_t step = 1;
    for (int i = decimals; i < 6; ++i) {
        step *= 10;
    }
    const std::int64_t count = std::clamp<std::int64_t>(time.count(), -INT64_MAX + step, INT64_MAX - step);
    const std::int64_t steps = (std::abs(count) + step / 2) / step;
    const std::int64_t per_second = 1'000'000 / step;
    const std::int64_t seconds = steps / per_second;
    std::string text = count < 0 && steps > 0 ? "-" : "";
    if (seconds >= 3600) {
        text += fmt::format("{}:{:02}:{:02}", seconds / 3600, seconds / 60 % 60, seconds % 60);
    } else {
        text += fmt::format("{}:{:02}", seconds / 60, seconds % 60);
    }
    return decimals == 0 ? text : text + fmt::format(".{:0{}}", steps % per_second, decimals);
}

std::string print_duration(Micros time) {
    const auto shortened = [](double value, std::string_view unit) {
        std::string text = fmt::format("{:.3f}", value);
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') {
            text.pop_back();
        }
        return fmt::format("{} {}", text == "-0" ? "0" : text, unit);
    };
    const double size = std::abs(to_s(time));
    if (size < 1) {
        return shortened(to_ms(time), "ms");
    }
    // What would round up to a minute is printed as one.
    return size < 59.9995 ? shortened(to_s(time), "s") : print_time(time);
}

}  // namespace gasp
