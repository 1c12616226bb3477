/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/image.h"

#include "player/crc.h"

enum { head_bytes = 56, sequence_bytes = 40, crc_bytes = 4 };
enum { output_low = 1, output_used = 4, output_bits = 7 };
enum { all_flags = 15, version = 1 };

#define MAGIC 0x425447A7UL
#define LONGEST_SEQUENCE 2147483647UL
#define MOST_EVENTS (GB_STORE_BYTES / gb_event_bytes) /* more cannot be; keeps the sums from wrapping */

GB_CALLED static gb_at sequence_at(const struct gb_image* image, uint8_t index) {
    return (gb_at)(head_bytes + image->head.outputs + index * sequence_bytes);
}

void gb_sequence_read(const struct gb_image* image, uint8_t index, struct gb_sequence* sequence) {
    gb_port_store_read(sequence_at(image, index), sequence, sizeof *sequence);
}

void gb_event_read(gb_at at, struct gb_event* event) {
    gb_port_store_read(at, event, gb_event_bytes);
}

GB_CALLED bool gb_image_uses(const struct gb_image* image, uint8_t output) {
    return output < image->head.outputs && (image->used & gb_bit(output)) != 0;
}

GB_CALLED gb_mask gb_bit(uint8_t output) {
    gb_mask bit = 1;
    for (; output != 0; --output) {
        bit = (gb_mask)(bit << 1);
    }
    return bit;
}

GB_CALLED uint8_t gb_sequence_after(const struct gb_image* image, enum gb_sequence_kind kind, uint8_t index) {
    for (uint8_t left = image->head.sequences; left != 0; --left) {
        ++index;
        if (index >= image->head.sequences) { /* gb_no_sequence + 1 is 0 */
            index = 0;
        }
        if (image->kinds[index] == kind) {
            return index;
        }
    }
    return gb_no_sequence;
}

static uint32_t crc_of_store(gb_at end) {
    uint32_t crc = GB_CRC32_BEGIN;
    for (gb_at at = 0; at != end; ++at) {
        uint8_t byte;
        gb_port_store_read(at, &byte, 1);
        crc = gb_crc32(crc, byte);
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
    image->name.length = head->length;
    gb_port_store_read(end, &image->name.crc, crc_bytes);
    return crc_of_store(end) == image->name.crc ? gb_image_good : gb_image_crc;
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

/* In order of tick, then of output, and none twice; the last tick that may drive is the one before the end.
 */
static bool events_good(const struct gb_image* image, uint32_t length, gb_at at, gb_at end) {
    uint32_t tick = 0;
    uint8_t least = 0;
    for (; at != end; at = (gb_at)(at + gb_event_bytes)) {
        struct gb_event event;
        gb_event_read(at, &event);
        if (event.tick != tick) {
            least = 0;
        }
        if (event.level > 1 || event.tick < tick || event.tick > length - event.level ||
            event.output < least || !gb_image_uses(image, event.output)) {
            return false;
        }
        tick = event.tick;
        least = (uint8_t)(event.output + 1U);
        gb_port_alive();
    }
    return true;
}

static bool sequence_good(const struct gb_sequence* sequence) {
    return sequence->kind < gb_kinds && sequence->length != 0 &&
           (sequence->length | sequence->lockout) <= LONGEST_SEQUENCE && sequence->events <= MOST_EVENTS;
}

static enum gb_image_state check_sequences(struct gb_image* image) {
    const gb_at end = (gb_at)(image->head.length - crc_bytes);
    gb_at at = sequence_at(image, image->head.sequences);
    for (uint8_t i = 0; i < image->head.sequences; ++i) {
        struct gb_sequence sequence;
        gb_sequence_read(image, i, &sequence);
        if (at > end || sequence.at != at || !sequence_good(&sequence)) {
            return gb_image_sequence;
        }
        image->kinds[i] = (uint8_t)sequence.kind;
        const gb_at next = (gb_at)(at + sequence.events * gb_event_bytes);
        if (next > end || !events_good(image, sequence.length, at, next)) {
            return gb_image_event;
        }
        at = next;
    }
    return at == end ? gb_image_good : gb_image_length;
}

bool gb_image_store_blank(void) {
    uint32_t first;
    gb_port_store_read(0, &first, sizeof first);
    return first + 1U <= 1U;
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
