// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/show_file.hpp"

#include "core/show/validity.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

// What is read has no breach, and what is written of it reads back the same and is written the same again;
// what is refused says what to do.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(data, data + size);
    const auto show = gasp::read_show(text, "fuzzed.gasp");
    if (!show) {
        if (show.error().where.empty() || show.error().what.empty() || show.error().remedy.empty()) {
            std::abort();
        }
        return 0;
    }
    const std::string written = gasp::write_show(*show);
    const auto again = gasp::read_show(written, "written.gasp");
    if (!gasp::breaches(*show).empty() || !again || *again != *show || gasp::write_show(*again) != written) {
        std::abort();
    }
    return 0;
}
