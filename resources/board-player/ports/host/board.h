/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_BOARD_H
#define GB_BOARD_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>

/* The clock, the pins and the inputs of the board. */

/* `fast`: the clock goes on only as board_go_to() says. `trace`: gets a line for each change of the outputs,
 * or null. */
void board_begin(bool fast, FILE* trace);
/* The clock in us, and that of the next thing that is due. */
uint64_t board_now(void);
uint64_t board_next(void);
void board_go_to(uint64_t us);
/* Does all that has been due up to now, in order. */
void board_catch_up(void);

void board_trip(void);        /* the trigger input, for 100 ms */
void board_press_rearm(void); /* for a second */
void board_enable(bool closed);

#endif
