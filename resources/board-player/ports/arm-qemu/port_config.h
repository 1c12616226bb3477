/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_PORT_CONFIG_H
#define GB_PORT_CONFIG_H

#include <stdint.h>

/* Cortex-M3: the LM3S6965 evaluation board as qemu-system-arm has it, at 12.5 MHz. */
typedef uint8_t gb_mask;
typedef uint16_t gb_at;
enum { GB_OUTPUTS = 8, GB_INPUTS = 1, GB_CHUNK = 128, GB_NV_BYTES = 1024 };

#define GB_STORE_AT 0x20008000U
#define GB_STORE_BYTES 0x7000UL
#define GB_TICK_LEAST_US 100UL
#define GB_TICK_MOST_US 250000UL

#define GB_CHIP "LM3S6965"

#endif
