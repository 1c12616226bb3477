/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_STATE_H
#define GB_STATE_H

#include <stdbool.h>
#include <stdint.h>

#include "player/image.h"
#include "player/run.h"

/* The one state of the player, shared by player.c, hand.c, line.c and link*.c only. A chip has one
 * player: at fixed addresses it costs an interrupt less. Whoever is not in an interrupt holds gb_port_lock().
 */

enum gb_state {
    gb_state_no_image = 0,
    gb_state_loading = 1,
    gb_state_ready = 2,
    gb_state_triggered = 3,
    gb_state_idle = 4,
    gb_state_by_hand = 5,
    gb_state_disabled = 6, /* from here on: stopped */
    gb_state_wants_rearm = 7,
    gb_state_stopped_by_link = 8,
    gb_state_calling = 9
};

enum { gb_no_output = 0xFF };

struct gb_player {
    uint8_t image_state;
    bool loading;
    uint8_t inputs;
    uint8_t stop; /* 0, or one of the stopped states */
    gb_mask shown;

    struct gb_run run;
    uint8_t last_triggered;
    uint8_t last_idle;

    uint32_t lockout;
    uint32_t warm_up;
    uint16_t debounced;
    uint16_t rearm_ticks;
    bool rearm_released;

    bool armed;
    uint8_t held;
    uint16_t token;
    uint16_t arm_ticks;
    uint16_t hold_ticks;
    uint16_t arm_left;
    uint16_t hold_left;

    uint8_t call_left; /* ticks for which the leader still holds the start line low */
    uint8_t call_index;
    uint8_t call_state; /* of the run called; 0: it is a call to stop */
    uint8_t line_ticks; /* for which the line has been low */

    struct gb_image image;
};

extern struct gb_player gb;

/* player.c */
void gb_show(void);
/* Starts a run, which is then in the state given, over the start line if this board leads. */
void gb_start(uint8_t index, uint8_t state);
void gb_run_now(uint8_t index, uint8_t state);
/* Ends what is running, called or held, on the followers too; the outputs rest. */
void gb_rest(void);
void gb_stop(uint8_t state, uint8_t cause);
/* Whether a run is on or called that an idle one must not be counted as. */
bool gb_busy(void);
uint8_t gb_stop_result(void); /* the gb_result that tells of `stop` */
/* Why nothing may run by itself, as a gb_result; gb_done: it may. */
uint8_t gb_why_not(void);
bool gb_may_run(void); /* the hold-to-run input allows it */

/* hand.c */
void gb_hand_tick(void);
void gb_hand_begin(void); /* with a new image */

/* line.c */
void gb_line_begin(void); /* with a new image */
void gb_line_tick(void);
void gb_line_call(uint8_t index, uint8_t state);
void gb_line_call_stop(void);

#endif
