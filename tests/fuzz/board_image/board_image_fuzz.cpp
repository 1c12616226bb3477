// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/board_image.hpp"
#include "core/table/image_listing.hpp"
#include "core/table/table_fault.hpp"

#include <cstdint>
#include <cstdlib>
#include <string>

// The bytes, with a CRC that is right: what is read is written the same, and makes sound tables.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gasp;
    std::string bytes(reinterpret_cast<const char*>(data), size);
    (void)read_image(bytes, "fuzz.bin");
    const std::uint32_t crc = crc32_of(bytes);
    for (unsigned byte = 0; byte < 4; ++byte) {
        bytes += static_cast<char>(crc >> (8 * byte));
    }
    const auto image = read_image(bytes, "fuzz.bin");
    (void)image_listing(bytes, 10'000);
    if (!image) {
        return 0;
    }
    for (const EventTable& table : tables_of(*image)) {
        if (end_fault(table) || change_fault(table)) {
            std::abort();
        }
    }
    const auto again = read_image(write_image(*image), "again.bin");
    if (!again || *again != *image) {
        std::abort();
    }
    return 0;
}
