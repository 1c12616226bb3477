/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/frame.h"

#include "player/cobs.h"
#include "player/crc.h"

enum {
    without_payload = gb_frame_payload + gb_frame_crc_bytes,
    head_bytes = gb_frame_payload - gb_frame_version
};

void gb_frame_begin(struct gb_frame* frame) {
    frame->count = 0;
}

bool gb_frame_take(struct gb_frame* frame, uint8_t byte) {
    if (byte == 0) {
        return frame->count != 0;
    }
    if (frame->count < gb_frame_line_most) { /* full: it is too long */
        frame->bytes[frame->count++] = byte;
    }
    return false;
}

static uint16_t crc_of(const struct gb_frame* frame) {
    return gb_crc16(frame->bytes + gb_frame_version, (uint8_t)(frame->count + head_bytes));
}

bool gb_frame_open(struct gb_frame* frame) {
    const uint8_t on_line = frame->count;
    if (on_line < without_payload || on_line == gb_frame_line_most ||
        !gb_cobs_decode(frame->bytes, on_line)) {
        return false;
    }
    frame->count = (uint8_t)(on_line - without_payload);
    const uint8_t* end = frame->bytes + on_line;
    return crc_of(frame) == (uint16_t)(end[-2] | ((uint16_t)end[-1] << 8));
}

void gb_frame_close(struct gb_frame* frame) {
    const uint16_t crc = crc_of(frame);
    frame->count = (uint8_t)(frame->count + without_payload);
    uint8_t* end = frame->bytes + frame->count;
    end[-2] = (uint8_t)crc;
    end[-1] = (uint8_t)(crc >> 8);
    gb_cobs_encode(frame->bytes, frame->count);
    frame->bytes[frame->count++] = 0;
}
