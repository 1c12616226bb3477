/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_FRAME_H
#define GB_FRAME_H

#include <stdbool.h>
#include <stdint.h>

#include "player/cobs.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Frames as protocol.md describes them. One buffer takes a frame in, is changed into the answer and sent. */

enum {
    gb_frame_version = 0, /* where they stand */
    gb_frame_type = 1,
    gb_frame_sequence = 2,
    gb_frame_payload = 3,
    gb_frame_payload_most = 132,
    gb_frame_least = 5,
    gb_frame_most = gb_frame_payload + gb_frame_payload_most + 2,
    gb_frame_line_most = gb_frame_most + 2
};

struct gb_frame {
    uint8_t bytes[gb_frame_most]; /* decoded: from the version to the CRC */
    uint8_t count;
    bool too_long;
    struct gb_cobs_decoder decoder;
};

enum gb_frame_step {
    gb_frame_more,   /* nothing yet */
    gb_frame_ended,  /* a frame stands in `bytes`; whether it is good gb_frame_good() says */
    gb_frame_dropped /* one ended that is none: too short, too long, cut or not COBS */
};

void gb_frame_begin(struct gb_frame* frame);
/* Takes a byte off the line: short enough for an interrupt. After gb_frame_ended, gb_frame_begin() comes
 * before the next byte. */
enum gb_frame_step gb_frame_take(struct gb_frame* frame, uint8_t byte);

/* Whether the CRC of a frame that ended is right. */
bool gb_frame_good(const struct gb_frame* frame);
/* Bytes of payload of a frame that ended. */
uint8_t gb_frame_payload_count(const struct gb_frame* frame);
/* The CRC a frame that ended came with. */
uint16_t gb_frame_crc(const struct gb_frame* frame);

/* Puts the CRC behind a payload of so many bytes and sets the encoder to send the frame. */
void gb_frame_send(struct gb_frame* frame, uint8_t payload_count, struct gb_cobs_encoder* encoder);

#ifdef __cplusplus
}
#endif

#endif
