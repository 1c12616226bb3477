/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_PORT_CONFIG_H
#define GB_PORT_CONFIG_H

#include <stdint.h>

/* A POSIX host that plays a board: for trying a table and the link without a chip. */
typedef uint32_t gb_mask;
typedef uint32_t gb_at;
enum { GB_OUTPUTS = 32, GB_INPUTS = 15, GB_CHUNK = 128, GB_NV_BYTES = 1024 };

#define GB_STORE_BYTES 1048576UL
#define GB_TICK_LEAST_US 100UL
#define GB_TICK_MOST_US 250000UL

#define GB_CHIP "host"

#endif
