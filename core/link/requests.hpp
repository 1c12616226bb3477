// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>

namespace gasp {

// The numbers of resources/board-player/protocol.md.

inline constexpr std::uint8_t link_version = 1;
inline constexpr std::uint8_t answer_bit = 0x80;

enum class Request : std::uint8_t {
    identify = 0x01,
    begin_load = 0x10,
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
    read_log = 0x31,
    clear_log = 0x32,
    echo = 0x33,
};

enum class BoardAnswer : std::uint8_t {
    done = 0,
    other_version = 1,
    unknown_request = 2,
    wrong_form = 3,
    not_armed = 4,
    running = 5,
    no_image = 6,
    outputs_disabled = 7,
    wants_rearm = 8,
    stopped_by_link = 9,
    too_long = 10,
    out_of_order = 11,
    bad_image = 12,
    no_such = 13,
    not_written = 14,
    not_held = 15,
    loading = 16,
    armed = 17,
    lockout = 18,
    warm_up = 19,
    follows = 20,
    nothing_begun = 21,
};

}  // namespace gasp
