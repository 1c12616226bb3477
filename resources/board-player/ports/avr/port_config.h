/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_PORT_CONFIG_H
#define GB_PORT_CONFIG_H

#include <stdint.h>

/* ATmega328P at 16 MHz. */
typedef uint16_t gb_mask;
typedef uint16_t gb_at;
enum { GB_OUTPUTS = 12, GB_INPUTS = 31, GB_CHUNK = 128, GB_NV_BYTES = 1024 };

/* The table stands in flash behind the player and before the boot section. */
#define GB_STORE_AT 0x2000U
#define GB_STORE_BYTES 0x5E00UL

/* The timer counts half microseconds in 16 bits. */
#define GB_TICK_LEAST_US 500UL
#define GB_TICK_MOST_US 30000UL

#define GB_CHIP "ATmega328P"

#endif
