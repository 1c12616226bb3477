/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_LINK_H
#define GB_LINK_H

#include <stdint.h>

/* The board's end of the link (protocol.md). */

void gb_link_begin(void);
/* A byte off the line; from an interrupt or not. Bytes that come while a frame waits to be answered are lost:
 * the host speaks only when it has had its answer. */
void gb_link_take(uint8_t byte);
/* Answers a frame that has come. From the main loop. */
void gb_link_poll(void);

#endif
