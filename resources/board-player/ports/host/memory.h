/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_MEMORY_H
#define GB_MEMORY_H

/* Store and log of the board, erased at first. Each of these ends the program when the file cannot be read.
 */
void memory_begin(void);
/* Puts an image into the store. */
void memory_load(const char* image);
/* Takes both from a file, if there is one, and keeps them there from now on. */
void memory_keep(const char* file);

#endif
