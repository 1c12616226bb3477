// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/board_image.hpp"

#include "core/table/image_room.hpp"
#include "tests/core/table/random_tables.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <algorithm>

using namespace gasp;

namespace {

/// A show that an image holds: outputs within the board and each taken once, ticks within 0.1 ms to 250 ms.
Show playable_show() {
    Show show = random_show();
    if (show.rig.boards.empty()) {
        Board board;
        board.id = {1};
        board.name = "quay";
        show.rig.boards.push_back(board);
    }
    std::uint32_t output = 0;
    for (Board& board : show.rig.boards) {
        board.tick_ms = *rc::gen::element<Figure>(std::nullopt, 1.0, 0.5, 0.25, 0.1, 3.0, 20.0, 1.024);
    }
    for (Channel& channel : show.rig.channels) {
        output += *rc::gen::inRange<std::uint32_t>(1, 4);
        channel.output = output;
        channel.board = show.rig.boards[*rc::gen::inRange<std::size_t>(0, show.rig.boards.size())].id;
        channel.driven_level = *rc::gen::element(DrivenLevel::high, DrivenLevel::low);
    }
    show.rig.sensor.sharing = TriggerSharing::in_turn;
    show.rig.sensor.lockout_s = 28.0;
    for (Sequence& sequence : show.sequences) {
        sequence.kind = *rc::gen::element(SequenceKind::triggered, SequenceKind::idle, SequenceKind::by_hand);
    }
    return show;
}

Show quay() {
    Show show;
    show.name = "Keeper";
    Board& board = show.rig.boards.emplace_back();
    board.id = {7};
    board.name = "quay";
    board.outputs = 8.0;
    Channel lamp;
    lamp.id = {2};
    lamp.name = "lamp";
    lamp.board = BoardId{7};
    lamp.output = 3;
    show.rig.channels.push_back(lamp);
    lamp.id = {3};
    lamp.name = "lock";
    lamp.output = 1;
    lamp.contact = Contact::normally_closed;
    lamp.driven_level = DrivenLevel::low;
    show.rig.channels.push_back(lamp);
    Sequence& night = show.sequences.emplace_back();
    night.id = {9};
    night.name = "night";
    night.length = Micros{2'000'500};
    Cue cue;
    cue.id = {11};
    cue.channel = {2};
    cue.at = Micros{1'000'000};
    cue.length = Micros{500'000};
    night.cues.push_back(cue);
    cue.id = {12};
    cue.channel = {3};
    night.cues.push_back(cue);
    return show;
}

std::vector<EventTable> tables_of_show(const Show& show) {
    std::vector<EventTable> tables;
    for (const Sequence& sequence : show.sequences) {
        tables.push_back(tabulate(show, sequence, resolve(show, sequence)));
    }
    return tables;
}

Error image_error(const Show& show) {
    const Result<BoardImage> image = image_of(show, tables_of_show(show), {7});
    REQUIRE_FALSE(image);
    CHECK_FALSE(image.error().remedy.empty());
    return image.error();
}

}  // namespace

TEST_CASE("an image with its show gives back what its board has of the tables") {
    REQUIRE(rc::check("for any show a board can play", [] {
        const Show show = playable_show();
        const std::vector<EventTable> tables = random_tables(show);
        for (const Board& board : show.rig.boards) {
            const Result<BoardImage> image = image_of(show, tables, board.id);
            const auto here = [&](const Channel& channel) { return channel.board == board.id; };
            const bool plays = std::ranges::any_of(show.rig.channels, here) && !tables.empty();
            RC_ASSERT(image.has_value() == plays);
            if (!plays) {
                continue;
            }
            const std::string bytes = write_image(*image);
            RC_ASSERT(bytes.size() == bytes_of(*image));
            const Result<BoardImage> read = read_image(bytes, "t.bin");
            RC_ASSERT(read.has_value());
            RC_ASSERT(*read == *image);
            const Result<std::vector<EventTable>> back = tables_of(*read, show);
            RC_ASSERT(back.has_value());
            RC_ASSERT(back->size() == tables.size());
            for (std::size_t index = 0; index < tables.size(); ++index) {
                RC_ASSERT((*back)[index] == of_board(tables[index], board.name));
                RC_ASSERT(schedule_of((*back)[index]) == schedule_of(of_board(tables[index], board.name)));
            }
        }
    }));
}

TEST_CASE("every changed byte of an image is noticed") {
    const Show show = quay();
    const std::string bytes = write_image(image_of(show, tables_of_show(show), {7}).value());
    REQUIRE(read_image(bytes, "t.bin").has_value());
    for (std::size_t place = 0; place < bytes.size(); ++place) {
        for (const unsigned bit : {1U, 16U, 128U}) {
            std::string changed = bytes;
            changed[place] = static_cast<char>(static_cast<unsigned char>(changed[place]) ^ bit);
            CHECK_FALSE(read_image(changed, "t.bin"));
        }
    }
    for (std::size_t size = 0; size < bytes.size(); ++size) {
        CHECK_FALSE(read_image(std::string_view(bytes).substr(0, size), "t.bin"));
    }
    CHECK_FALSE(read_image(bytes + '\0', "t.bin"));
}

TEST_CASE("the bytes stand where image.md says") {
    Show show = quay();
    show.rig.sensor = {};
    show.rig.sensor.lockout_s = 28.0;
    show.rig.sensor.warm_up_s = 60.0;
    show.rig.sensor.trigger_level = TriggerLevel::high;
    const std::string bytes = write_image(image_of(show, tables_of_show(show), {7}).value());
    const auto u32 = [&](std::size_t place) {
        std::uint32_t value = 0;
        for (std::size_t byte = 4; byte-- > 0;) {
            value = value << 8U | static_cast<unsigned char>(bytes[place + byte]);
        }
        return value;
    };
    CHECK(bytes.size() == 56 + 3 + 40 + 4 * 6 + 4);
    CHECK(bytes.substr(0, 8) == std::string("\xA7GTB\x01\x01\x03\x01", 8));
    CHECK(u32(8) == bytes.size());
    CHECK(u32(16) == 7);
    CHECK(u32(20) == 1000);
    CHECK(u32(24) == 60'000);
    CHECK(u32(28) == 20);  // debounce of 20 ms, no start line
    CHECK(bytes.substr(32, 5) == std::string("quay\0", 5));
    CHECK(bytes.substr(56, 3) == std::string("\x07\x00\x04", 3));  // lock: low, NC, used; none; lamp
    CHECK(u32(59) == 9);
    CHECK(u32(67) == 2001);  // the length, rounded up to the tick
    CHECK(u32(71) == 28'000);
    CHECK(u32(75) == 4);
    CHECK(u32(79) == 99);
    CHECK(bytes.substr(83, 6) == std::string("night\0", 6));
    CHECK(bytes.substr(99, 12) == std::string("\xE8\x03\x00\x00\x00\x01\xE8\x03\x00\x00\x02\x01", 12));
    CHECK(u32(123) == crc32_of(std::string_view(bytes).substr(0, 123)));
}

TEST_CASE("CRC-32/ISO-HDLC of 123456789 is the catalogue's") {
    // Greg Cook, Catalogue of parametrised CRC algorithms, CRC-32/ISO-HDLC, check.
    CHECK(crc32_of("123456789") == 0xCBF43926);
}

TEST_CASE("a board that lacks the room is told by how much, and what would fit") {
    Show show = quay();
    show.rig.boards[0].table_bytes = 127.0;
    CHECK(image_of(show, tables_of_show(show), {7}).has_value());
    show.rig.boards[0].table_bytes = 120.0;
    const Error error = image_error(show);
    CHECK(error.where == "board \"quay\"");
    CHECK(error.what == "the table takes 127 bytes and it has room for 120: 7 too many");
    CHECK(error.remedy.find("2 of its 4 events would fit") == 0);
    show.rig.boards[0].table_bytes = 90.0;
    CHECK(image_error(show).remedy.find("Not even") == 0);
}

TEST_CASE("the room a table takes is known without its image, and is that of the image") {
    REQUIRE(rc::check([] {
        const Show show = playable_show();
        const auto tables = tables_of_show(show);
        for (const Board& board : show.rig.boards) {
            const Result<BoardImage> image = image_of(show, tables, board.id);
            const ImageRoom room = image_room(show, tables, board);
            if (image) {
                RC_ASSERT(room.bytes == bytes_of(*image));
                RC_ASSERT(room.bytes == write_image(*image).size());
            }
        }
    }));
}

TEST_CASE("an image holds no tick longer than its page allows") {
    Show show = quay();
    show.rig.boards[0].tick_ms = 250.0;
    CHECK(image_of(show, tables_of_show(show), {7}).has_value());
    show.rig.boards[0].tick_ms = 251.0;
    CHECK(image_error(show).what == "its tick is not 0.1 ms to 250 ms");
}

TEST_CASE("what a board cannot play is refused by name") {
    Show show = quay();
    SECTION("an output the board lacks") {
        show.rig.channels[0].output = 9;
        CHECK(image_error(show).what == "channel \"lamp\" is on output 9, and the board has 8");
    }
    SECTION("an output no player has") {
        show.rig.boards[0].outputs.reset();
        show.rig.channels[0].output = 33;
        CHECK(image_error(show).what == "channel \"lamp\" is on output 33, and a board plays 1 to 32");
    }
    SECTION("one output for two channels, whose events would fall into one tick") {
        show.rig.channels[0].output = 1;
        CHECK(image_error(show).what == "channels \"lamp\" and \"lock\" are both on output 1");
    }
    SECTION("cues without an output") {
        show.rig.channels[0].output.reset();
        CHECK(image_error(show).what == "channel \"lamp\" has cues and no output");
    }
    SECTION("no channel at all") {
        show.rig.channels[0].board.reset();
        show.rig.channels[1].board.reset();
        CHECK(image_error(show).what == "no channel has an output of this board");
    }
    SECTION("several triggered sequences on one trigger, unless in turn") {
        show.sequences.push_back(show.sequences[0]);
        show.sequences[1].id = {10};
        show.sequences[1].name = "day";
        CHECK(image_error(show).what == "it has one trigger for several triggered sequences");
        show.rig.sensor.sharing = TriggerSharing::in_turn;
        CHECK(image_of(show, tables_of_show(show), {7}).has_value());
    }
    SECTION("a start line that nobody leads") {
        show.rig.boards[0].start = BoardStart::follows_line;
        CHECK(image_error(show).what == "0 boards lead a start line and 1 follow it");
    }
}

TEST_CASE("boards of one show have one revision, which differs when anything does") {
    Show show = quay();
    Board second = show.rig.boards[0];
    second.id = {8};
    second.name = "pier";
    show.rig.boards.push_back(second);
    show.rig.channels[1].board = BoardId{8};
    const auto revision = [](const Show& of, BoardId board) {
        return image_of(of, tables_of_show(of), board).value().revision;
    };
    const std::uint32_t before = revision(show, {7});
    CHECK(revision(show, {8}) == before);
    show.sequences[0].cues[1].length += Micros{1000};
    CHECK(revision(show, {7}) != before);
    CHECK(revision(show, {8}) == revision(show, {7}));
}

TEST_CASE("an image of another show is refused") {
    const Show show = quay();
    const BoardImage image = image_of(show, tables_of_show(show), {7}).value();
    Show other = show;
    other.rig.channels[0].contact = Contact::normally_closed;
    CHECK(tables_of(image, other).error().what == "it has another contact for channel \"lamp\"");
    other = show;
    other.rig.channels[0].output = 2;
    CHECK(tables_of(image, other).error().what == "it has no output for channel \"lamp\"");
    other = show;
    other.rig.boards[0].tick_ms = 2.0;
    CHECK(tables_of(image, other).error().what == "its tick is not that of \"quay\"");
    other = show;
    other.sequences[0].length += Micros{1000};
    CHECK(tables_of(image, other).error().what == "the show has no sequence \"night\" of its length");
    other = show;
    other.rig.boards[0].id = {70};
    CHECK(tables_of(image, other).error().what == "it is of a board that the show does not have");
}
