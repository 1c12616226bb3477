// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

// What a board says of itself (resources/board-player/protocol.md). Boards are not trusted: whatever does not
// fit together is refused, texts are plain ASCII.

/// Inputs a board has, or which of them are active, as bits.
enum class BoardInput : std::uint8_t {
    trigger = 1,
    output_enable = 2,
    rearm = 4,
    hold_to_run = 8,
    start_line = 16
};

struct BoardIdentity {
    std::uint16_t player_version = 0;  ///< 0x0100 is 1.0
    std::uint8_t outputs = 0;
    std::uint8_t inputs = 0;  ///< bits of BoardInput: those it has
    std::uint8_t chunk = 0;   ///< bytes it takes at once
    std::uint32_t store = 0;  ///< the longest image it takes
    std::uint8_t image = 0;   ///< 0 none, 1 good, else why it is bad: reason_words()
    // Of a good image; else 0:
    std::uint32_t image_bytes = 0;
    std::uint32_t image_crc = 0;
    std::uint32_t revision = 0;
    std::uint32_t board_id = 0;
    std::uint16_t power_ups = 0;
    std::string chip;
    bool operator==(const BoardIdentity&) const = default;
};

enum class BoardState : std::uint8_t {
    no_image,
    loading,
    ready,
    running_triggered,
    running_idle,
    running_by_hand,
    stopped_output_enable,  ///< the output-enable input is open
    stopped_wants_rearm,
    stopped_by_link,
    on_start_line,
};

struct BoardStatus {
    BoardState state = BoardState::no_image;
    std::uint8_t sequence = 0xFF;     ///< index of the one that runs; 0xFF: none
    std::uint32_t tick = 0;           ///< of the run
    std::uint32_t run_clock_us = 0;   ///< the board's clock at the run's tick 0
    std::uint32_t clock_us = 0;       ///< the board's clock
    std::uint32_t driven = 0;         ///< bit 0 is the first output
    std::uint32_t lockout_ticks = 0;  ///< left
    std::uint32_t warm_up_ticks = 0;  ///< left
    std::uint8_t inputs = 0;          ///< bits of BoardInput: those that are active
    bool armed = false;
    std::uint8_t held = 0xFF;    ///< output held over the link; 0xFF: none
    std::uint32_t up_s = 0;      ///< since power-up
    std::uint32_t triggers = 0;  ///< since the log was cleared
    std::uint32_t refusals = 0;  ///< likewise
    std::uint32_t faults = 0;    ///< likewise
    [[nodiscard]] bool running() const {
        return state == BoardState::running_triggered || state == BoardState::running_idle ||
               state == BoardState::running_by_hand;
    }
    bool operator==(const BoardStatus&) const = default;
};

enum class LogKind : std::uint8_t {
    power_up = 1,
    trigger,
    refusal,
    fault,
    stopped,
    back_to_work,
    started_by_link,
    held_by_link,
    image_taken,
};

/// One entry of a board's log.
struct LogEntry {
    LogKind kind = LogKind::power_up;
    std::uint8_t detail = 0;
    std::uint32_t up_s = 0;  ///< seconds since the power-up before it
    bool operator==(const LogEntry&) const = default;
};

inline constexpr std::size_t identity_bytes = 44;
inline constexpr std::size_t status_bytes = 45;

/// Out of the bytes behind the result of an answer. Error: they are not what the protocol says; `port` is its
/// place.
[[nodiscard]] Result<BoardIdentity> read_identity(std::span<const std::uint8_t> bytes,
                                                  const std::string& port);
[[nodiscard]] Result<BoardStatus> read_status(std::span<const std::uint8_t> bytes, const std::string& port);
/// A part of the log: `kept` is how many entries there are.
struct LogPart {
    std::uint16_t kept = 0;
    std::vector<LogEntry> entries;
};
[[nodiscard]] Result<LogPart> read_log_part(std::span<const std::uint8_t> bytes, const std::string& port);

/// "running: triggered", as the screen says it.
[[nodiscard]] std::string_view words(BoardState state);
/// "trigger refused: lockout", "power-up: brown-out".
[[nodiscard]] std::string words(const LogEntry& entry);
/// Why an image is bad, by the reason a board gives: "its CRC is wrong".
[[nodiscard]] std::string_view reason_words(std::uint8_t reason);

}  // namespace gasp
