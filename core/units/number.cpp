// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/number.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>

namespace gasp {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
bool is_space(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

struct Typeset {
    std::string_view written;
    std::string_view plain;
};

constexpr std::array<Typeset, 26> typeset{{
    {"\u00bd", " 1/2"}, {"\u00bc", " 1/4"}, {"\u00be", " 3/4"}, {"\u2153", " 1/3"}, {"\u2154", " 2/3"},
    {"\u215b", " 1/8"}, {"\u215c", " 3/8"}, {"\u215d", " 5/8"}, {"\u215e", " 7/8"}, {"\u2044", "/"},
    {"\u00b2", "2"},    {"\u00b3", "3"},    {"\u00b0", "deg"},  {"\u00b5", "u"},    {"\u03bc", "u"},
    {"\u2032", "'"},    {"\u2033", "\""},   {"\u2019", "'"},    {"\u201d", "\""},   {"\u2212", "-"},
    {"\u2013", "-"},    {"\u2011", "-"},    {"\u00a0", " "},    {"\u2009", " "},    {"\u202f", " "},
    {"\u00b7", ""},
}};

bool groups_of_three(std::string_view text, char separator) {
    const std::size_t first = text.find(separator);
    if (first == 0 || first > 3 || text[0] == '0') {
        return false;
    }
    const std::string_view rest = text.substr(first);
    if (rest.size() % 4 != 0) {
        return false;
    }
    for (std::size_t i = 0; i < rest.size(); ++i) {
        if (i % 4 == 0 ? rest[i] != separator : !is_digit(rest[i])) {
            return false;
        }
    }
    return true;
}

std::string without(std::string_view text, char separator) {
    std::string kept(text);
    std::erase(kept, separator);
    return kept;
}

/// Digits with points and commas to digits with at most one point.
Result<std::string> settle_separators(std::string_view text) {
    const auto points = std::ranges::count(text, '.');
    const auto commas = std::ranges::count(text, ',');
    const auto wrong = [&] { return fail(quote(text) + " is not a number", {}, "Write it like 1234.5"); };
    if (points <= 1 && commas == 0) {
        return std::string(text);
    }
    if (points > 0 && commas > 0) {
        const char decimal = text.rfind('.') > text.rfind(',') ? '.' : ',';
        const char group = decimal == '.' ? ',' : '.';
        const std::size_t at = text.rfind(decimal);
        if (text.find(decimal) != at || !groups_of_three(text.substr(0, at), group)) {
            return wrong();
        }
        return without(text.substr(0, at), group) + "." + std::string(text.substr(at + 1));
    }
    const char separator = commas > 0 ? ',' : '.';
    const bool grouped = groups_of_three(text, separator);
    if (points + commas > 1) {
        return grouped ? Result<std::string>(without(text, separator)) : Result<std::string>(wrong());
    }
    std::string pointed(text);
    std::ranges::replace(pointed, ',', '.');
    if (grouped) {
        return fail(quote(text) + " can be read in two ways", {},
                    "Write " + without(text, ',') + " or " + pointed);
    }
    return pointed;
}

/// Reads terms from plain text, left to right.
class TermReader {
  public:
    explicit TermReader(std::string_view text) : text_(text) {}

    Result<std::vector<Term>> read() {
        skip_spaces();
        const bool negative = peek() == '-';
        if (peek() == '-' || peek() == '+') {
            ++at_;
            skip_spaces();
        }
        std::vector<Term> terms;
        while (at_ < text_.size()) {
            const auto value = number();
            if (!value) {
                return tl::unexpected(value.error());
            }
            terms.push_back({negative ? -*value : *value, unit()});
        }
        if (terms.empty()) {
            return fail("There is no number");
        }
        return terms;
    }

  private:
    [[nodiscard]] char peek(std::size_t ahead = 0) const {
        return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
    }

    void skip_spaces() {
        while (is_space(peek())) {
            ++at_;
        }
    }

    std::string_view digits() {
        const std::size_t begin = at_;
        while (is_digit(peek())) {
            ++at_;
        }
        return text_.substr(begin, at_ - begin);
    }

    Result<double> number() {
        const std::size_t begin = at_;
        while (is_digit(peek()) || ((peek() == '.' || peek() == ',') && is_digit(peek(1)))) {
            ++at_;
        }
        const std::string_view written = text_.substr(begin, at_ - begin);
        if (written.empty()) {
            return fail(quote(text_.substr(begin)) + " is not a number");
        }
        if (std::ranges::all_of(written, is_digit)) {
            if (const auto with_fraction = fraction_after(written)) {
                return *with_fraction;
            }
        }
        const auto settled = settle_separators(written);
        return settled ? value_of(*settled + exponent()) : tl::unexpected(settled.error());
    }

    /// With a point or comma at its end a number reads as without; else "e5" or nothing.
    std::string exponent() {
        if (peek() == '.' || peek() == ',') {
            ++at_;
        }
        const std::size_t begin = at_;
        if (peek() != 'e' && peek() != 'E') {
            return {};
        }
        ++at_;
        const bool negative = peek() == '-';
        if (peek() == '-' || peek() == '+') {
            ++at_;
        }
        const std::string_view power = digits();
        if (power.empty()) {
            at_ = begin;
            return {};
        }
        return (negative ? "e-" : "e") + std::string(power);
    }

    Result<double> value_of(const std::string& text) const {
        double value = 0;
        const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
        if (read.ec != std::errc{} || read.ptr != text.data() + text.size() || !std::isfinite(value)) {
            return fail(quote(text) + " is beyond what a number can hold");
        }
        return value;
    }

    /// The rest of "3/4" after the 3, or of "1 1/2" and "1-1/2" after the 1; nothing when no fraction
    /// follows.
    std::optional<Result<double>> fraction_after(std::string_view whole) {
        const std::size_t begin = at_;
        std::string_view above = whole;
        if (peek() != '/') {
            skip_spaces();
            if (peek() == '-') {
                ++at_;
            }
            above = at_ > begin ? digits() : std::string_view{};
        }
        if (above.empty() || peek() != '/' || !is_digit(peek(1))) {
            at_ = begin;
            return std::nullopt;
        }
        ++at_;
        const auto top = value_of(std::string(above));
        const auto bottom = value_of(std::string(digits()));
        const auto base = above.data() == whole.data() ? Result<double>(0.0) : value_of(std::string(whole));
        if (!top || !bottom || !base || *bottom == 0) {
            return fail(quote(text_) + " holds a fraction that has no value");
        }
        return *base + *top / *bottom;
    }

    std::string unit() {
        std::string written;
        while (at_ < text_.size()) {
            const char c = text_[at_];
            const bool next_number = is_digit(c) || (c == '.' && is_digit(peek(1)));
            if (next_number &&
                (is_space(text_[at_ - 1]) || written.ends_with('\'') || written.ends_with('-'))) {
                break;
            }
            ++at_;
            if (!is_space(c) && c != '.' && c != '^') {
                written += c;
            }
        }
        if (written == "'-") {
            written = "'";
        }
        return written;
    }

    std::string_view text_;
    std::size_t at_ = 0;
};

}  // namespace

std::string plain_text(std::string_view text) {
    std::string plain;
    for (std::size_t at = 0; at < text.size();) {
        const std::string_view rest = text.substr(at);
        const auto match = std::ranges::find_if(
            typeset, [&](const Typeset& sign) { return rest.starts_with(sign.written); });
        if (match != typeset.end()) {
            plain += match->plain;
            at += match->written.size();
        } else {
            plain += text[at++];
        }
    }
    const auto last = std::ranges::find_if_not(plain.rbegin(), plain.rend(), is_space);
    plain.erase(last.base(), plain.end());
    return plain;
}

Result<std::vector<Term>> read_terms(std::string_view plain) {
    return TermReader(plain).read();
}

double round_to_digits(double value, int digits) {
    std::array<char, 48> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value,
                                   std::chars_format::scientific, digits - 1);
    double rounded = value;
    std::from_chars(text.data(), end.ptr, rounded);
    return rounded;
}

std::string quote(std::string_view text) {
    constexpr std::size_t longest = 40;
    if (text.size() <= longest) {
        return fmt::format("\"{}\"", text);
    }
    std::size_t end = longest;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) {
        --end;
    }
    return fmt::format("\"{}...\"", text.substr(0, end));
}

}  // namespace gasp
