/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_LOG_H
#define GB_LOG_H

#include <stdbool.h>
#include <stdint.h>

#include "player/image.h"

/* The log of triggers, refusals and faults, in bytes that outlive power. */

enum gb_entry_kind {
    gb_entry_power_up = 1,
    gb_entry_trigger = 2,
    gb_entry_refusal = 3,
    gb_entry_fault = 4,
    gb_entry_stopped = 5,
    gb_entry_back = 6,
    gb_entry_run_by_link = 7,
    gb_entry_held_by_link = 8,
    gb_entry_image = 9
};
enum gb_reset_cause { gb_reset_power, gb_reset_pin, gb_reset_brown_out, gb_reset_watchdog, gb_reset_other };
enum gb_fault {
    gb_fault_image = 1,
    gb_fault_line = 2,
    gb_fault_store = 3,
    gb_fault_lost_entries = 4,
    gb_fault_reset = 5 /* a power-up by brown-out or watchdog stands before it */
};
enum gb_stop_cause {
    gb_stop_enable = 1,
    gb_stop_link = 2,
    gb_stop_hold_to_run = 3,
    gb_stop_link_lost = 4,
    gb_stop_line = 5
};
enum gb_back_cause { gb_back_rearm = 1, gb_back_go_on = 2 };

/* Finds the end of the log and counts what is in it. Before anything else of it. */
void gb_log_begin(void);
/* Notes an entry of now, to be written later; from interrupts too. The same again within one second is left
 * out, so that a chattering input does not wear the log out. */
void gb_log_post(uint8_t kind, uint8_t detail);
/* Writes what has been noted; takes its time. From the main loop only. */
void gb_log_write(void);
void gb_log_clear(void);

/* How many of a kind since the log was cleared. Requires: a kind up to gb_entry_fault. */
uint16_t gb_log_count(uint8_t kind);
uint16_t gb_log_kept(void);
/* The entry as protocol.md has it, gb_log_entry_bytes of them. Requires: index, counted from the oldest,
 * below gb_log_kept(). */
enum { gb_log_entry_bytes = 6 };
void gb_log_read(uint16_t index, uint8_t* entry);

/* How far a load had come, told by whole steps of gb_note_step bytes; outlives power too. */
enum { gb_note_step = 1024 };
struct gb_load_note {
    struct gb_image_name image; /* of length 0: no load is under way */
    uint16_t steps;
};
void gb_note_read(struct gb_load_note* note);
void gb_note_write(const struct gb_load_note* note);

#endif
