// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/c_header.hpp"

#include <cstdint>
#include <cstdlib>

// Whatever is read can be written, and reads back the same.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gasp;
    const auto tables = read_c_header({reinterpret_cast<const char*>(data), size}, "fuzz.h");
    if (!tables) {
        return 0;
    }
    const auto text = write_c_header(*tables);
    const auto again = text ? read_c_header(*text, "again.h") : tables;
    if (!text || !again || *again != *tables) {
        std::abort();
    }
    return 0;
}
