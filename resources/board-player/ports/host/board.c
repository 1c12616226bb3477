/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#define _XOPEN_SOURCE 700

#include "board.h"

#include <time.h>

#include "player/image.h"
#include "player/player.h"
#include "player/port.h"

static FILE* trace;
static bool fast;
static uint64_t now_us;
static uint64_t begun_ns;
static uint64_t tick_us = 1000;
static uint64_t next_tick = 1000;
static uint64_t next_sample; /* of the trigger input; 0: none */
static uint64_t trigger_until;
static uint64_t rearm_until;
static bool enabled = true;
static gb_mask pins;

static uint64_t real_ns(void) {
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (uint64_t)time.tv_sec * 1000000000U + (uint64_t)time.tv_nsec;
}

void board_begin(bool by_hand, FILE* to) {
    fast = by_hand;
    trace = to;
    begun_ns = real_ns();
}

uint64_t board_now(void) {
    if (!fast) {
        now_us = (real_ns() - begun_ns) / 1000U;
    }
    return now_us;
}

uint64_t board_next(void) {
    return next_sample != 0 && next_sample < next_tick ? next_sample : next_tick;
}

void board_go_to(uint64_t us) {
    now_us = us;
}

void gb_port_levels(gb_mask levels) {
    if (trace != NULL) {
        fprintf(trace, "%llu %lx\n", (unsigned long long)board_now(), (unsigned long)(levels & pins));
        fflush(trace);
    }
}

void gb_port_outputs(gb_mask outputs, gb_mask levels) {
    pins = outputs;
    gb_port_levels(levels);
}

void gb_port_line(bool low) {
    (void)low; /* it has none */
}

void gb_port_use(const struct gb_image* image) {
    tick_us = image->head.tick_us;
    next_tick = now_us + tick_us;
    next_sample = 0;
}

uint32_t gb_port_clock_us(void) {
    return (uint32_t)board_now();
}

uint32_t gb_port_seconds(void) {
    return (uint32_t)(board_now() / 1000000U);
}

gb_lock gb_port_lock(void) {
    return 0; /* everything is done in the main loop */
}

void gb_port_unlock(gb_lock before) {
    (void)before;
}

void gb_port_alive(void) {}

static uint8_t inputs(void) {
    return (uint8_t)(gb_input_hold | (now_us < trigger_until ? gb_input_trigger : 0) |
                     (enabled ? gb_input_enable : 0) | (now_us < rearm_until ? gb_input_rearm : 0));
}

void board_trip(void) {
    enum { tripped_us = 100000 };
    trigger_until = board_now() + tripped_us;
    if (next_sample == 0) {
        next_sample = now_us + tick_us;
    }
}

void board_press_rearm(void) {
    enum { pressed_us = 1000000 };
    rearm_until = board_now() + pressed_us;
}

void board_enable(bool closed) {
    enabled = closed;
    if (!closed) {
        gb_player_disabled();
    }
}

static void sample_trigger(void) {
    const uint64_t moment = next_sample;
    next_sample = 0;
    switch (gb_player_trigger(moment <= trigger_until)) {
        case gb_sample_again:
            next_sample = moment + tick_us;
            break;
        case gb_sample_start:
            next_tick = moment + tick_us;
            break;
        case gb_sample_over:
            break;
    }
}

void board_catch_up(void) {
    const uint64_t until = board_now();
    while (board_next() <= until) {
        if (next_sample != 0 && next_sample <= next_tick) {
            sample_trigger();
        } else {
            next_tick += tick_us;
            gb_player_tick(inputs());
        }
    }
}
