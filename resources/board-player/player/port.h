/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_PORT_H
#define GB_PORT_H

#include <stdbool.h>
#include <stdint.h>

#include "port_config.h"

#if defined(__BYTE_ORDER__) && __BYTE_ORDER__ != __ORDER_LITTLE_ENDIAN__
#error "images and answers are copied as they are: the chip must be little endian"
#endif

/* What the player asks of a chip. Each port has these functions, and a port_config.h that defines
 *   gb_mask          an unsigned type with a bit for each output
 *   gb_at            an unsigned type that holds GB_STORE_BYTES
 *   GB_OUTPUTS       how many outputs it has
 *   GB_INPUTS        the inputs it has, as gb_input bits
 *   GB_CHUNK         bytes written to the store at once, at most 128
 *   GB_STORE_BYTES   room for the image
 *   GB_NV_BYTES      room that outlives power for the log and the note of a load, from 256 to 65535
 *   GB_TICK_LEAST_US, GB_TICK_MOST_US
 *   GB_CHIP          its name, at most 16 characters
 * A port calls gb_player_tick() on every tick from an interrupt, the other functions of player.h that are
 * marked so from theirs, and gb_link_poll() and gb_log_write() from its main loop. */

/* A function that costs less called than copied, which a compiler would do. */
#ifdef __GNUC__
#define GB_CALLED __attribute__((noinline))
#else
#define GB_CALLED
#endif

enum gb_input {
    gb_input_trigger = 1,
    gb_input_enable = 2, /* the output-enable input is closed */
    gb_input_rearm = 4,
    gb_input_hold = 8,
    gb_input_line = 16 /* the start line is low */
};

/* The image's store. A write is of GB_CHUNK bytes at a multiple of it, the last one of fewer. */
void gb_port_store_read(gb_at at, void* to, uint8_t count);
bool gb_port_store_write(gb_at at, const uint8_t* bytes, uint8_t count);

/* Bytes that outlive power; one that holds the value already is not written. */
void gb_port_nv_read(uint16_t at, void* to, uint8_t count);
void gb_port_nv_write(uint16_t at, const void* from, uint8_t count);

/* Sets the levels of the pins (bit 0 is output 0). */
void gb_port_levels(gb_mask levels);
/* Makes these pins outputs, at these levels from the first moment, and all others inputs. */
void gb_port_outputs(gb_mask pins, gb_mask levels);
/* Pulls the start line low or lets it go. */
void gb_port_line(bool low);
/* Goes by what this image says from now on: the tick, the active level of the trigger input, the start line.
 */
struct gb_image;
void gb_port_use(const struct gb_image* image);

/* A clock that only ever goes on, whatever the tick does; wraps around. */
uint32_t gb_port_clock_us(void);
uint32_t gb_port_seconds(void); /* since power-up */

/* Keeps interrupts away; nests. */
typedef uint8_t gb_lock;
gb_lock gb_port_lock(void);
void gb_port_unlock(gb_lock before);

/* Tells the watchdog that work that takes long is going on. */
void gb_port_alive(void);
/* A byte for the link; waits until it can go. */
void gb_port_put(uint8_t byte);

#endif
