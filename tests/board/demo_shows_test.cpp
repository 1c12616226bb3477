// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/show_file.hpp"
#include "core/link/conversation.hpp"
#include "core/table/board_image.hpp"
#include "tests/board/chip_stream.hpp"
#include "tests/board/figure.hpp"
#include "tests/board/playing.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <filesystem>

using namespace gasp;
using namespace gasp::board_test;

namespace {

std::vector<Show> demo_shows() {
    std::vector<Show> shows;
    for (const auto& entry : std::filesystem::directory_iterator(GASPWORKS_SOURCE_DIR "/demo-shows")) {
        if (entry.path().extension() == ".gasp") {
            shows.push_back(load_show(entry.path()).value());
        }
    }
    return shows;
}

std::vector<EventTable> tables_in(const Show& show) {
    std::vector<EventTable> tables;
    for (const Sequence& sequence : show.sequences) {
        tables.push_back(tabulate(show, sequence, resolve(show, sequence)));
    }
    return tables;
}

/// What a board is to do of a sequence, from the table's rows alone: the changes between its blocks of rest.
TestSequence expected_of(const EventTable& table, const std::string& board) {
    TestSequence sequence;
    const auto rest = static_cast<std::ptrdiff_t>(table.channels.size());
    std::for_each(table.rows.begin() + rest, table.rows.end() - rest, [&](const EventRow& row) {
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
    return sequence;
}

Bytes bytes_of_text(const std::string& text) {
    return {text.begin(), text.end()};
}

/// The image of a board with nothing but one of its sequences, started by the trigger at once.
BoardImage alone(BoardImage image, std::size_t sequence) {
    image.sequences = {image.sequences[sequence]};
    image.sequences[0].kind = SequenceKind::triggered;
    image.start = BoardStart::trigger;
    image.hold_to_run = image.waits_for_rearm = false;
    image.warm_up = 0;
    return image;
}

}  // namespace

TEST_CASE("Every sequence of every demo show plays on the chip as its table says") {
    std::size_t edges = 0;
    std::size_t played = 0;
    double most = 0.0;
    for (const Show& show : demo_shows()) {
        const auto tables = tables_in(show);
        for (const Board& board : show.rig.boards) {
            const BoardImage whole = image_of(show, tables, board.id).value();
            for (std::size_t i = 0; i < tables.size(); ++i) {
                const BoardImage image = alone(whole, i);
                const TestSequence expected = expected_of(tables[i], board.name);
                const auto tick_us = static_cast<double>(image.tick.count());
                SimulatedChip chip(bytes_of_text(write_image(image)));
                chip.run_ms(SimulatedChip::boot_ms);
                chip.forget_changes();
                const double zero = chip.now_us() + image.debounce * tick_us;
                chip.trip((image.debounce + 2) * tick_us);
                chip.run((image.sequences[0].length + 10) * tick_us);
                const Comparison result = compare(chip, expected, zero, tick_us);
                CAPTURE(show.name, tables[i].sequence, board.name);
                CHECK(result.wrong == 0);
                CHECK(result.edges == expected.events.size());
                if (result.edges > 0) {
                    CHECK(result.least_us >= 0.0);
                    CHECK(result.most_us <= 200.0);
                    most = std::max(most, result.most_us);
                }
                edges += result.edges;
                ++played;
            }
        }
    }
    CHECK(edges > 0);
    figure("demo shows: {} sequences on a board, {} edges, none wrong, at most {:.1f} us after the table",
           played, edges, most);
}

TEST_CASE("The program's own conversation loads a demo show into the chip, reads it back and runs it") {
    for (const Show& show : demo_shows()) {
        const auto tables = tables_in(show);
        const Board& board = show.rig.boards.at(0);
        const std::string image = write_image(image_of(show, tables, board.id).value());
        SimulatedChip chip;
        chip.write_flash_in(9000.0);
        ChipStream stream(chip);
        Conversation link(stream);
        REQUIRE(link.identify());
        REQUIRE(link.load(image));
        CHECK(link.read_image_back().value() == image);
        chip.write_flash_in(0.0);
        REQUIRE(link.arm());
        for (std::size_t i = 0; i < tables.size(); ++i) {
            chip.forget_changes();
            REQUIRE(link.run(static_cast<std::uint8_t>(i)));
            while (link.status().value().running()) {
                chip.run_ms(100);
            }
            const TestSequence expected = expected_of(tables[i], board.name);
            REQUIRE(chip.changes().size() == expected.events.size());
            if (!expected.events.empty()) {
                const double tick_us = static_cast<double>(tick_of(show, show.rig.channels.at(0)).count());
                // The run began on a tick, 40 us or so before the first edge less its time.
                const double zero = chip.changes()[0].us - 20.0 - expected.events[0].tick * tick_us;
                const Comparison result = compare(chip, expected, zero, tick_us);
                CHECK(result.wrong == 0);
                CHECK(result.most_us - result.least_us < 200.0);
            }
        }
        CHECK(link.read_log().value().size() >= tables.size());
    }
}
