/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/frame.h"

#include "player/crc.h"

void gb_frame_begin(struct gb_frame* frame) {
    frame->count = 0;
    frame->too_long = false;
    gb_cobs_begin(&frame->decoder);
}

static enum gb_frame_step ended(struct gb_frame* frame) {
    if (!frame->too_long && frame->count >= gb_frame_least) {
        return gb_frame_ended;
    }
    const bool something = frame->count != 0;
    gb_frame_begin(frame);
    return something ? gb_frame_dropped : gb_frame_more;
}

enum gb_frame_step gb_frame_take(struct gb_frame* frame, uint8_t byte) {
    uint8_t decoded = 0;
    switch (gb_cobs_take(&frame->decoder, byte, &decoded)) {
        case gb_cobs_byte:
            if (frame->count == gb_frame_most) {
                frame->too_long = true;
            } else {
                frame->bytes[frame->count++] = decoded;
            }
            return gb_frame_more;
        case gb_cobs_end:
            return ended(frame);
        case gb_cobs_broken:
            gb_frame_begin(frame);
            return gb_frame_dropped;
        case gb_cobs_nothing:
            break;
    }
    return gb_frame_more;
}

static uint16_t crc_of(const struct gb_frame* frame, uint8_t count) {
    uint16_t crc = GB_CRC16_BEGIN;
    for (uint8_t i = 0; i < count; ++i) {
        crc = gb_crc16(crc, frame->bytes[i]);
    }
    return crc;
}

uint16_t gb_frame_crc(const struct gb_frame* frame) {
    const uint8_t* end = frame->bytes + frame->count;
    return (uint16_t)(end[-2] | ((uint16_t)end[-1] << 8));
}

bool gb_frame_good(const struct gb_frame* frame) {
    return crc_of(frame, (uint8_t)(frame->count - 2U)) == gb_frame_crc(frame);
}

uint8_t gb_frame_payload_count(const struct gb_frame* frame) {
    return (uint8_t)(frame->count - gb_frame_least);
}

void gb_frame_send(struct gb_frame* frame, uint8_t payload_count, struct gb_cobs_encoder* encoder) {
    const uint8_t end = (uint8_t)(gb_frame_payload + payload_count);
    const uint16_t crc = crc_of(frame, end);
    frame->bytes[end] = (uint8_t)crc;
    frame->bytes[end + 1] = (uint8_t)(crc >> 8);
    frame->count = (uint8_t)(end + 2U);
    gb_cobs_send(encoder, frame->bytes, frame->count);
}
