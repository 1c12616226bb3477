/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_COBS_H
#define GB_COBS_H

#include <stdbool.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Consistent Overhead Byte Stuffing (Cheshire and Baker, 1999), in place: the one byte it adds to so few is
 * the first, so that nothing moves. The zero that ends a frame on the line is no part of it. */
enum { gb_cobs_most = 253 };

/* Fills in the first byte and replaces what is zero among the others. Requires: 1 to gb_cobs_most + 1 bytes.
 */
void gb_cobs_encode(uint8_t* bytes, uint8_t count);
/* Puts the zeros back behind the first byte. False: this is no encoding. */
bool gb_cobs_decode(uint8_t* bytes, uint8_t count);

#ifdef __cplusplus
}
#endif

#endif
