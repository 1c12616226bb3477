/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/run.h"

#include <string.h>

#define NEVER 0xFFFFFFFFUL /* no run is so long */

static void fetch(struct gb_run* run) {
    if (run->left == 0) {
        run->next.tick = NEVER;
        return;
    }
    --run->left;
    gb_event_read(run->at, &run->next);
    run->at = (gb_at)(run->at + gb_event_bytes);
}

/* An image holds no output twice in one tick, so this ends after GB_OUTPUTS rounds at the latest. */
static void apply_due(struct gb_run* run) {
    while (run->next.tick == run->tick) {
        const gb_mask bit = gb_bit(run->next.output);
        run->driven |= bit;
        if (run->next.level == 0) {
            run->driven ^= bit;
        }
        fetch(run);
    }
}

void gb_run_begin(struct gb_run* run, const struct gb_sequence* sequence) {
    run->tick = 0;
    run->length = sequence->length;
    run->left = (gb_at)sequence->events;
    run->at = (gb_at)sequence->at;
    run->driven = 0;
    memset(&run->next, 0, sizeof run->next); /* as if the last event were one that rests output 0 */
    apply_due(run);
}

void gb_run_step(struct gb_run* run) {
    ++run->tick;
    if (run->tick == run->length) {
        gb_run_end(run);
    }
    apply_due(run);
}

GB_CALLED void gb_run_end(struct gb_run* run) {
    run->state = 0;
    run->index = gb_no_sequence;
    run->tick = 0;
    run->driven = 0;
    run->next.tick = NEVER;
}
