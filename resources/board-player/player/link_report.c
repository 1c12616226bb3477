/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include <string.h>

#include "player/image.h"
#include "player/link_frame.h"
#include "player/log.h"
#include "player/result.h"
#include "player/state.h"

/* What the board tells of itself over the link. */

enum { player_version = 0x0100, chip_bytes = 16 };

#define ANSWER(field) gb_answer(&(field), sizeof(field))

uint8_t gb_link_identify(void) {
    static const uint8_t player[] = {player_version & 0xFF, player_version >> 8, GB_OUTPUTS, GB_INPUTS,
                                     GB_CHUNK};
    static const char chip[chip_bytes] = GB_CHIP;
    const uint16_t power_ups = gb_log_count(gb_entry_power_up);
    ANSWER(player);
    gb_answer_u32(GB_STORE_BYTES);
    ANSWER(gb.image_state);
    ANSWER(gb.image.name); /* these are 0 without a good image */
    ANSWER(gb.image.head.revision);
    ANSWER(gb.image.head.board);
    ANSWER(power_ups);
    ANSWER(chip);
    return gb_done;
}

static uint8_t state(void) {
    if (gb.image_state != gb_image_good) {
        return gb.loading ? gb_state_loading : gb_state_no_image;
    }
    if (gb.stop != 0) {
        return gb.stop;
    }
    if (gb.call_left != 0) {
        return gb_state_calling;
    }
    return gb.run.state != 0 ? gb.run.state : gb_state_ready;
}

static void answer_state(void) {
    const gb_lock lock = gb_port_lock(); /* all of one moment */
    gb_answer_u8(state());
    ANSWER(gb.run.index);
    ANSWER(gb.run.tick);
    ANSWER(gb.run.begun_us);
    gb_answer_u32(gb_port_clock_us());
    gb_answer_u32(gb.shown);
    ANSWER(gb.lockout);
    ANSWER(gb.warm_up);
    ANSWER(gb.inputs);
    ANSWER(gb.armed);
    ANSWER(gb.held);
    gb_port_unlock(lock);
}

uint8_t gb_link_status(void) {
    answer_state();
    gb_answer_u32(gb_port_seconds());
    for (uint8_t kind = gb_entry_trigger; kind <= gb_entry_fault; ++kind) {
        gb_answer_u32(gb_log_count(kind));
    }
    return gb_done;
}

uint8_t gb_link_log(void) {
    const uint16_t kept = gb_log_kept();
    uint16_t index = gb_request_u16(0);
    ANSWER(kept);
    for (; index < kept && gb_answer_room() >= gb_log_entry_bytes; ++index) {
        gb_log_read(index, gb_answer_place(gb_log_entry_bytes));
    }
    return gb_done;
}
