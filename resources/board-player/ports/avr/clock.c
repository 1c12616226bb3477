/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "clock.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#include "pins.h"
#include "player/image.h"
#include "player/player.h"

/* Timer 1 counts half microseconds and is never set back, so that it is a clock. Its compare A is the tick,
 * its compare B looks at the trigger input in ticks of their own, counted from the edge; when that starts a
 * run, the ticks of A go on from there. */

static uint16_t period = 2000; /* of a tick, in half microseconds */
static uint32_t overflows;
static uint32_t seconds;
static uint16_t parts; /* of the next second */
static volatile bool ticked;
static uint16_t tick_due;
static uint16_t sample_due;

enum { least_ahead = 32 }; /* nearer, a compare register may be written too late for its match */

enum { overflow_parts = 512, second_parts = 15625 }; /* 32 768 us of 1 000 000 */

/* Whether a moment is yet to come. An interrupt that was pending, or stood from a match long ago, when its
 * moment was moved, is told by this from one in time. */
GB_CALLED static bool ahead(uint16_t moment) {
    return (uint16_t)(moment - TCNT1 - 1U) < period;
}

static void tick_from(uint16_t moment) {
    tick_due = moment + period;
    OCR1A = tick_due;
}

void clock_begin(void) {
    TCCR1B = _BV(CS11);
    tick_from(0);
    TIMSK1 = _BV(OCIE1A) | _BV(TOIE1);
    PCMSK1 = _BV(PCINT8);
    PCICR = _BV(PCIE1);
    EIMSK = _BV(INT0);
}

void gb_port_use(const struct gb_image* image) {
    const bool high = (image->head.flags & gb_flag_trigger_high) != 0;
    pins_use_trigger(high);
    EICRA = (uint8_t)(_BV(ISC11) | _BV(ISC10) | _BV(ISC01) | (high ? _BV(ISC00) : 0));
    EIFR = _BV(INTF0) | _BV(INTF1);
    EIMSK = (uint8_t)(_BV(INT0) | (image->head.start_line == gb_line_follows ? _BV(INT1) : 0));
    TIMSK1 &= (uint8_t)~_BV(OCIE1B);
    period = (uint16_t)(image->head.tick_us * 2U);
    tick_from(TCNT1);
}

bool clock_ticked(void) {
    const bool result = ticked;
    ticked = false;
    return result;
}

static void tick(void) {
    do { /* more than once only when flash was written */
        tick_due += period;
    } while (!ahead(tick_due - least_ahead));
    OCR1A = tick_due;
    gb_player_tick(pins_inputs());
    ticked = true;
}

static void end_samples(void) {
    TIMSK1 &= (uint8_t)~_BV(OCIE1B);
    EIMSK |= _BV(INT0);
}

static void sample(void) {
    EIFR = _BV(INTF0); /* before the look at the pin: an edge after it is not lost */
    switch (gb_player_trigger(pins_trigger_active())) {
        case gb_sample_again:
            sample_due += period;
            OCR1B = sample_due;
            return;
        case gb_sample_start:
            tick_from(sample_due);
            break;
        case gb_sample_over:
            break;
    }
    end_samples();
}

ISR(INT0_vect) {
    sample_due = TCNT1 + period;
    OCR1B = sample_due;
    TIMSK1 |= _BV(OCIE1B);
    EIMSK &= (uint8_t)~_BV(INT0); /* a bouncing input costs one interrupt a tick, not more */
}

/* One for both matches: each looks whether its moment has come. */
ISR(TIMER1_COMPA_vect) {
    if (!ahead(tick_due)) {
        tick();
    }
    if ((TIMSK1 & _BV(OCIE1B)) != 0 && !ahead(sample_due)) {
        sample();
    }
}

ISR(TIMER1_COMPB_vect, ISR_ALIASOF(TIMER1_COMPA_vect));

ISR(INT1_vect) {
    const uint16_t now = TCNT1;
    if (gb_player_line_released()) {
        tick_from(now);
    }
}

ISR(PCINT1_vect) {
    if (pins_enable_open()) {
        gb_player_disabled();
    }
}

ISR(TIMER1_OVF_vect) {
    ++overflows;
    parts += overflow_parts;
    if (parts >= second_parts) {
        parts -= second_parts;
        ++seconds;
    }
}

uint32_t gb_port_clock_us(void) {
    const gb_lock lock = gb_port_lock();
    const uint16_t low = TCNT1;
    uint32_t high = overflows;
    if ((TIFR1 & _BV(TOV1)) != 0 && low < 0x8000U) { /* overflowed, and not counted yet */
        ++high;
    }
    gb_port_unlock(lock);
    return high << 15 | low >> 1;
}

GB_CALLED uint32_t gb_port_seconds(void) {
    const gb_lock lock = gb_port_lock();
    const uint32_t result = seconds;
    gb_port_unlock(lock);
    return result;
}

gb_lock gb_port_lock(void) {
    const gb_lock before = SREG;
    cli();
    return before;
}

void gb_port_unlock(gb_lock before) {
    SREG = before;
}
