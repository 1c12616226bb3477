// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/figure.hpp"
#include "tests/board/link_client.hpp"
#include "tests/support/catch.hpp"

#include <fstream>
#include <map>
#include <string>

using namespace gasp::board_test;

namespace {

/// The sizes of the sections, as avr-size -A wrote them.
std::map<std::string, unsigned> sections() {
    std::ifstream file(GASPWORKS_BOARD_SIZE);
    std::map<std::string, unsigned> sizes;
    for (std::string line; std::getline(file, line);) {
        if (!line.empty() && line[0] == '.') {
            const auto end = line.find(' ');
            sizes[line.substr(0, end)] = static_cast<unsigned>(std::stoul(line.substr(end)));
        }
    }
    return sizes;
}

}  // namespace

TEST_CASE("The player is as small as promised, its stack included") {
    auto size = sections();
    const unsigned flash = size[".text"] + size[".data"] + size[".bootloader"];
    const unsigned ram = size[".data"] + size[".bss"] + size[".noinit"];
    CHECK(size[".text"] + size[".data"] <= GASPWORKS_BOARD_STORE_AT);

    TestImage image = image_of(busy_sequence(500, 2, 8));
    SimulatedChip chip(image.bytes());
    LinkClient link(chip);
    chip.run_ms(SimulatedChip::boot_ms);
    chip.trip();
    for (int i = 0; i < 30; ++i) {
        link.ask(Ask::status);
        link.ask(Ask::identify);
        (void)read_log(link);
        chip.trip(3'000.0);
    }
    chip.run_ms(2000);
    REQUIRE(link.load(image.bytes()) == 0);
    link.ask(Ask::clear_log);
    const unsigned stack = chip.deepest_stack();
    CHECK(ram < 512);
    CHECK(ram + stack < 2048 - 512);
    figure("flash {} bytes, RAM {} bytes and {} of stack at the deepest seen", flash, ram, stack);
}
