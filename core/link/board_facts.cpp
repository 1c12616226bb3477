// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/board_facts.hpp"

#include "core/link/wire.hpp"

#include "player/frame.h"

namespace gasp {

namespace {

constexpr std::size_t chip_bytes = 16;
constexpr std::uint8_t last_state = 9;
constexpr std::uint8_t last_kind = 9;
constexpr std::uint8_t most_outputs = 32;
constexpr std::uint8_t most_chunk = gb_frame_payload_most - 4;  // behind its offset

tl::unexpected<Error> nonsense(std::string_view of, const std::string& port) {
    return fail("what the board says of " + std::string(of) + " makes no sense", port,
                "Put the player of this program on it (resources/board-player)");
}

}  // namespace

Result<BoardIdentity> read_identity(std::span<const std::uint8_t> bytes, const std::string& port) {
    WireReader in(bytes);
    BoardIdentity facts;
    facts.player_version = in.u16();
    facts.outputs = in.u8();
    facts.inputs = in.u8();
    facts.chunk = in.u8();
    facts.store = in.u32();
    facts.image = in.u8();
    facts.image_bytes = in.u32();
    facts.image_crc = in.u32();
    facts.revision = in.u32();
    facts.board_id = in.u32();
    facts.power_ups = in.u16();
    facts.chip = in.text(chip_bytes);
    if (!in.at_end() || facts.outputs < 1 || facts.outputs > most_outputs || facts.chunk < 1 ||
        facts.chunk > most_chunk || facts.image_bytes > facts.store) {
        return nonsense("itself", port);
    }
    return facts;
}

Result<BoardStatus> read_status(std::span<const std::uint8_t> bytes, const std::string& port) {
    WireReader in(bytes);
    BoardStatus facts;
    const std::uint8_t state = in.u8();
    facts.state = static_cast<BoardState>(state);
    facts.sequence = in.u8();
    facts.tick = in.u32();
    facts.run_clock_us = in.u32();
    facts.clock_us = in.u32();
    facts.driven = in.u32();
    facts.lockout_ticks = in.u32();
    facts.warm_up_ticks = in.u32();
    facts.inputs = in.u8();
    const std::uint8_t armed = in.u8();
    facts.armed = armed != 0;
    facts.held = in.u8();
    facts.up_s = in.u32();
    facts.triggers = in.u32();
    facts.refusals = in.u32();
    facts.faults = in.u32();
    if (!in.at_end() || state > last_state || armed > 1) {
        return nonsense("its state", port);
    }
    return facts;
}

Result<LogPart> read_log_part(std::span<const std::uint8_t> bytes, const std::string& port) {
    WireReader in(bytes);
    LogPart part;
    part.kept = in.u16();
    while (in.good() && !in.rest().empty()) {
        const std::uint8_t kind = in.u8();
        LogEntry entry{static_cast<LogKind>(kind), in.u8(), 0};
        entry.up_s = in.u32();
        if (kind < 1 || kind > last_kind) {
            return nonsense("its night", port);
        }
        part.entries.push_back(entry);
    }
    if (!in.at_end() || part.entries.size() > part.kept) {
        return nonsense("its night", port);
    }
    return part;
}

}  // namespace gasp
