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
enum { ring_entries = (GB_NV_BYTES - ring_at) / entry_bytes };
enum { kind_none = 0x7F, pass_bit = 0x80, kind_bits = 0x7F };
enum { queue_entries = 6 };

struct sum {
    uint16_t counts[gb_entry_fault + 1];
    uint8_t pass;
    uint8_t alone; /* entries of the pass before are not of this log */
    uint16_t crc;
};

/* An entry as it is kept. */
struct kept {
    uint8_t pass_and_kind;
    uint8_t detail;
    uint8_t seconds[3];
};

static struct sum now;
static uint16_t head; /* where the next entry goes */
static struct gb_entry queue[queue_entries];
static volatile uint8_t queued;
static struct gb_entry last;
static volatile bool lost;

static uint16_t sum_place(uint8_t pass) {
    return (pass & 1U) != 0 ? sum_at + sum_bytes : sum_at;
}

static uint16_t sum_crc(const struct sum* sum) {
    const uint8_t* bytes = (const uint8_t*)sum;
    uint16_t crc = GB_CRC16_BEGIN;
    for (uint8_t i = 0; i < offsetof(struct sum, crc); ++i) {
        crc = gb_crc16(crc, bytes[i]);
    }
    return crc;
}

static bool read_sum(uint8_t copy, struct sum* sum) {
    gb_port_nv_read(sum_place(copy), sum, sizeof *sum);
    return sum_crc(sum) == sum->crc && (sum->pass & 1U) == copy;
}

static uint16_t entry_place(uint16_t slot) {
    return (uint16_t)(ring_at + slot * entry_bytes);
}

static uint8_t pass_mark(void) {
    return (now.pass & 1U) != 0 ? pass_bit : 0;
}

static bool of_this_pass(uint16_t slot, struct kept* kept) {
    gb_port_nv_read(entry_place(slot), kept, sizeof *kept);
    return (kept->pass_and_kind & kind_bits) != kind_none && (kept->pass_and_kind & pass_bit) == pass_mark();
}

static void count(uint8_t kind) {
    if (kind <= gb_entry_fault) {
        ++now.counts[kind];
    }
}

/* Sees to it that the end of the log can be found: what stands where the next entry goes is not of this pass.
 */
static void close_end(void) {
    static const uint8_t none = 0xFF;
    struct kept kept;
    if (head < ring_entries && of_this_pass(head, &kept)) {
        gb_port_nv_write(entry_place(head), &none, 1);
    }
}

static void next_pass(bool alone) {
    ++now.pass;
    now.alone = alone ? 1 : 0;
    head = 0;
    close_end();
    now.crc = sum_crc(&now);
    gb_port_nv_write(sum_place(now.pass), &now, sizeof now);
}

void gb_log_begin(void) {
    struct sum other;
    const bool even = read_sum(0, &now);
    const bool odd = read_sum(1, &other);
    if (odd && (!even || (uint8_t)(other.pass - now.pass) < 128)) {
        now = other;
    } else if (!even) { /* never used, or both damaged: a log of its own */
        memset(&now, 0, sizeof now);
        next_pass(true);
    }
    struct kept kept;
    for (head = 0; head < ring_entries && of_this_pass(head, &kept); ++head) {
        count(kept.pass_and_kind & kind_bits);
    }
}

void gb_log_post(uint8_t kind, uint8_t detail) {
    const struct gb_entry entry = {gb_port_seconds(), kind, detail};
    const gb_lock lock = gb_port_lock();
    if (last.kind == kind && last.detail == detail && last.seconds == entry.seconds) {
        /* told already */
    } else if (queued == queue_entries) {
        lost = true;
    } else {
        last = entry;
        queue[queued++] = entry;
    }
    gb_port_unlock(lock);
}

static void write_entry(const struct gb_entry* entry) {
    if (head == ring_entries) {
        next_pass(false);
    }
    const uint16_t at = entry_place(head++);
    struct kept kept = {(uint8_t)(pass_mark() | entry->kind), entry->detail, {0}};
    memcpy(kept.seconds, &entry->seconds, sizeof kept.seconds);
    close_end();
    gb_port_nv_write((uint16_t)(at + 1), &kept.detail, sizeof kept - 1);
    gb_port_nv_write(at, &kept.pass_and_kind, 1); /* last: with it the entry is there */
    count(entry->kind);
}

static bool take_queued(struct gb_entry* entry) {
    const gb_lock lock = gb_port_lock();
    const bool some = queued != 0;
    if (some) {
        *entry = queue[0];
        --queued;
        for (uint8_t i = 0; i < queued; ++i) {
            queue[i] = queue[i + 1];
        }
    }
    gb_port_unlock(lock);
    return some;
}

void gb_log_write(void) {
    struct gb_entry entry = {0, 0, 0};
    while (take_queued(&entry)) {
        write_entry(&entry);
    }
    if (lost) {
        lost = false;
        gb_log_post(gb_entry_fault, gb_fault_lost_entries);
    }
}

void gb_log_clear(void) {
    memset(now.counts, 0, sizeof now.counts);
    next_pass(true);
}

uint16_t gb_log_count(uint8_t kind) {
    return now.counts[kind];
}

/* Entries of the pass before stand from the end on, the one at the end itself being written over next. */
static uint16_t older(void) {
    return now.alone != 0 || head + 1 >= ring_entries ? 0 : (uint16_t)(ring_entries - head - 1);
}

uint16_t gb_log_kept(void) {
    return (uint16_t)(head + older());
}

void gb_log_read(uint16_t index, struct gb_entry* entry) {
    const uint16_t from_older = older();
    const uint16_t slot = index < from_older ? (uint16_t)(head + 1U + index) : (uint16_t)(index - from_older);
    struct kept kept;
    gb_port_nv_read(entry_place(slot), &kept, sizeof kept);
    entry->kind = kept.pass_and_kind & kind_bits;
    entry->detail = kept.detail;
    entry->seconds = 0;
    memcpy(&entry->seconds, kept.seconds, sizeof kept.seconds);
}

void gb_note_read(struct gb_load_note* note) {
    gb_port_nv_read(note_at, note, sizeof *note);
    if (note->length > GB_STORE_BYTES) { /* never written, or damaged */
        note->length = 0;
    }
}

void gb_note_write(const struct gb_load_note* note) {
    gb_port_nv_write(note_at, note, sizeof *note);
}
