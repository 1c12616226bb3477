// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "tests/board/simulated_chip.hpp"

#include <cstdint>
#include <optional>

namespace gasp::board_test {

/// The requests of resources/board-player/protocol.md.
enum class Ask : std::uint8_t {
    identify = 0x01,
    begin = 0x10,
    chunk = 0x11,
    commit = 0x12,
    read_back = 0x13,
    arm = 0x20,
    disarm = 0x21,
    hold = 0x22,
    run = 0x23,
    stop = 0x24,
    go_on = 0x25,
    status = 0x30,
    log = 0x31,
    clear_log = 0x32,
    echo = 0x33
};

struct Answer {
    std::uint8_t result = 0;
    Bytes more;  ///< behind the result

    [[nodiscard]] std::uint32_t u8(std::size_t at) const { return more.at(at); }
    [[nodiscard]] std::uint32_t u16(std::size_t at) const { return u8(at) | u8(at + 1) << 8; }
    [[nodiscard]] std::uint32_t u32(std::size_t at) const { return u16(at) | u16(at + 2) << 16; }
};

[[nodiscard]] Bytes u32_bytes(std::uint32_t value);
/// A frame as it goes on the line.
[[nodiscard]] Bytes frame_of(std::uint8_t version, std::uint8_t type, std::uint8_t sequence,
                             const Bytes& payload);
/// The frame in bytes off the line, as version, type, sequence and payload; empty if it is none.
[[nodiscard]] Bytes frame_in(const Bytes& line);

/// Speaks to a simulated chip, a request at a time and without repeating any.
class LinkClient {
  public:
    explicit LinkClient(SimulatedChip& chip) : chip_(chip) {}

    /// Empty: no answer within the time.
    std::optional<Answer> try_ask(Ask type, const Bytes& payload = {}, double most_us = 250'000.0);
    /// Throws when there is no answer.
    Answer ask(Ask type, const Bytes& payload = {}, double most_us = 3'000'000.0);
    /// The last request once more, as if its answer had been lost.
    Answer ask_again();

    /// Begins, sends every chunk from where the board is and commits; the result of the commit.
    std::uint8_t load(const Bytes& image);
    /// Begins and sends at most so many chunks.
    void load_part(const Bytes& image, unsigned chunks);
    Bytes read_back(std::uint32_t length);
    /// Arms; the token, as payload.
    Bytes arm();

  private:
    Answer exchange();

    SimulatedChip& chip_;
    std::uint8_t sequence_ = 100;
    Bytes last_;
};

/// An entry of the log.
struct Entry {
    std::uint32_t kind = 0;
    std::uint32_t detail = 0;
    std::uint32_t seconds = 0;
};
[[nodiscard]] std::vector<Entry> read_log(LinkClient& link);

/// Where things stand in the answer to status, without its result.
namespace status {
constexpr std::size_t state = 0, sequence = 1, tick = 2, begun = 6, now = 10, driven = 14, lockout = 18;
constexpr std::size_t warm_up = 22, inputs = 26, armed = 27, held = 28, seconds = 29, triggers = 33;
constexpr std::size_t refusals = 37, faults = 41;
}  // namespace status

}  // namespace gasp::board_test
