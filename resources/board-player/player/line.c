/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/log.h"
#include "player/player.h"
#include "player/result.h"
#include "player/state.h"

/* The start line between boards, as image.md describes it: the leader pulls it low for a number of ticks that
 * names the sequence, and lets it go at the moment the run starts. */

enum { ticks_each = 4, stop_ticks = 80, called_stop_ticks = 84 };

void gb_line_call(uint8_t index, uint8_t run_kind) {
    gb.call_index = index;
    gb.call_kind = run_kind;
    gb.call_left = 1;
    if (gb.image.head.start_line == gb_line_leads) {
        gb.call_left = (uint8_t)(ticks_each * (index + 1));
        gb_port_line(true);
    }
}

void gb_line_call_stop(void) {
    if (gb.image.head.start_line == gb_line_leads) {
        gb.call_kind = 0;
        gb.call_left = called_stop_ticks;
        gb_port_line(true);
    }
}

static void call_tick(void) {
    if (gb.call_left == 0 || --gb.call_left != 0) {
        return;
    }
    if (gb.image.head.start_line == gb_line_leads) {
        gb_port_line(false);
    }
    if (gb.call_kind != 0) {
        gb_run_now(gb.call_index, gb.call_kind);
        gb.call_kind = 0;
    }
}

static void follow_tick(void) {
    if ((gb.inputs & gb_input_line) == 0 || gb.line_ticks == stop_ticks) {
        return;
    }
    ++gb.line_ticks;
    if (gb.line_ticks == stop_ticks && gb.run.on) {
        gb_rest();
        gb_log_post(gb_entry_stopped, gb_stop_line);
    }
}

void gb_line_tick(void) {
    if (gb.image.head.start_line == gb_line_follows) {
        follow_tick();
    } else {
        call_tick();
    }
}

static uint8_t kind_to_run(uint8_t index) {
    if ((gb.image.kind[gb_kind_triggered] >> index & 1U) != 0) {
        return gb_state_triggered;
    }
    return (gb.image.kind[gb_kind_idle] >> index & 1U) != 0 ? gb_state_idle : gb_state_by_hand;
}

static bool follow(uint8_t index) {
    const uint8_t refusal = gb_why_not();
    if (refusal != gb_done) {
        gb_log_post(gb_entry_refusal, refusal);
        return false;
    }
    const uint8_t kind = kind_to_run(index);
    gb_run_now(index, kind);
    if (kind == gb_state_triggered) {
        gb_log_post(gb_entry_trigger, index);
    }
    return true;
}

bool gb_player_line_released(void) {
    const uint8_t ticks = gb.line_ticks;
    gb.line_ticks = 0;
    if (gb.image_state != gb_image_good || gb.image.head.start_line != gb_line_follows ||
        ticks == stop_ticks) {
        return false;
    }
    const uint8_t rounded = (uint8_t)((ticks + 1U) / ticks_each); /* 4 n - 1, 4 n and 4 n + 1 are n */
    const bool near = (ticks + 1U) % ticks_each != ticks_each - 1;
    if (rounded == 0 || rounded > gb.image.head.sequences || !near) {
        gb_log_post(gb_entry_fault, gb_fault_line);
        return false;
    }
    return follow((uint8_t)(rounded - 1U));
}
