/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include <string.h>

#include "player/image.h"
#include "player/link_frame.h"
#include "player/log.h"
#include "player/result.h"
#include "player/state.h"

/* What the board tells of itself over the link. */

enum { player_version = 0x0100, chip_bytes = 16, entry_bytes = 6 };

#define ANSWER(field) gb_answer(&(field), sizeof(field))

uint8_t gb_link_identify(void) {
    const uint16_t version = player_version;
    const uint16_t power_ups = gb_log_count(gb_entry_power_up);
    ANSWER(version);
    gb_answer_u8(GB_OUTPUTS);
    gb_answer_u8(GB_INPUTS);
    gb_answer_u8(GB_CHUNK);
    gb_answer_u32(GB_STORE_BYTES);
    ANSWER(gb.image_state);
    ANSWER(gb.image.head.length); /* these are 0 without a good image */
    ANSWER(gb.image.crc);
    ANSWER(gb.image.head.revision);
    ANSWER(gb.image.head.board);
    ANSWER(power_ups);
    strncpy((char*)gb_answer_place(chip_bytes), GB_CHIP, chip_bytes);
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
    return gb.run.on ? gb.run_kind : gb_state_ready;
}

static void answer_state(void) {
    const gb_lock lock = gb_port_lock(); /* all of one moment */
    gb_answer_u8(state());
    gb_answer_u8(gb.run.on ? gb.run.index : gb_no_output);
    gb_answer_u32(gb.run.on ? gb.run.tick : 0);
    ANSWER(gb.begun_us);
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
    gb_answer_u32(gb_log_count(gb_entry_trigger));
    gb_answer_u32(gb_log_count(gb_entry_refusal));
    gb_answer_u32(gb_log_count(gb_entry_fault));
    return gb_done;
}

uint8_t gb_link_log(void) {
    const uint16_t kept = gb_log_kept();
    uint16_t index = gb_request_u16(0);
    ANSWER(kept);
    for (; index < kept && gb_answer_room() >= entry_bytes; ++index) {
        struct gb_entry entry;
        gb_log_read(index, &entry);
        ANSWER(entry.kind);
        ANSWER(entry.detail);
        ANSWER(entry.seconds);
    }
    return gb_done;
}
