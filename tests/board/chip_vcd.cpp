// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/simulated_chip.hpp"

#include <cstdlib>
#include <fstream>
#include <iostream>
#include <iterator>

// Usage: chip_vcd IMAGE SECONDS OUT.vcd -- plays an image in the simulated chip, tripped for 100 ms as the
// recording begins.
int main(int argc, char** argv) {
    using namespace gasp::board_test;
    if (argc != 4) {
        std::cerr << "usage: chip_vcd IMAGE SECONDS OUT.vcd\n";
        return 2;
    }
    std::ifstream file(argv[1], std::ios::binary);
    const Bytes image{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    SimulatedChip chip(image);
    chip.run_ms(SimulatedChip::boot_ms);
    chip.record(argv[3]);
    chip.run_ms(1);
    chip.trip(100'000.0);
    chip.run_ms(std::atof(argv[2]) * 1000.0);
    chip.record_no_more();
    return 0;
}
