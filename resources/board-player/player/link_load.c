/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include <string.h>

#include "player/image.h"
#include "player/link_frame.h"
#include "player/log.h"
#include "player/player.h"
#include "player/result.h"
#include "player/state.h"

/* Loading an image over the link: chunks in order into the store, then a check of the whole. */

enum { read_back_most = 128, offset_bytes = 4 };

static struct gb_load_note load; /* length 0: none under way since power-up */
static gb_at wanted;             /* offset of the next chunk */

static gb_at length(void) {
    return (gb_at)load.image.length; /* begin refuses what is longer */
}

/* Whether this is the image that begin or commit names. */
static bool asked_for(const struct gb_image_name* image) {
    return memcmp(gb_request, image, sizeof *image) == 0;
}

/* Goes on with a load of the same image: where it stands, or after power loss, at the last step noted. */
static void take_up(void) {
    if (length() == 0) {
        gb_note_read(&load);
        wanted = (gb_at)(load.steps * gb_note_step);
    }
    if (!asked_for(&load.image) || wanted > length()) {
        memcpy(&load.image, gb_request, sizeof load.image);
        load.steps = 0;
        wanted = 0;
        gb_note_write(&load);
    }
}

uint8_t gb_link_begin_load(void) {
    const uint32_t bytes = gb_request_u32(0);
    if (bytes == 0) {
        return gb_wrong_form;
    }
    if (bytes > GB_STORE_BYTES) {
        gb_answer_u32(GB_STORE_BYTES);
        return gb_too_long;
    }
    const uint8_t result = gb_player_give_up_image();
    if (result == gb_done) {
        take_up();
        gb_answer_u32(wanted);
    }
    return result;
}

static void note_progress(void) {
    const uint16_t steps = (uint16_t)(wanted / gb_note_step);
    if (steps != load.steps) {
        load.steps = steps;
        gb_note_write(&load);
    }
}

static uint8_t take_chunk(void) {
    const uint8_t count = (uint8_t)(gb_request_count() - offset_bytes);
    const gb_at left = (gb_at)(length() - wanted);
    if (count != (left < GB_CHUNK ? left : GB_CHUNK)) {
        return gb_wrong_form;
    }
    if (!gb_port_store_write(wanted, gb_request + offset_bytes, count)) {
        gb_log_post(gb_entry_fault, gb_fault_store);
        return gb_not_written;
    }
    wanted = (gb_at)(wanted + count);
    note_progress();
    return gb_done;
}

uint8_t gb_link_chunk(void) {
    const uint32_t offset = gb_request_u32(0);
    uint8_t result = gb_done; /* a chunk again */
    if (length() == 0) {
        return gb_nothing_begun;
    }
    if (offset > wanted) {
        result = gb_out_of_order;
    } else if (offset == wanted) {
        result = take_chunk();
        if (result != gb_done) {
            return result;
        }
    }
    gb_answer_u32(wanted);
    return result;
}

uint8_t gb_link_commit(void) {
    if (gb.image_state == gb_image_good && asked_for(&gb.image.name)) {
        return gb_done;
    }
    if (length() == 0 || !asked_for(&load.image)) {
        return gb_nothing_begun;
    }
    if (wanted != length()) {
        gb_answer_u32(wanted);
        return gb_out_of_order;
    }
    load.image.length = 0; /* good or bad: it is over */
    gb_note_write(&load);
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
    const uint8_t count = gb_request[offset_bytes];
    if (count == 0 || count > read_back_most || offset >= GB_STORE_BYTES || count > GB_STORE_BYTES - offset) {
        return gb_wrong_form;
    }
    gb_port_store_read((gb_at)offset, gb_answer_place(count), count);
    return gb_done;
}
