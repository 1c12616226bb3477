/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/image.h"
#include "player/link_frame.h"
#include "player/log.h"
#include "player/player.h"
#include "player/result.h"
#include "player/state.h"

/* Loading an image over the link: chunks in order into the store, then a check of the whole. */

enum { read_back_most = 128 };

static struct gb_load_note load; /* length 0: none under way since power-up */
static gb_at wanted;             /* offset of the next chunk */

static void begin_anew(uint32_t length, uint32_t crc) {
    load.length = length;
    load.crc = crc;
    load.steps = 0;
    wanted = 0;
    gb_note_write(&load);
}

/* Goes on with a load of the same image: where it stands, or after power loss, at the last step noted. */
static void take_up(uint32_t length, uint32_t crc) {
    if (load.length == 0) {
        gb_note_read(&load);
        wanted = (gb_at)(load.steps * gb_note_step);
    }
    if (load.length != length || load.crc != crc || wanted > length) {
        begin_anew(length, crc);
    }
}

static void forget(void) {
    load.length = 0;
    gb_note_write(&load);
}

uint8_t gb_link_begin_load(void) {
    const uint32_t length = gb_request_u32(0);
    if (length == 0) {
        return gb_wrong_form;
    }
    if (length > GB_STORE_BYTES) {
        gb_answer_u32(GB_STORE_BYTES);
        return gb_too_long;
    }
    const uint32_t crc = gb_request_u32(4);
    const uint8_t result = gb_player_give_up_image();
    if (result == gb_done) {
        take_up(length, crc);
        gb_answer_u32(wanted);
    }
    return result;
}

static uint8_t out_of_order(void) {
    gb_answer_u32(wanted);
    return gb_out_of_order;
}

static void note_progress(void) {
    const uint16_t steps = (uint16_t)(wanted / gb_note_step);
    if (steps != load.steps) {
        load.steps = steps;
        gb_note_write(&load);
    }
}

uint8_t gb_link_chunk(void) {
    const uint32_t offset = gb_request_u32(0);
    const uint8_t count = (uint8_t)(gb_request_count - 4U);
    if (load.length == 0) {
        return gb_nothing_begun;
    }
    if (offset > wanted) {
        return out_of_order();
    }
    if (offset == wanted) {
        const gb_at left = (gb_at)(load.length - wanted);
        if (count != (left < GB_CHUNK ? left : GB_CHUNK)) {
            return gb_wrong_form;
        }
        if (!gb_port_store_write(wanted, gb_request + 4, count)) {
            gb_log_post(gb_entry_fault, gb_fault_store);
            return gb_not_written;
        }
        wanted = (gb_at)(wanted + count);
        note_progress();
    }
    gb_answer_u32(wanted);
    return gb_done;
}

static bool is_loaded(uint32_t length, uint32_t crc) {
    return gb.image_state == gb_image_good && gb.image.head.length == length && gb.image.crc == crc;
}

uint8_t gb_link_commit(void) {
    const uint32_t length = gb_request_u32(0);
    const uint32_t crc = gb_request_u32(4);
    if (is_loaded(length, crc)) {
        return gb_done;
    }
    if (load.length == 0 || load.length != length || load.crc != crc) {
        return gb_nothing_begun;
    }
    if (wanted != length) {
        return out_of_order();
    }
    forget();
    const uint8_t state = gb_player_take_image();
    if (state != gb_image_good) {
        gb_answer_u8(state);
        return gb_bad_image;
    }
    gb_log_post(gb_entry_image, 0);
    return gb_done;
}

uint8_t gb_link_read_back(void) {
    const uint32_t offset = gb_request_u32(0);
    const uint8_t count = gb_request[4];
    if (count == 0 || count > read_back_most || offset >= GB_STORE_BYTES || count > GB_STORE_BYTES - offset) {
        return gb_wrong_form;
    }
    gb_port_store_read((gb_at)offset, gb_answer_place(count), count);
    return gb_done;
}
