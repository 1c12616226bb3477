// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/table/event_table.hpp"
#include "core/units/error.hpp"

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

// What a board plays, as resources/board-player/image.md describes it.

inline constexpr std::size_t most_image_outputs = 32;
inline constexpr std::size_t most_image_sequences = 16;

/// One output of an image.
struct ImageOutput {
    bool low = false;              ///< its pin is low when it is driven
    bool normally_closed = false;  ///< a note on its load
    bool used = false;             ///< a channel hangs on it
    bool operator==(const ImageOutput&) const = default;
};

/// One change, in ticks from the start of the run.
struct ImageEvent {
    std::uint32_t tick = 0;
    std::uint8_t output = 0;
    bool driven = false;
    bool operator==(const ImageEvent&) const = default;
};

struct ImageSequence {
    SequenceId id;
    SequenceKind kind = SequenceKind::triggered;
    std::uint32_t length = 0;   ///< in ticks
    std::uint32_t lockout = 0;  ///< likewise
    std::string name;           ///< as much of it as the image holds
    std::vector<ImageEvent> events;
    bool operator==(const ImageSequence&) const = default;
};

/// An image taken apart; times are in ticks.
struct BoardImage {
    bool trigger_high = false;
    bool in_turn = false;
    bool hold_to_run = false;
    bool waits_for_rearm = false;
    std::uint32_t revision = 0;
    BoardId board;
    Micros tick{1000};
    std::uint32_t warm_up = 0;
    std::uint16_t debounce = 1;
    BoardStart start = BoardStart::trigger;
    std::string name;  ///< of the board, as much of it as the image holds
    std::vector<ImageOutput> outputs;
    std::vector<ImageSequence> sequences;
    bool operator==(const BoardImage&) const = default;
};

/// The bytes of an image.
[[nodiscard]] std::string write_image(const BoardImage& image);

/// So many it has.
[[nodiscard]] std::size_t bytes_of(const BoardImage& image);

/// Takes an image apart, refusing everything that a player refuses whatever its chip, and bits that mean
/// nothing. Error: `where` is "<name>, byte <offset>".
[[nodiscard]] Result<BoardImage> read_image(std::string_view bytes, std::string_view name);

/// CRC-32/ISO-HDLC of so many bytes.
[[nodiscard]] std::uint32_t crc32_of(std::string_view bytes);

/// The image of one board of a show, from the tables of the sequences it shall hold. Error: the board has no
/// channel, a channel has no output or one the board lacks, two channels share one, the image cannot hold
/// something, or it is longer than Board::table_bytes, with what would fit.
[[nodiscard]] Result<BoardImage> image_of(const Show& show, std::span<const EventTable> tables,
                                          BoardId board);

/// The tables an image came from, with what it does not hold (names and ids of channels, the exact length)
/// from the show: what of_board() gives. Error: `image` is not of a board of this show, or has an output,
/// sequence, contact, tick or length that differs there.
[[nodiscard]] Result<std::vector<EventTable>> tables_of(const BoardImage& image, const Show& show);

/// The tables an image holds when no show is at hand: its channels are called "output 3" and numbered alike,
/// lengths are whole ticks.
[[nodiscard]] std::vector<EventTable> tables_of(const BoardImage& image);

}  // namespace gasp
