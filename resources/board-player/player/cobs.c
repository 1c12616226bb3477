/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/cobs.h"

void gb_cobs_begin(struct gb_cobs_decoder* decoder) {
    decoder->left = 0;
    decoder->zero_due = false;
}

enum gb_cobs_step gb_cobs_take(struct gb_cobs_decoder* decoder, uint8_t byte, uint8_t* out) {
    if (byte == 0) {
        const bool whole = decoder->left == 0;
        gb_cobs_begin(decoder);
        return whole ? gb_cobs_end : gb_cobs_broken;
    }
    if (decoder->left != 0) {
        --decoder->left;
        *out = byte;
        return gb_cobs_byte;
    }
    const bool zero = decoder->zero_due;
    decoder->left = (uint8_t)(byte - 1U);
    decoder->zero_due = byte != 0xFF;
    *out = 0;
    return zero ? gb_cobs_byte : gb_cobs_nothing;
}

void gb_cobs_send(struct gb_cobs_encoder* encoder, const uint8_t* bytes, uint8_t count) {
    encoder->bytes = bytes;
    encoder->count = count;
    encoder->place = 0;
    encoder->left = 0;
    encoder->ended = false;
}

/* How many bytes other than zero stand from `place` on. */
static uint8_t block(const struct gb_cobs_encoder* encoder) {
    uint8_t end = encoder->place;
    while (end < encoder->count && encoder->bytes[end] != 0) {
        ++end;
    }
    return (uint8_t)(end - encoder->place);
}

bool gb_cobs_next(struct gb_cobs_encoder* encoder, uint8_t* out) {
    if (encoder->ended) {
        return false;
    }
    if (encoder->left > 1) {
        --encoder->left;
        *out = encoder->bytes[encoder->place++];
        return true;
    }
    if (encoder->left == 1) { /* a block is out; the zero behind it is what the next block stands for */
        if (encoder->place == encoder->count) {
            encoder->ended = true;
            *out = 0;
            return true;
        }
        ++encoder->place;
    }
    encoder->left = (uint8_t)(block(encoder) + 1U);
    *out = encoder->left;
    return true;
}
