/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_HAND_H
#define GB_HAND_H

#include <stdint.h>

/* What a person does over the link, by its token. Each returns a gb_result. From the main loop, with
 * interrupts off. */

/* A good frame came: an arming lasts from here on. */
void gb_hand_frame(void);
uint8_t gb_hand_arm(uint16_t* token);
void gb_hand_disarm(void);
/* Drives an output until 500 ms after the last call; gb_no_output lets go. */
uint8_t gb_hand_hold(uint16_t token, uint8_t output);
uint8_t gb_hand_run(uint16_t token, uint8_t index);
void gb_hand_stop(void);
uint8_t gb_hand_go_on(uint16_t token);

#endif
