/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_IMAGE_H
#define GB_IMAGE_H

#include <stdbool.h>
#include <stdint.h>

#include "player/port.h"

/* The table image (image.md), read from the port's store. */

enum gb_image_state {
    gb_image_none = 0,
    gb_image_good = 1,
    gb_image_magic = 2, /* why it is bad */
    gb_image_version = 3,
    gb_image_length = 4,
    gb_image_crc = 5,
    gb_image_outputs = 6,
    gb_image_tick = 7,
    gb_image_head = 8,
    gb_image_sequence = 9,
    gb_image_event = 10
};

enum gb_image_flag {
    gb_flag_trigger_high = 1,
    gb_flag_in_turn = 2,
    gb_flag_hold_to_run = 4,
    gb_flag_rearm_at_power_up = 8
};

enum gb_start_line { gb_line_none, gb_line_leads, gb_line_follows };
enum gb_sequence_kind { gb_kind_triggered, gb_kind_idle, gb_kind_by_hand, gb_kinds };

enum { gb_sequences_most = 16, gb_no_sequence = 0xFF };

/* The parts of an image as they stand in it: they hold no gaps, and are little endian as the chip is. The
 * names at the ends of head and sequence are left out. */
struct gb_head {
    uint32_t magic;
    uint8_t version;
    uint8_t flags;
    uint8_t outputs;
    uint8_t sequences;
    uint32_t length;
    uint32_t revision;
    uint32_t board;
    uint32_t tick_us;
    uint32_t warm_up;
    uint16_t debounce;
    uint8_t start_line;
    uint8_t zero;
};

struct gb_sequence {
    uint32_t id;
    uint32_t kind; /* and the three zeros behind it */
    uint32_t length;
    uint32_t lockout;
    uint32_t events;
    uint32_t at;
};

struct gb_event {
    uint32_t tick;
    uint8_t output;
    uint8_t level;
};

enum { gb_event_bytes = 6 };

/* By which a load knows an image: as it stands in the requests. */
struct gb_image_name {
    uint32_t length;
    uint32_t crc;
};

/* What the player keeps of an image while it plays. */
struct gb_image {
    struct gb_head head;
    struct gb_image_name name;
    gb_mask low;                      /* outputs whose pin is low when driven */
    gb_mask used;                     /* outputs a channel hangs on */
    uint8_t kinds[gb_sequences_most]; /* of its sequences */
};

/* Checks the whole image and fills in `image`, which means nothing unless the result is gb_image_good. Takes
 * its time. */
enum gb_image_state gb_image_check(struct gb_image* image);
/* Whether nothing has ever been put where the image is to be: flash and EEPROM begin as ones, RAM as zeros.
 */
bool gb_image_store_blank(void);

/* Of an image that was found good. Requires: index below its sequences. */
void gb_sequence_read(const struct gb_image* image, uint8_t index, struct gb_sequence* sequence);
void gb_event_read(gb_at at, struct gb_event* event);

/* Whether there is such an output and a channel hangs on it. */
bool gb_image_uses(const struct gb_image* image, uint8_t output);
/* The bit of an output. Requires: one that a gb_mask has. */
gb_mask gb_bit(uint8_t output);

/* The sequence of a kind that comes after the one given, going around, the first one after gb_no_sequence.
 * gb_no_sequence: there is none. */
uint8_t gb_sequence_after(const struct gb_image* image, enum gb_sequence_kind kind, uint8_t index);

#endif
