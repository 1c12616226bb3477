/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_SERIAL_H
#define GB_SERIAL_H

/* The serial port and the link on it. A board whose table is compiled in can do without (make LINK=no). */
#ifdef GB_WITHOUT_LINK
static inline void serial_begin(void) {}
static inline void serial_answer(void) {}
#else
void serial_begin(void);
void serial_answer(void);
#endif

#endif
