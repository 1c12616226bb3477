// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/show_file.hpp"
#include "tests/core/file/every_field.hpp"
#include "tests/support/random_show.hpp"

#include <rapidcheck.h>

#include <cstdio>
#include <filesystem>
#include <string>

// Usage: write_shows FOLDER. Fills the folder with shows as we write them: one of every field, an empty one
// and a hundred random ones.
int main(int argc, char** argv) {
    using namespace gasp;
    if (argc != 2) {
        return 2;
    }
    const std::filesystem::path folder = argv[1];
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
    bool saved = save_show(testing::every_field(), folder / "every_field.gasp").has_value() &&
                 save_show(empty_show(), folder / "empty.gasp").has_value();
    int number = 0;
    saved = rc::check([&] {
                const auto path = folder / ("random_" + std::to_string(number++) + ".gasp");
                RC_ASSERT(save_show(*testing::random_show(), path).has_value());
            }) &&
            saved;
    std::printf("%d shows written\n", number + 2);
    return saved ? 0 : 1;
}
