// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/show_file.hpp"
#include "core/table/event_table.hpp"
#include "tests/board/figure.hpp"
#include "tests/board/playing.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <filesystem>
#include <map>

using namespace gasp;
using namespace gasp::board_test;

namespace {

/// What one board plays of a sequence, from the table's rows: the changes between its two blocks of rest.
TestImage image_for(const EventTable& table, const std::string& board) {
    TestImage image;
    image.outputs.assign(12, 0);
    TestSequence sequence;
    sequence.name = table.sequence;
    for (const TableChannel& channel : table.channels) {
        if (channel.board == board && channel.output) {
            image.outputs.at(*channel.output - 1) = TestImage::output_used;
            image.tick_us = static_cast<std::uint32_t>(channel.tick.count());
        }
    }
    const auto ends = static_cast<std::ptrdiff_t>(table.channels.size());
    std::for_each(table.rows.begin() + ends, table.rows.end() - ends, [&](const EventRow& row) {
        const TableChannel& channel = table.channels[row.channel];
        if (channel.board == board && channel.output) {
            sequence.events.push_back({static_cast<std::uint32_t>(row.time.count() / channel.tick.count()),
                                       static_cast<std::uint8_t>(*channel.output - 1),
                                       static_cast<std::uint8_t>(row.driven ? 1 : 0)});
        }
    });
    std::ranges::sort(sequence.events, [](const TestEvent& a, const TestEvent& b) {
        return a.tick != b.tick ? a.tick < b.tick : a.output < b.output;
    });
    sequence.length = static_cast<std::uint32_t>((table.length.count() + image.tick_us - 1) / image.tick_us);
    image.sequences = {sequence};
    return image;
}

}  // namespace

TEST_CASE("Every sequence of every demo show plays on the chip as its table says") {
    std::size_t edges = 0;
    std::size_t tables = 0;
    double most = 0.0;
    for (const auto& entry : std::filesystem::directory_iterator(GASPWORKS_SOURCE_DIR "/demo-shows")) {
        if (entry.path().extension() != ".gasp") {
            continue;
        }
        const auto show = load_show(entry.path());
        REQUIRE(show);
        for (const Sequence& sequence : show->sequences) {
            const EventTable table = tabulate(*show, sequence, resolve(*show, sequence));
            for (const Board& board : show->rig.boards) {
                const TestImage image = image_for(table, board.name);
                SimulatedChip chip(image.bytes());
                chip.run_ms(SimulatedChip::boot_ms);
                chip.forget_changes();
                const double zero = chip.now_us() + image.debounce * static_cast<double>(image.tick_us);
                chip.trip();
                chip.run((image.sequences[0].length + 10.0) * image.tick_us);
                const Comparison result = compare(chip, image.sequences[0], zero, image.tick_us);
                CAPTURE(entry.path().filename(), sequence.name, board.name);
                CHECK(result.wrong == 0);
                CHECK(result.edges == image.sequences[0].events.size());
                if (result.edges > 0) {
                    CHECK(result.least_us >= 0.0);
                    CHECK(result.most_us <= 200.0);
                    most = std::max(most, result.most_us);
                }
                edges += result.edges;
                ++tables;
            }
        }
    }
    CHECK(tables > 0);
    CHECK(edges > 0);
    figure("demo shows: {} tables of a board, {} edges, none wrong, at most {:.1f} us after the table",
           tables, edges, most);
}
