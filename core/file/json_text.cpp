// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/json_text.hpp"

namespace gasp {
namespace {

bool needs_escape(char c) {
    return static_cast<unsigned char>(c) < 0x20 || c == '"' || c == '\\';
}

}  // namespace

void JsonText::string(std::string_view text) {
    put("\"");
    std::size_t done = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (!needs_escape(text[i])) {
            continue;
        }
        put(text.substr(done, i - done));
        done = i + 1;
        if (static_cast<unsigned char>(text[i]) < 0x20) {
            constexpr std::string_view digits = "0123456789abcdef";
            const auto code = static_cast<unsigned char>(text[i]);
            const char escaped[] = {'\\', 'u', '0', '0', digits[code >> 4U], digits[code & 15U]};
            put({escaped, sizeof escaped});
        } else {
            const char escaped[] = {'\\', text[i]};
            put({escaped, sizeof escaped});
        }
    }
    put(text.substr(done));
    put("\"");
}

}  // namespace gasp
