/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_RESULT_H
#define GB_RESULT_H

/* What came of a request, or why a trigger was refused: the results of protocol.md. */
enum gb_result {
    gb_done = 0,
    gb_other_version = 1,
    gb_unknown_request = 2,
    gb_wrong_form = 3,
    gb_not_armed = 4,
    gb_running = 5,
    gb_no_image = 6,
    gb_outputs_disabled = 7,
    gb_wants_rearm = 8,
    gb_stopped_by_link = 9,
    gb_too_long = 10,
    gb_out_of_order = 11,
    gb_bad_image = 12,
    gb_no_such = 13,
    gb_not_written = 14,
    gb_not_held = 15,
    gb_loading = 16,
    gb_armed = 17,
    gb_lockout = 18,
    gb_warm_up = 19,
    gb_follows = 20,
    gb_nothing_begun = 21
};

#endif
