// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/c_names.hpp"

#include <fmt/format.h>

namespace gasp {

namespace {

constexpr std::size_t longest = 40;

// The letters of the locale are none of C's: both are worked out from ASCII.
bool is_upper(char c) {
    return c >= 'A' && c <= 'Z';
}
bool is_lower(char c) {
    return c >= 'a' && c <= 'z';
}
bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

std::string identifier(std::string_view name) {
    std::string result;
    for (const char c : name) {
        if (is_upper(c)) {
            result += static_cast<char>(c - 'A' + 'a');
        } else if (is_lower(c) || is_digit(c)) {
            result += c;
        } else if (!result.empty() && result.back() != '_') {
            result += '_';
        }
        if (result.size() == longest) {
            break;
        }
    }
    if (result.ends_with('_')) {
        result.pop_back();
    }
    return result.empty() ? "x" : result;
}

}  // namespace

std::string CNames::give(std::string_view name) {
    const std::string base = identifier(name);
    std::string result = base;
    for (int number = 2; !given_.insert(result).second; ++number) {
        result = fmt::format("{}_{}", base, number);
    }
    return result;
}

std::string upper_case(std::string_view identifier) {
    std::string result(identifier);
    for (char& c : result) {
        c = is_lower(c) ? static_cast<char>(c - 'a' + 'A') : c;
    }
    return result;
}

}  // namespace gasp
