// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/figure.hpp"
#include "tests/board/link_client.hpp"
#include "tests/board/playing.hpp"
#include "tests/support/catch.hpp"

#include <fstream>
#include <map>
#include <string>

using namespace gasp::board_test;

namespace {

/// The sizes of the sections, as avr-size -A wrote them.
std::map<std::string, unsigned> sections(const std::string& firmware) {
    std::ifstream file(firmware + "/board.size");
    std::map<std::string, unsigned> sizes;
    for (std::string line; std::getline(file, line);) {
        if (!line.empty() && line[0] == '.') {
            const auto end = line.find(' ');
            sizes[line.substr(0, end)] = static_cast<unsigned>(std::stoul(line.substr(end)));
        }
    }
    return sizes;
}

struct Size {
    explicit Size(const std::string& firmware) {
        auto size = sections(firmware);
        flash = size[".text"] + size[".data"] + size[".bootloader"];
        ram = size[".data"] + size[".bss"] + size[".noinit"];
    }
    unsigned flash = 0;
    unsigned ram = 0;
};

}  // namespace

TEST_CASE(
    "The player takes less than 8 KB of flash with its link, and its stack stays far from what it keeps") {
    const Size size(GASPWORKS_BOARD_FIRMWARE);
    const TestImage image = image_of(busy_sequence(500, 2, 8));
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
    CHECK(size.flash > 0);
    CHECK(size.flash < 8192);
    CHECK(size.ram < 512);
    CHECK(size.ram + stack < 1024);  // of 2048
    figure("player with its link: flash {} bytes, RAM {} bytes and {} of stack at the deepest seen",
           size.flash, size.ram, stack);
}

// By the compiler of Debian 12; another one makes other sizes.
TEST_CASE("The sizes that the player's page names are those that come out") {
    const Size whole(GASPWORKS_BOARD_FIRMWARE);
    const Size bare(GASPWORKS_BOARD_FIRMWARE_WITHOUT_LINK);
    std::ifstream file(GASPWORKS_BOARD_PLAYER "/README.md");
    const std::string page{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    CHECK_THAT(page, Catch::Contains(
                         fmt::format("{} bytes of flash and {} bytes of RAM, without the link {} and {};",
                                     whole.flash, whole.ram, bare.flash, bare.ram)));
}

TEST_CASE("Without its link the player takes less, and plays as well") {
    const Size size(GASPWORKS_BOARD_FIRMWARE_WITHOUT_LINK);
    CHECK(size.flash > 0);
    CHECK(size.flash < Size(GASPWORKS_BOARD_FIRMWARE).flash - 2048);
    CHECK(size.ram < 512);
    figure("player without its link: flash {} bytes, RAM {} bytes", size.flash, size.ram);
    const TestImage image = image_of(busy_sequence(100, 5, 8));
    SimulatedChip chip(image.bytes(), GASPWORKS_BOARD_FIRMWARE_WITHOUT_LINK);
    chip.run_ms(SimulatedChip::boot_ms);
    chip.forget_changes();
    const double zero = chip.now_us() + 2000.0;
    chip.trip();
    chip.run_ms(600);
    const Comparison result = compare(chip, image.sequences[0], zero, 1000.0);
    CHECK(result.wrong == 0);
    CHECK(result.edges == 100);
    CHECK(result.most_us <= 200.0);
}
