/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_CLOCK_H
#define GB_CLOCK_H

#include <stdbool.h>

void clock_begin(void);
/* Whether a tick has passed since the last call. */
bool clock_ticked(void);

#endif
