// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/json.hpp"

#include <cstdint>
#include <cstdlib>

// Whatever is read can be written, and reads back the same.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gasp;
    const auto tables = read_json({reinterpret_cast<const char*>(data), size}, "fuzz.json");
    if (!tables) {
        return 0;
    }
    const auto again = read_json(write_json(*tables), "again.json");
    // The name of the show stands in its tables: a text without any has lost it.
    if (!again || *again != *tables) {
        std::abort();
    }
    return 0;
}
