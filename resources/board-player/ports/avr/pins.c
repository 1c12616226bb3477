/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "pins.h"

enum { outputs_d = 0xF0, outputs_b = 0x1F, outputs_c = 0x38 };

uint8_t pins_trigger_low = pin_trigger;

static uint8_t in_d(gb_mask mask) {
    return (uint8_t)(mask << 4) & outputs_d;
}

static uint8_t in_b(gb_mask mask) {
    return (uint8_t)(mask >> 4) & outputs_b;
}

static uint8_t in_c(gb_mask mask) {
    return (uint8_t)((uint8_t)(mask >> 8) << 2) & outputs_c;
}

void gb_port_levels(gb_mask levels) {
    PORTD = (uint8_t)((PORTD & ~outputs_d) | in_d(levels));
    PORTB = (uint8_t)((PORTB & ~outputs_b) | in_b(levels));
    PORTC = (uint8_t)((PORTC & ~outputs_c) | in_c(levels));
}

void gb_port_outputs(gb_mask pins, gb_mask levels) {
    DDRD = (uint8_t)(DDRD & (in_d(pins) | ~outputs_d));
    DDRB = (uint8_t)(DDRB & (in_b(pins) | ~outputs_b));
    DDRC = (uint8_t)(DDRC & (in_c(pins) | ~outputs_c));
    gb_port_levels(levels);
    DDRD |= in_d(pins);
    DDRB |= in_b(pins);
    DDRC |= in_c(pins);
}

void pins_begin(void) {
    PORTC = pin_enable | pin_rearm | pin_hold; /* all else an input, as after reset */
    PORTD = pin_trigger | pin_line;
    DDRB = pin_lamp;
}

void pins_use_trigger(bool active_high) {
    pins_trigger_low = active_high ? 0 : pin_trigger;
    if (active_high) { /* a sensor that drives the line brings its own resistor */
        PORTD &= (uint8_t)~pin_trigger;
    } else {
        PORTD |= pin_trigger;
    }
}

GB_CALLED void pins_lamp(bool on) {
    if (on) {
        PORTB |= pin_lamp;
    } else {
        PORTB &= (uint8_t)~pin_lamp;
    }
}

/* As an open collector, against a resistor. */
void gb_port_line(bool low) {
    if (low) {
        PORTD &= (uint8_t)~pin_line;
        DDRD |= pin_line;
    } else {
        DDRD &= (uint8_t)~pin_line;
        PORTD |= pin_line;
    }
}

/* Three of port C and the line of port D stand in the order of the bits, one place higher. */
uint8_t pins_inputs(void) {
    enum { of_c = gb_input_enable | gb_input_rearm | gb_input_hold, of_d = gb_input_line };
    const uint8_t low = (uint8_t)((~PINC << 1 & of_c) | (~PIND << 1 & of_d));
    return pins_trigger_active() ? low | gb_input_trigger : low;
}
