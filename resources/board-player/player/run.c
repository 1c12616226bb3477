/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/run.h"

static void fetch(struct gb_run* run) {
    run->due = run->left != 0;
    if (run->due) {
        gb_event_read(run->at, &run->next);
        run->at = (gb_at)(run->at + gb_event_bytes);
        --run->left;
    }
}

/* An image holds no output twice in one tick, so this ends after GB_OUTPUTS rounds at the latest. */
static void apply_due(struct gb_run* run) {
    while (run->due && run->next.tick == run->tick) {
        const gb_mask bit = (gb_mask)((gb_mask)1 << run->next.output);
        run->driven = (gb_mask)(run->next.level != 0 ? run->driven | bit : run->driven & (gb_mask)~bit);
        fetch(run);
    }
}

void gb_run_begin(struct gb_run* run, uint8_t index, const struct gb_sequence* sequence) {
    run->on = true;
    run->index = index;
    run->tick = 0;
    run->length = sequence->length;
    run->left = (gb_at)sequence->events;
    run->at = (gb_at)sequence->at;
    run->driven = 0;
    fetch(run);
    apply_due(run);
}

void gb_run_step(struct gb_run* run) {
    ++run->tick;
    if (run->tick == run->length) {
        gb_run_end(run);
    } else {
        apply_due(run);
    }
}

void gb_run_end(struct gb_run* run) {
    run->on = false;
    run->driven = 0;
}
