/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_PLAYER_H
#define GB_PLAYER_H

#include <stdbool.h>
#include <stdint.h>

/* When which sequence runs. "From interrupts" means: with interrupts off, each in a bounded time. */

/* At power-up, before interrupts: everything rests, the image is checked and taken. `cause`: gb_reset_cause.
 */
void gb_player_begin(uint8_t cause);
/* Checks the image and takes it if it is good; returns its gb_image_state. From the main loop. */
uint8_t gb_player_take_image(void);
/* Ends an idle run and gives up the image, its outputs with it. Returns a gb_result. From the main loop. */
uint8_t gb_player_give_up_image(void);

/* From interrupts: on every tick, with the inputs as they are. */
void gb_player_tick(uint8_t inputs);

enum gb_sample {
    gb_sample_again, /* look again in one tick */
    gb_sample_over,  /* until the next edge */
    gb_sample_start  /* over, and ticks are counted from this moment on */
};
/* From interrupts: the trigger input one tick after its edge, and each tick after that as long as the result
 * is gb_sample_again. */
enum gb_sample gb_player_trigger(bool active);
/* From interrupts: the output-enable input opened. */
void gb_player_disabled(void);
/* From interrupts: the start line went high. True: ticks are counted from this moment on. */
bool gb_player_line_released(void);

/* A lamp that tells how it is: 0 off, no image; 1 on, ready or running; 2 blinking, stopped or armed. */
uint8_t gb_player_lamp(void);

#endif
