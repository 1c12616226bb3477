/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/log.h"
#include "player/player.h"
#include "player/result.h"
#include "player/state.h"

/* The start line between boards, as image.md describes it: the leader pulls it low for a number of ticks that
 * names the sequence, and lets it go at the moment the run starts. */

enum { ticks_each = 4, stop_ticks = 80, called_stop_ticks = 84, since_when = 0xFF };

void gb_line_call(uint8_t index, uint8_t state) {
    gb.call_index = index;
    gb.call_state = state;
    gb.call_left = 1;
    if (gb.image.head.start_line == gb_line_leads) {
        gb.call_left = (uint8_t)(ticks_each * (index + 1));
        gb_port_line(true);
    }
}

void gb_line_call_stop(void) {
    if (gb.image.head.start_line == gb_line_leads) {
        gb_line_call(called_stop_ticks / ticks_each - 1, 0);
    }
}

void gb_line_begin(void) {
    gb.call_left = 0;
    gb_port_line(false);
    gb_line_call_stop(); /* whatever its followers were at when this board stopped */
    gb.line_ticks = since_when;
}

static void call_tick(void) {
    if (gb.call_left == 0 || --gb.call_left != 0) {
        return;
    }
    gb_port_line(false);
    if (gb.call_state != 0) {
        gb_run_now(gb.call_index, gb.call_state);
        gb.call_state = 0;
    }
}

/* A line that is low from the beginning says nothing: how long it has been is not known. */
static void follow_tick(void) {
    if ((gb.inputs & gb_input_line) == 0) {
        if (gb.line_ticks == since_when) {
            gb.line_ticks = 0;
        }
        return;
    }
    if (gb.line_ticks >= stop_ticks) {
        return;
    }
    ++gb.line_ticks;
    if (gb.line_ticks == stop_ticks && gb.run.state != 0) {
        gb_rest();
        gb_log_post(gb_entry_stopped, gb_stop_line);
    }
}

GB_CALLED void gb_line_tick(void) {
    if (gb.image.head.start_line == gb_line_follows) {
        follow_tick();
    } else {
        call_tick();
    }
}

static bool follow(uint8_t index) {
    const uint8_t refusal = gb_why_not();
    if (refusal != gb_done) {
        gb_log_post(gb_entry_refusal, refusal);
        return false;
    }
    const uint8_t state = (uint8_t)(gb_state_triggered + gb.image.kinds[index]); /* in the same order */
    gb_run_now(index, state);
    if (state == gb_state_triggered) {
        gb_log_post(gb_entry_trigger, index);
    }
    return true;
}

bool gb_player_line_released(void) {
    const uint8_t ticks = gb.line_ticks;
    gb.line_ticks = 0;
    if (gb.image_state != gb_image_good || gb.image.head.start_line != gb_line_follows ||
        ticks >= stop_ticks) {
        return false;
    }
    const uint8_t beyond = (uint8_t)(ticks - (ticks_each - 1)); /* 4 n - 1, 4 n and 4 n + 1 are n */
    const uint8_t index = beyond / ticks_each;
    if (index >= gb.image.head.sequences || beyond % ticks_each == ticks_each - 1) {
        gb_log_post(gb_entry_fault, gb_fault_line);
        return false;
    }
    return follow(index);
}
