// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/csv.hpp"

#include <cstdint>
#include <cstdlib>

// Whatever is read can be written, and reads back the same.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gasp;
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const Result<std::vector<EventTable>> tables = read_csv(text, "fuzz.csv");
    if (!tables) {
        return 0;
    }
    const Result<std::vector<EventTable>> again = read_csv(write_csv(*tables), "again.csv");
    if (!again || *again != *tables) {
        std::abort();
    }
    const Result<std::vector<EventTable>> bare =
        read_csv(write_csv(*tables, {.comments = false}), "bare.csv");
    if (!bare || bare->size() > tables->size()) {
        std::abort();
    }
    return 0;
}
