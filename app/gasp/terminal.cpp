// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/terminal.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <cstring>

namespace gasp {

namespace {

struct CodePoint {
    std::uint32_t value = 0;
    std::size_t bytes = 1;
    bool good = false;
};

/// The first code point of a text that is not empty (RFC 3629).
CodePoint first_of(std::string_view text) {
    const auto byte = [&](std::size_t index) { return static_cast<std::uint8_t>(text[index]); };
    const std::uint8_t lead = byte(0);
    if (lead < 0x80) {
        return {lead, 1, true};
    }
    const std::size_t bytes = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : 2;
    if (lead < 0xc2 || lead > 0xf4 || text.size() < bytes) {
        return {};
    }
    std::uint32_t value = lead & (0x7fU >> bytes);
    for (std::size_t index = 1; index < bytes; ++index) {
        if ((byte(index) & 0xc0U) != 0x80) {
            return {};
        }
        value = value << 6U | (byte(index) & 0x3fU);
    }
    constexpr std::uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    const bool good = value >= least[bytes] && value <= 0x10ffff && (value < 0xd800 || value > 0xdfff);
    return good ? CodePoint{value, bytes, true} : CodePoint{};
}

bool is_plain(std::uint32_t value) {
    const bool control = value < 0x20 || (value >= 0x7f && value < 0xa0);
    const bool turns_writing = value == 0x200e || value == 0x200f || (value >= 0x2028 && value <= 0x202e) ||
                               (value >= 0x2066 && value <= 0x2069);
    return !control && !turns_writing;
}

}  // namespace

std::string printable(std::string_view text) {
    std::string result;
    while (!text.empty()) {
        const CodePoint point = first_of(text);
        if (point.good && is_plain(point.value)) {
            result += text.substr(0, point.bytes);
        } else {
            for (const char byte : text.substr(0, point.bytes)) {
                result += fmt::format("\\x{:02x}", static_cast<std::uint8_t>(byte));
            }
        }
        text.remove_prefix(point.bytes);
    }
    return result;
}

std::string printable_lines(std::string_view text) {
    std::string result;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        std::string_view line = text.substr(0, end);
        const bool ends_on_return = end < text.size() && line.ends_with('\r');
        line.remove_suffix(ends_on_return ? 1 : 0);
        result += printable(line);
        result += ends_on_return ? "\r\n" : end < text.size() ? "\n" : "";
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return result;
}

Result<void> write_to_standard_output(std::string_view whole) {
    const std::string shown = ::isatty(STDOUT_FILENO) == 1 ? printable_lines(whole) : std::string();
    std::string_view text = shown.empty() ? whole : std::string_view(shown);
    while (!text.empty()) {
        const ssize_t written = ::write(STDOUT_FILENO, text.data(), text.size());
        if (written < 0 && errno == EPIPE) {
            return {};
        }
        if (written < 0 && errno != EINTR) {
            return fail(std::strerror(errno), "standard output",
                        "Write to a place with room, or give -o FILE");
        }
        text.remove_prefix(written < 0 ? 0 : static_cast<std::size_t>(written));
    }
    return {};
}

void say(std::string_view message) {
    fmt::print(stderr, "gasp: {}\n", printable(message));
}

}  // namespace gasp
