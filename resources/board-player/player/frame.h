/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_FRAME_H
#define GB_FRAME_H

#include <stdbool.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Frames as protocol.md describes them. One buffer takes a frame off the line, is opened, changed into the
 * answer, closed and sent. */

enum {
    gb_frame_version = 1, /* where they stand, behind the byte that the encoding adds */
    gb_frame_type = 2,
    gb_frame_sequence = 3,
    gb_frame_payload = 4,
    gb_frame_payload_most = 132,
    gb_frame_crc_bytes = 2,
    gb_frame_line_most = gb_frame_payload + gb_frame_payload_most + gb_frame_crc_bytes + 1
};

struct gb_frame {
    uint8_t bytes[gb_frame_line_most];
    uint8_t count; /* of the bytes so far; of the payload once it is open; on the line once it is closed */
};

void gb_frame_begin(struct gb_frame* frame);
/* Takes a byte off the line: short enough for an interrupt. True: a frame is over, good or not, and
 * gb_frame_begin() comes before the next byte. */
bool gb_frame_take(struct gb_frame* frame, uint8_t byte);

/* Decodes a frame that is over, once. False: it is too short, too long, not COBS, or its CRC is wrong. */
bool gb_frame_open(struct gb_frame* frame);
/* Makes what goes out on the line of an open frame with `count` bytes of payload: its CRC, the encoding, the
 * zero at its end. */
void gb_frame_close(struct gb_frame* frame);

#ifdef __cplusplus
}
#endif

#endif
