/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_COBS_H
#define GB_COBS_H

#include <stdbool.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Consistent Overhead Byte Stuffing (Cheshire and Baker, 1999), a byte at a time, so that neither way needs a
 * second buffer. Frames here are shorter than 254 bytes; longer ones are not encoded. */

struct gb_cobs_decoder {
    uint8_t left;  /* bytes of the block that are still to come */
    bool zero_due; /* the next block is preceded by a zero */
};

enum gb_cobs_step { gb_cobs_nothing, gb_cobs_byte, gb_cobs_end, gb_cobs_broken };

void gb_cobs_begin(struct gb_cobs_decoder* decoder);
/* Takes a byte off the line. gb_cobs_byte: *out is the next decoded one. gb_cobs_end: the frame is over.
 * gb_cobs_broken: it ended within a block. After both of the last the decoder is at the beginning again. */
enum gb_cobs_step gb_cobs_take(struct gb_cobs_decoder* decoder, uint8_t byte, uint8_t* out);

struct gb_cobs_encoder {
    const uint8_t* bytes;
    uint8_t count;
    uint8_t place;
    uint8_t left; /* bytes of the block that are still to go out */
    bool ended;
};

/* Requires: count at most 253; the bytes stay in place until the last has been taken. */
void gb_cobs_send(struct gb_cobs_encoder* encoder, const uint8_t* bytes, uint8_t count);
/* The next byte for the line, the closing zero being the last; false behind it. */
bool gb_cobs_next(struct gb_cobs_encoder* encoder, uint8_t* out);

#ifdef __cplusplus
}
#endif

#endif
