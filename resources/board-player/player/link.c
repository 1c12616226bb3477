/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/link.h"

#include <string.h>

#include "player/frame.h"
#include "player/hand.h"
#include "player/link_frame.h"
#include "player/log.h"
#include "player/port.h"
#include "player/result.h"

enum { protocol_version = 1, answer_bit = 0x80 };
enum {
    request_identify = 0x01,
    request_begin_load = 0x10,
    request_chunk = 0x11,
    request_commit = 0x12,
    request_read_back = 0x13,
    request_arm = 0x20,
    request_disarm = 0x21,
    request_hold = 0x22,
    request_run = 0x23,
    request_stop = 0x24,
    request_go_on = 0x25,
    request_status = 0x30,
    request_log = 0x31,
    request_clear_log = 0x32,
    request_echo = 0x33
};
enum { echo_most = 32 };

static struct gb_frame frame;
static volatile bool waiting;
static uint8_t answered; /* bytes of the answer's payload so far */

/* The last request, and what came of it: one that must not act twice is known by them when it comes again. */
static uint8_t last_sequence;
static uint16_t last_crc;
static uint8_t last_result;

uint8_t* const gb_request = frame.bytes + gb_frame_payload;

uint8_t gb_request_count(void) {
    return frame.count;
}

uint16_t gb_request_u16(uint8_t at) {
    uint16_t value;
    memcpy(&value, gb_request + at, sizeof value);
    return value;
}

uint32_t gb_request_u32(uint8_t at) {
    uint32_t value;
    memcpy(&value, gb_request + at, sizeof value);
    return value;
}

uint8_t* gb_answer_place(uint8_t count) {
    uint8_t* place = gb_request + answered;
    answered = (uint8_t)(answered + count);
    return place;
}

void gb_answer(const void* from, uint8_t count) {
    memcpy(gb_answer_place(count), from, count);
}

void gb_answer_u8(uint8_t value) {
    *gb_answer_place(1) = value;
}

GB_CALLED void gb_answer_u32(uint32_t value) {
    gb_answer(&value, sizeof value);
}

uint8_t gb_answer_room(void) {
    return (uint8_t)(gb_frame_payload_most - answered);
}

void gb_link_begin(void) {
    gb_frame_begin(&frame);
}

void gb_link_take(uint8_t byte) {
    if (!waiting && gb_frame_take(&frame, byte)) {
        waiting = true;
    }
}

static uint8_t arm(void) {
    uint16_t token = 0;
    const uint8_t result = gb_hand_arm(&token);
    if (result == gb_done) {
        gb_answer(&token, sizeof token);
    }
    return result;
}

static uint8_t echo(void) {
    enum { before = 5 }; /* the result and the clock */
    for (uint8_t i = frame.count; i-- != 0;) {
        gb_request[i + before] = gb_request[i];
    }
    gb_answer_u32(gb_port_clock_us());
    answered = (uint8_t)(answered + frame.count);
    return gb_done;
}

static uint8_t stop(void) {
    gb_hand_stop();
    return gb_done;
}

static uint8_t disarm(void) {
    gb_hand_disarm();
    return gb_done;
}

static uint8_t run(void) {
    return gb_hand_run(gb_request_u16(0), gb_request[2]);
}

static uint8_t hold(void) {
    return gb_hand_hold(gb_request_u16(0), gb_request[2]);
}

static uint8_t go_on(void) {
    return gb_hand_go_on(gb_request_u16(0));
}

static uint8_t clear_log(void) {
    gb_log_clear();
    return gb_done;
}

struct request {
    uint8_t type;
    uint8_t least; /* bytes of payload */
    uint8_t most;
    uint8_t (*answer)(void);
};

static const struct request requests[] = {
    {request_identify, 0, 0, gb_link_identify},
    {request_begin_load, 8, 8, gb_link_begin_load},
    {request_chunk, 5, gb_frame_payload_most, gb_link_chunk},
    {request_commit, 8, 8, gb_link_commit},
    {request_read_back, 5, 5, gb_link_read_back},
    {request_arm, 0, 0, arm},
    {request_disarm, 0, 0, disarm},
    {request_hold, 3, 3, hold},
    {request_run, 3, 3, run},
    {request_stop, 0, 0, stop},
    {request_go_on, 2, 2, go_on},
    {request_status, 0, 0, gb_link_status},
    {request_log, 2, 2, gb_link_log},
    {request_clear_log, 0, 0, clear_log},
    {request_echo, 0, echo_most, echo},
};

static const struct request* find(uint8_t type) {
    const struct request* end = requests + sizeof requests / sizeof requests[0];
    for (const struct request* request = requests; request != end; ++request) {
        if (request->type == type) {
            return request;
        }
    }
    return 0;
}

static bool acts_once(uint8_t type) {
    return type == request_run || type == request_clear_log;
}

/* Whether this is the last request again. */
static bool again(void) {
    const uint8_t sequence = frame.bytes[gb_frame_sequence];
    const uint16_t crc = gb_request_u16(frame.count); /* the frame's own */
    const bool same = sequence == last_sequence && crc == last_crc;
    last_sequence = sequence;
    last_crc = crc;
    return same;
}

static uint8_t answer(uint8_t type) {
    const struct request* request = find(type);
    if (request == 0) {
        return gb_unknown_request;
    }
    if (frame.count < request->least || frame.count > request->most) {
        return gb_wrong_form;
    }
    if (!again() || !acts_once(type)) {
        last_result = request->answer();
    }
    return last_result;
}

/* The requests that act at once do so between two interrupts. */
static bool acts_at_once(uint8_t type) {
    return type >= request_arm && type <= request_go_on;
}

static uint8_t carry_out(void) {
    const uint8_t type = frame.bytes[gb_frame_type];
    if (frame.bytes[gb_frame_version] != protocol_version) {
        gb_answer_u8(protocol_version);
        gb_answer_u8(protocol_version);
        return gb_other_version;
    }
    gb_lock lock = gb_port_lock();
    gb_hand_frame();
    if (!acts_at_once(type)) {
        gb_port_unlock(lock);
    }
    const uint8_t result = answer(type);
    gb_port_unlock(lock);
    return result;
}

static void send(void) {
    frame.count = answered;
    gb_frame_close(&frame);
    for (uint8_t i = 0; i < frame.count; ++i) {
        gb_port_put(frame.bytes[i]);
    }
}

void gb_link_poll(void) {
    if (!waiting) {
        return;
    }
    if (gb_frame_open(&frame)) {
        answered = 1; /* the result goes before it */
        const uint8_t result = carry_out();
        gb_request[0] = result;
        frame.bytes[gb_frame_version] = protocol_version;
        frame.bytes[gb_frame_type] |= answer_bit;
        send();
    }
    const gb_lock lock = gb_port_lock(); /* both, before the next byte comes */
    gb_frame_begin(&frame);
    waiting = false;
    gb_port_unlock(lock);
}
