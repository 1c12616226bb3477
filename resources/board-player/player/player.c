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
        driven = driven | gb_bit(gb.held);
    }
    if (driven != gb.shown) {
        gb.shown = driven;
        gb_port_levels((gb_mask)((driven ^ gb.image.low) & gb.image.used));
    }
}

void gb_run_now(uint8_t index, uint8_t state) {
    struct gb_sequence sequence;
    gb_sequence_read(&gb.image, index, &sequence);
    gb.run.state = state;
    gb.run.index = index;
    gb.run.begun_us = gb_port_clock_us();
    gb_run_begin(&gb.run, &sequence);
    gb_show();
    if (state != gb_state_idle) {
        gb.lockout = sequence.lockout;
    }
}

void gb_start(uint8_t index, uint8_t state) {
    if (gb.image.head.start_line == gb_line_leads) {
        gb_rest();
        gb_line_call(index, state);
    } else {
        gb_run_now(index, state);
    }
}

static bool running_or_called(void) {
    return gb.run.state != 0 || gb.call_left != 0;
}

void gb_rest(void) {
    if (running_or_called()) {
        gb_line_call_stop();
    }
    gb_run_end(&gb.run);
    gb.held = gb_no_output;
    gb.call_state = 0;
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
    return running_or_called() && gb.run.state != gb_state_idle;
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
    if (gb_busy()) {
        return gb_running;
    }
    if (gb.lockout != 0) {
        return gb_lockout;
    }
    return gb.warm_up != 0 ? gb_warm_up : gb_done;
}

static uint8_t next_triggered(void) {
    const bool in_turn = (gb.image.head.flags & gb_flag_in_turn) != 0;
    return gb_sequence_after(&gb.image, gb_kind_triggered, in_turn ? gb.last_triggered : gb_no_sequence);
}

static bool accept(void) {
    const uint8_t index = next_triggered();
    uint8_t refusal = why_no_trigger();
    if (refusal == gb_done && index == gb_no_sequence) {
        refusal = gb_no_such;
    }
    if (refusal != gb_done) {
        gb_log_post(gb_entry_refusal, refusal);
        return false;
    }
    gb.last_triggered = index;
    gb_start(index, gb_state_triggered);
    gb_log_post(gb_entry_trigger, index);
    return true;
}

enum gb_sample gb_player_trigger(bool active) {
    enum gb_sample result = gb_sample_over;
    if (active) {
        if (++gb.debounced < gb.image.head.debounce) { /* 0 without an image */
            return gb_sample_again;
        }
        result = accept() ? gb_sample_start : gb_sample_over;
    }
    gb.debounced = 0;
    return result;
}

GB_CALLED static void count_down(uint32_t* ticks) {
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
    if (!gb_may_run() && (gb.run.state != 0 || gb.call_state != 0 || gb.held != gb_no_output)) {
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
    if (running_or_called() || gb.image.head.start_line == gb_line_follows || gb_why_not() != gb_done) {
        return;
    }
    const uint8_t index = gb_sequence_after(&gb.image, gb_kind_idle, gb.last_idle);
    if (index != gb_no_sequence) {
        gb.last_idle = index;
        gb_start(index, gb_state_idle);
    }
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
    if (gb.run.state != 0) {
        gb_run_step(&gb.run);
    }
    gb_line_tick();
    start_idle();
    gb_show();
}

/* As at power-up, with the image that was just found good. Nothing runs and nothing is driven without one. */
static void begin_with_image(void) {
    gb.last_triggered = gb.last_idle = gb_no_sequence;
    gb.warm_up = gb.image.head.warm_up;
    gb.lockout = 0;
    gb.debounced = 0;
    gb_hand_begin();
    gb_port_use(&gb.image);
    gb_port_outputs(gb.image.used, gb.image.low & gb.image.used);
    gb_line_begin();
}

static void forget_image(void) {
    memset(&gb.image, 0, sizeof gb.image);
}

uint8_t gb_player_take_image(void) {
    const uint8_t state = (uint8_t)gb_image_check(&gb.image); /* until it is good nothing goes by it */
    const gb_lock lock = gb_port_lock();
    if (state == gb_image_good) {
        begin_with_image();
    } else {
        forget_image();
    }
    gb.image_state = state;
    gb.loading = false;
    gb_port_unlock(lock);
    return state;
}

uint8_t gb_player_give_up_image(void) {
    const gb_lock lock = gb_port_lock();
    const uint8_t result = gb.armed ? gb_armed : gb_busy() ? gb_running : gb_done;
    if (result == gb_done) {
        gb_rest();
        gb_port_outputs(0, 0);
        forget_image();
        gb.image_state = gb_image_none;
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
    gb_rest();
    if (gb_player_take_image() != gb_image_good) {
        if (!gb_image_store_blank()) {
            gb_log_post(gb_entry_fault, gb_fault_image);
        }
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
