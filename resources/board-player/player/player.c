/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/player.h"

#include <string.h>

#include "player/log.h"
#include "player/result.h"
#include "player/state.h"

struct gb_player gb;

void gb_show(void) {
    gb_mask driven = gb.run.driven;
    if (gb.held != gb_no_output) {
        driven = (gb_mask)(driven | (gb_mask)1 << gb.held);
    }
    if (driven != gb.shown) {
        gb.shown = driven;
        gb_port_levels((gb_mask)((driven ^ gb.image.low) & gb.image.used));
    }
}

void gb_run_now(uint8_t index, uint8_t run_kind) {
    struct gb_sequence sequence;
    gb_sequence_read(&gb.image, index, &sequence);
    gb.run_kind = run_kind;
    gb.begun_us = gb_port_clock_us();
    gb_run_begin(&gb.run, index, &sequence);
    gb_show();
    if (run_kind != gb_state_idle) {
        gb.lockout = sequence.lockout;
    }
}

void gb_start(uint8_t index, uint8_t run_kind) {
    if (gb.image.head.start_line == gb_line_leads) {
        gb_rest();
        gb_line_call(index, run_kind);
    } else {
        gb_run_now(index, run_kind);
    }
}

void gb_rest(void) {
    if (gb.run.on || gb.call_left != 0) {
        gb_line_call_stop();
    }
    gb_run_end(&gb.run);
    gb.held = gb_no_output;
    gb.call_kind = 0;
    gb_show();
}

void gb_stop(uint8_t state, uint8_t cause) {
    gb_rest();
    gb.armed = false;
    gb.stop = state;
    gb.rearm_released = false;
    gb.rearm_ticks = 0;
    gb_log_post(gb_entry_stopped, cause);
}

uint8_t gb_stop_result(void) {
    return gb.stop == 0 ? gb_done : (uint8_t)(gb.stop - gb_state_disabled + gb_outputs_disabled);
}

bool gb_busy(void) {
    return (gb.run.on && gb.run_kind != gb_state_idle) || gb.call_left != 0;
}

bool gb_may_run(void) {
    return (gb.image.head.flags & gb_flag_hold_to_run) == 0 || (gb.inputs & gb_input_hold) != 0;
}

uint8_t gb_why_not(void) {
    if (gb.image_state != gb_image_good) {
        return gb.loading ? gb_loading : gb_no_image;
    }
    if (gb.stop != 0) {
        return gb_stop_result();
    }
    if (gb.armed) {
        return gb_armed;
    }
    return gb_may_run() ? gb_done : gb_not_held;
}

static uint8_t why_no_trigger(void) {
    const uint8_t refusal = gb_why_not();
    if (refusal != gb_done) {
        return refusal;
    }
    if (gb.image.head.start_line == gb_line_follows) {
        return gb_follows;
    }
    if (gb.image.kind[gb_kind_triggered] == 0) {
        return gb_no_such;
    }
    if (gb_busy()) {
        return gb_running;
    }
    if (gb.lockout != 0) {
        return gb_lockout;
    }
    return gb.warm_up != 0 ? gb_warm_up : gb_done;
}

static uint8_t next_triggered(void) {
    if ((gb.image.head.flags & gb_flag_in_turn) == 0) {
        gb.last_triggered = (uint8_t)(gb.image.head.sequences - 1U);
    }
    gb.last_triggered = gb_sequence_after(&gb.image, gb_kind_triggered, gb.last_triggered);
    return gb.last_triggered;
}

enum gb_sample gb_player_trigger(bool active) {
    if (!active) {
        gb.debounced = 0;
        return gb_sample_over;
    }
    ++gb.debounced;
    if (gb.image_state == gb_image_good && gb.debounced < gb.image.head.debounce) {
        return gb_sample_again;
    }
    gb.debounced = 0;
    const uint8_t refusal = why_no_trigger();
    if (refusal != gb_done) {
        gb_log_post(gb_entry_refusal, refusal);
        return gb_sample_over;
    }
    const uint8_t index = next_triggered();
    gb_start(index, gb_state_triggered);
    gb_log_post(gb_entry_trigger, index);
    return gb_sample_start;
}

static void count_down(uint32_t* ticks) {
    if (*ticks != 0) {
        --*ticks;
    }
}

/* The button must be seen released, then pressed, each for the time of the debounce: one that is stuck does
 * nothing. */
static void watch_rearm(void) {
    const bool pressed = (gb.inputs & gb_input_rearm) != 0;
    if (pressed != gb.rearm_released) {
        gb.rearm_ticks = 0;
        return;
    }
    if (++gb.rearm_ticks < gb.image.head.debounce) {
        return;
    }
    gb.rearm_ticks = 0;
    if (pressed) {
        gb.stop = 0;
        gb_log_post(gb_entry_back, gb_back_rearm);
    }
    gb.rearm_released = true;
}

static void watch_stops(void) {
    if ((gb.inputs & gb_input_enable) == 0) {
        gb_player_disabled();
    } else if (gb.stop == gb_state_disabled) {
        gb.stop = gb_state_wants_rearm;
    } else if (gb.stop != 0) {
        watch_rearm();
    }
    if (!gb_may_run() && (gb.run.on || gb.call_kind != 0 || gb.held != gb_no_output)) {
        gb_rest();
        gb_log_post(gb_entry_stopped, gb_stop_hold_to_run);
    }
}

void gb_player_disabled(void) {
    if (gb.image_state == gb_image_good && gb.stop != gb_state_disabled) {
        gb_stop(gb_state_disabled, gb_stop_enable);
    }
}

static void start_idle(void) {
    const bool free = !gb.run.on && gb.call_left == 0 && gb.image.head.start_line != gb_line_follows;
    if (!free || gb.image.kind[gb_kind_idle] == 0 || gb_why_not() != gb_done) {
        return;
    }
    gb.last_idle = gb_sequence_after(&gb.image, gb_kind_idle, gb.last_idle);
    gb_start(gb.last_idle, gb_state_idle);
}

void gb_player_tick(uint8_t inputs) {
    gb.inputs = inputs;
    if (gb.image_state != gb_image_good) {
        gb_line_tick(); /* a call to stop may still be on */
        return;
    }
    count_down(&gb.lockout);
    count_down(&gb.warm_up);
    watch_stops();
    gb_hand_tick();
    if (gb.run.on) {
        gb_run_step(&gb.run);
    }
    gb_line_tick();
    start_idle();
    gb_show();
}

/* Everything at its beginning, as at power-up, with the image that was just found good. */
static void begin_with_image(void) {
    gb.run.on = false;
    gb.run.driven = 0;
    gb.shown = 0;
    gb.held = gb_no_output;
    gb.last_triggered = gb.last_idle = (uint8_t)(gb.image.head.sequences - 1U);
    gb.warm_up = gb.image.head.warm_up;
    gb.lockout = 0;
    gb.debounced = 0;
    gb_hand_begin();
    gb_port_use(&gb.image);
    gb_port_outputs(gb.image.used, gb.image.low & gb.image.used);
    gb.call_left = 0;
    gb_port_line(false);
    gb_line_call_stop(); /* whatever its followers were at when this board stopped */
}

uint8_t gb_player_take_image(void) {
    struct gb_image image;
    const uint8_t state = (uint8_t)gb_image_check(&image);
    const gb_lock lock = gb_port_lock();
    gb.image_state = state;
    gb.loading = false;
    memset(&gb.image, 0, sizeof gb.image);
    if (state == gb_image_good) {
        gb.image = image;
        begin_with_image();
    }
    gb_port_unlock(lock);
    return state;
}

uint8_t gb_player_give_up_image(void) {
    const gb_lock lock = gb_port_lock();
    const uint8_t result = gb.armed ? gb_armed : gb_busy() ? gb_running : gb_done;
    if (result == gb_done) {
        gb_rest();
        gb_port_outputs(0, 0);
        gb.image_state = gb_image_none;
        gb.image.head.length = gb.image.crc = gb.image.head.revision = gb.image.head.board = 0;
        gb.loading = true;
    }
    gb_port_unlock(lock);
    return result;
}

void gb_player_begin(uint8_t cause) {
    gb_log_post(gb_entry_power_up, cause);
    if (cause == gb_reset_brown_out || cause == gb_reset_watchdog) {
        gb_log_post(gb_entry_fault, gb_fault_reset);
    }
    gb.held = gb_no_output;
    if (gb_player_take_image() != gb_image_good) {
        gb_log_post(gb_entry_fault, gb_fault_image);
    } else if (cause == gb_reset_watchdog || (gb.image.head.flags & gb_flag_rearm_at_power_up) != 0) {
        gb.stop = gb_state_wants_rearm;
    }
}

uint8_t gb_player_lamp(void) {
    if (gb.image_state != gb_image_good) {
        return 0;
    }
    return gb.stop != 0 || gb.armed ? 2 : 1;
}
