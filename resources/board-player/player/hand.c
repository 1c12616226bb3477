/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/hand.h"

#include "player/log.h"
#include "player/result.h"
#include "player/state.h"

#define HELD_US 500000UL
enum { holds_in_arming = 4 };

void gb_hand_begin(void) {
    gb.hold_ticks = 0;
    for (uint32_t us = gb.image.head.tick_us; us <= HELD_US; us += gb.image.head.tick_us) {
        ++gb.hold_ticks; /* a division costs more */
    }
    gb.arm_ticks = (uint16_t)(gb.hold_ticks * holds_in_arming);
}

static void link_lost(void) {
    if (gb_busy() || gb.held != gb_no_output) {
        gb_log_post(gb_entry_stopped, gb_stop_link_lost);
    }
    gb_rest();
    gb.armed = false;
}

void gb_hand_tick(void) {
    if (!gb.armed) {
        return;
    }
    if (gb.held != gb_no_output && --gb.hold_left == 0) {
        gb.held = gb_no_output;
    }
    if (--gb.arm_left == 0) {
        link_lost();
    }
}

void gb_hand_frame(void) {
    gb.arm_left = gb.arm_ticks;
}

static uint8_t why_not_arm(void) {
    if (gb.image_state != gb_image_good) {
        return gb.loading ? gb_loading : gb_no_image;
    }
    if (gb.stop == gb_state_disabled || gb.stop == gb_state_wants_rearm) {
        return gb_stop_result();
    }
    return gb_busy() && !gb.armed ? gb_running : gb_done;
}

uint8_t gb_hand_arm(uint16_t* token) {
    const uint8_t result = why_not_arm();
    if (result == gb_done) {
        gb_rest(); /* an idle run, or what was done by an arming before */
        gb.armed = true;
        gb.arm_left = gb.arm_ticks;
        gb.token = (uint16_t)(gb.token + (uint16_t)gb_port_clock_us() + 1U);
        *token = gb.token;
    }
    return result;
}

void gb_hand_disarm(void) {
    if (gb.armed) {
        gb_rest(); /* what only runs by the arming */
        gb.armed = false;
    }
}

static uint8_t why_not_move(uint16_t token) {
    if (!gb.armed || token != gb.token) {
        return gb_not_armed;
    }
    if (gb.stop != 0) {
        return gb_stop_result();
    }
    if (!gb_may_run()) {
        return gb_not_held;
    }
    return gb_busy() ? gb_running : gb_done;
}

static void hold(uint8_t output) {
    if (gb.held != output) {
        gb_log_post(gb_entry_held_by_link, output);
    }
    gb.held = output;
    gb.hold_left = gb.hold_ticks;
    gb_show();
}

uint8_t gb_hand_hold(uint16_t token, uint8_t output) {
    const uint8_t result = why_not_move(token);
    if (output == gb_no_output && result != gb_not_armed) {
        gb.held = gb_no_output;
        gb_show();
        return gb_done;
    }
    if (result != gb_done) {
        return result;
    }
    if (!gb_image_uses(&gb.image, output)) {
        return gb_no_such;
    }
    hold(output);
    return gb_done;
}

uint8_t gb_hand_run(uint16_t token, uint8_t index) {
    uint8_t result = why_not_move(token);
    if (result == gb_done && index >= gb.image.head.sequences) {
        result = gb_no_such;
    } else if (result == gb_done && gb.image.head.start_line == gb_line_follows) {
        result = gb_follows;
    }
    if (result == gb_done) {
        gb.held = gb_no_output;
        gb_line_call(index, gb_state_by_hand); /* with the next tick, not between two */
        gb_log_post(gb_entry_run_by_link, index);
    }
    return result;
}

void gb_hand_stop(void) {
    if (gb.stop != 0) {
        gb.armed = false; /* at rest already */
    } else {              /* without an image too: it then rests when it gets one */
        gb_stop(gb_state_stopped_by_link, gb_stop_link);
    }
}

uint8_t gb_hand_go_on(uint16_t token) {
    const uint8_t result = gb.armed && token == gb.token ? gb_done : gb_not_armed;
    if (result == gb_done && gb.stop == gb_state_stopped_by_link) {
        gb.stop = 0;
        gb_log_post(gb_entry_back, gb_back_go_on);
    }
    return result;
}
