/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/log.h"

#include <stddef.h>
#include <string.h>

#include "player/crc.h"
#include "player/port.h"

/* Layout of the bytes that outlive power:
 *   0   the note of a load
 *   16  two sums of 16 bytes, taken in turn
 *   64  entries of 5 bytes, a ring: the pass in bit 7 and the kind, the detail, seconds u24
 * The ring is written around and around; the low bit of a pass's number marks its entries. The end of the log
 * is the first entry that is not of the present pass. At the beginning of each pass the counts so far are
 * summed up, so that entries may be written over and no byte is written often. */
enum { note_at = 0, sum_at = 16, sum_bytes = 16, ring_at = 64, entry_bytes = 5 };
enum {
    ring_entries = (GB_NV_BYTES - ring_at) / entry_bytes,
    ring_end = ring_at + ring_entries * entry_bytes
};
enum { kind_none = 0x7F, pass_bit = 0x80, kind_bits = 0x7F };
enum { queue_entries = 8 };

struct sum {
    uint16_t counts[gb_entry_fault + 1];
    uint8_t pass;
    bool alone; /* entries of the pass before are not of this log */
    uint16_t crc;
};

struct entry {
    uint8_t kind;
    uint8_t detail;
    uint8_t seconds[3];
};

static struct sum now;
static uint16_t head; /* where the next entry goes */
static uint16_t
    kept; /* entries of this log; but for the one at the end of a pass before, written over next */

/* What is still to be written: a ring, too. Both counts only ever go up, one by those who post, one by the
 * main loop. */
static struct entry queue[queue_entries];
static volatile uint8_t posted;
static volatile uint8_t written;
static volatile bool lost;

static uint16_t sum_crc(const struct sum* sum) {
    return gb_crc16(sum, offsetof(struct sum, crc));
}

static uint16_t sum_place(uint8_t pass) {
    return (pass & 1U) != 0 ? sum_at + sum_bytes : sum_at;
}

static bool read_sum(uint8_t copy, struct sum* sum) {
    gb_port_nv_read(sum_place(copy), sum, sizeof *sum);
    return sum_crc(sum) == sum->crc;
}

GB_CALLED static uint8_t pass_mark(void) {
    return (now.pass & 1U) != 0 ? pass_bit : 0;
}

/* kind_none: what stands where the next entry goes is not of this pass. */
static uint8_t kind_at_head(void) {
    uint8_t kind = kind_none;
    if (head != ring_end) {
        gb_port_nv_read(head, &kind, 1);
        kind ^= pass_mark();
    }
    return (kind & pass_bit) != 0 ? kind_none : kind;
}

static void count(uint8_t kind) {
    if (kind <= gb_entry_fault) {
        ++now.counts[kind];
    }
    if (kept != ring_entries - 1) {
        ++kept;
    }
}

/* Sees to it that the end of the log can be found. */
static void close_end(void) {
    static const uint8_t none = 0xFF;
    if (kind_at_head() != kind_none) {
        gb_port_nv_write(head, &none, 1);
    }
}

static void next_pass(bool alone) {
    ++now.pass;
    now.alone = alone;
    head = ring_at;
    close_end();
    now.crc = sum_crc(&now);
    gb_port_nv_write(sum_place(now.pass), &now, sizeof now);
}

GB_CALLED static void turn_at_end(void) {
    if (head == ring_end) {
        next_pass(false);
    }
}

void gb_log_begin(void) {
    struct sum other;
    const bool even = read_sum(0, &now);
    const bool odd = read_sum(1, &other);
    if (odd && (!even || (uint8_t)(other.pass - now.pass) < 128)) {
        now = other;
    } else if (!even) { /* never used, or both damaged: a log of its own */
        gb_log_clear();
    }
    kept = now.alone ? 0 : ring_entries - 1;
    uint8_t kind;
    for (head = ring_at; (kind = kind_at_head()) != kind_none; head += entry_bytes) {
        count(kind);
    }
    turn_at_end(); /* when power went before it could */
}

void gb_log_post(uint8_t kind, uint8_t detail) {
    const uint32_t seconds = gb_port_seconds();
    const gb_lock lock = gb_port_lock();
    const uint8_t count = posted;
    struct entry* entry = &queue[count % queue_entries]; /* is free */
    entry->kind = kind;
    entry->detail = detail;
    memcpy(entry->seconds, &seconds, sizeof entry->seconds);
    if (memcmp(entry, &queue[(uint8_t)(count - 1U) % queue_entries], sizeof *entry) == 0) {
        /* told already */
    } else if ((uint8_t)(count - written) == queue_entries - 1) {
        lost = true;
    } else {
        posted = (uint8_t)(count + 1U);
    }
    gb_port_unlock(lock);
}

static void write_entry(const struct entry* entry) {
    const uint16_t at = head;
    const uint8_t kind = entry->kind | pass_mark();
    head += entry_bytes;
    close_end();
    gb_port_nv_write((uint16_t)(at + 1), &entry->detail, entry_bytes - 1);
    gb_port_nv_write(at, &kind, 1); /* last: with it the entry is there */
    count(entry->kind);
    turn_at_end();
}

void gb_log_write(void) {
    while (written != posted) {
        write_entry(&queue[written % queue_entries]);
        ++written;
    }
    if (lost) {
        lost = false;
        gb_log_post(gb_entry_fault, gb_fault_lost_entries);
    }
}

void gb_log_clear(void) {
    memset(now.counts, 0, sizeof now.counts);
    kept = 0;
    next_pass(true);
}

uint16_t gb_log_count(uint8_t kind) {
    return now.counts[kind];
}

uint16_t gb_log_kept(void) {
    return kept;
}

void gb_log_read(uint16_t index, uint8_t* entry) {
    const uint16_t oldest = now.alone ? ring_at : (uint16_t)(head + entry_bytes);
    uint16_t at = (uint16_t)(oldest + index * entry_bytes);
    if (at >= ring_end) {
        at = (uint16_t)(at - ring_entries * entry_bytes);
    }
    gb_port_nv_read(at, entry, entry_bytes);
    entry[0] &= kind_bits;
    entry[entry_bytes] = 0;
}

void gb_note_read(struct gb_load_note* note) {
    gb_port_nv_read(note_at, note, sizeof *note);
}

void gb_note_write(const struct gb_load_note* note) {
    gb_port_nv_write(note_at, note, sizeof *note);
}
