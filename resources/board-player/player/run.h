/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_RUN_H
#define GB_RUN_H

#include <stdbool.h>
#include <stdint.h>

#include "player/image.h"

/* One run of one sequence: its clock, and which outputs it drives. Called with interrupts off. */

struct gb_run {
    uint8_t state; /* gb_state_triggered, idle or by_hand; 0: none is on */
    uint8_t index;
    uint32_t tick;
    uint32_t begun_us; /* the board's clock at tick 0 */
    uint32_t length;
    gb_at left; /* events after `next` */
    gb_at at;   /* where the first of those stands */
    struct gb_event next;
    gb_mask driven;
};

/* Begins at tick 0, its events applied. Requires: an image that was found good. */
void gb_run_begin(struct gb_run* run, const struct gb_sequence* sequence);
/* One tick on; at its length the run is over and drives nothing. */
void gb_run_step(struct gb_run* run);
void gb_run_end(struct gb_run* run);

#endif
