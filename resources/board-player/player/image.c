/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/image.h"

#include "player/crc.h"

enum { head_bytes = 56, sequence_bytes = 40, crc_bytes = 4 };
enum { output_low = 1, output_used = 4, output_bits = 7 };
enum { all_flags = 15, version = 1, at_once = 32 };

#define MAGIC 0x425447A7UL
#define LONGEST_SEQUENCE 2147483647UL
#define MOST_EVENTS (GB_STORE_BYTES / gb_event_bytes) /* more cannot be; keeps the sums from wrapping */

static gb_at sequence_at(const struct gb_image* image, uint8_t index) {
    return (gb_at)(head_bytes + image->head.outputs + index * sequence_bytes);
}

void gb_sequence_read(const struct gb_image* image, uint8_t index, struct gb_sequence* sequence) {
    gb_port_store_read(sequence_at(image, index), sequence, sizeof *sequence);
}

void gb_event_read(gb_at at, struct gb_event* event) {
    gb_port_store_read(at, event, gb_event_bytes);
}

uint8_t gb_sequence_after(const struct gb_image* image, enum gb_sequence_kind kind, uint8_t index) {
    const uint16_t of_kind = image->kind[kind];
    for (uint8_t i = 0; of_kind != 0 && i < image->head.sequences; ++i) {
        ++index;
        if (index >= image->head.sequences) {
            index = 0;
        }
        if ((of_kind >> index & 1U) != 0) {
            return index;
        }
    }
    return gb_sequences_most;
}

static uint32_t crc_of_store(gb_at end) {
    uint32_t crc = GB_CRC32_BEGIN;
    for (gb_at at = 0; at < end;) {
        uint8_t bytes[at_once];
        const uint8_t count = end - at < at_once ? (uint8_t)(end - at) : at_once;
        gb_port_store_read(at, bytes, count);
        for (uint8_t i = 0; i < count; ++i) {
            crc = gb_crc32(crc, bytes[i]);
        }
        at = (gb_at)(at + count);
        gb_port_alive();
    }
    return ~crc;
}

static enum gb_image_state check_whole(struct gb_image* image) {
    const struct gb_head* head = &image->head;
    gb_port_store_read(0, &image->head, sizeof image->head);
    if (head->magic != MAGIC) {
        return gb_image_magic;
    }
    if (head->version != version) {
        return gb_image_version;
    }
    if (head->length < head_bytes + crc_bytes || head->length > GB_STORE_BYTES) {
        return gb_image_length;
    }
    const gb_at end = (gb_at)(head->length - crc_bytes);
    gb_port_store_read(end, &image->crc, crc_bytes);
    return crc_of_store(end) == image->crc ? gb_image_good : gb_image_crc;
}

static enum gb_image_state check_head(const struct gb_head* head) {
    if (head->outputs > GB_OUTPUTS) {
        return gb_image_outputs;
    }
    if (head->tick_us < GB_TICK_LEAST_US || head->tick_us > GB_TICK_MOST_US) {
        return gb_image_tick;
    }
    if (head->outputs == 0 || head->sequences == 0 || head->sequences > gb_sequences_most ||
        head->debounce == 0 || head->flags > all_flags || head->start_line > gb_line_follows ||
        head->zero != 0) {
        return gb_image_head;
    }
    return gb_image_good;
}

static enum gb_image_state check_outputs(struct gb_image* image) {
    gb_mask bit = 1;
    image->low = 0;
    image->used = 0;
    for (uint8_t i = 0; i < image->head.outputs; ++i, bit = (gb_mask)(bit << 1)) {
        uint8_t output;
        gb_port_store_read((gb_at)(head_bytes + i), &output, 1);
        if (output > output_bits) {
            return gb_image_head;
        }
        if ((output & output_low) != 0) {
            image->low |= bit;
        }
        if ((output & output_used) != 0) {
            image->used |= bit;
        }
    }
    return gb_image_good;
}

static bool event_good(const struct gb_image* image, const struct gb_event* event, uint32_t length) {
    return event->level <= 1 && event->output < image->head.outputs &&
           ((gb_mask)(image->used >> event->output) & 1U) != 0 && event->tick <= length &&
           event->tick + event->level <= length;
}

/* By tick, then by output, and none twice. */
static bool in_order(const struct gb_event* before, const struct gb_event* event) {
    return event->tick > before->tick || (event->tick == before->tick && event->output > before->output);
}

static bool events_good(const struct gb_image* image, const struct gb_sequence* sequence) {
    struct gb_event before = {0, 0, 0};
    gb_at at = (gb_at)sequence->at;
    for (gb_at i = 0; i < sequence->events; ++i, at = (gb_at)(at + gb_event_bytes)) {
        struct gb_event event;
        gb_event_read(at, &event);
        if (!event_good(image, &event, sequence->length) || (i > 0 && !in_order(&before, &event))) {
            return false;
        }
        before = event;
        gb_port_alive();
    }
    return true;
}

static bool sequence_good(const struct gb_sequence* sequence, uint32_t expected_at) {
    return (sequence->zero[0] | sequence->zero[1] | sequence->zero[2]) == 0 && sequence->kind < gb_kinds &&
           sequence->length > 0 && sequence->length <= LONGEST_SEQUENCE &&
           sequence->lockout <= LONGEST_SEQUENCE && sequence->events <= MOST_EVENTS &&
           sequence->at == expected_at;
}

static enum gb_image_state check_sequences(struct gb_image* image) {
    const uint32_t end = image->head.length - crc_bytes;
    uint32_t at = sequence_at(image, image->head.sequences);
    image->kind[gb_kind_triggered] = image->kind[gb_kind_idle] = image->kind[gb_kind_by_hand] = 0;
    for (uint8_t i = 0; i < image->head.sequences; ++i) {
        struct gb_sequence sequence;
        gb_sequence_read(image, i, &sequence);
        if (at > end || !sequence_good(&sequence, at)) {
            return gb_image_sequence;
        }
        at += sequence.events * gb_event_bytes;
        if (at > end || !events_good(image, &sequence)) {
            return gb_image_event;
        }
        image->kind[sequence.kind] |= (uint16_t)(1U << i);
    }
    return at == end ? gb_image_good : gb_image_length;
}

enum gb_image_state gb_image_check(struct gb_image* image) {
    enum gb_image_state state = check_whole(image);
    if (state == gb_image_good) {
        state = check_head(&image->head);
    }
    if (state == gb_image_good) {
        state = check_outputs(image);
    }
    return state == gb_image_good ? check_sequences(image) : state;
}
