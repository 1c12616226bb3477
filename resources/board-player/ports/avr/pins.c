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
    gb_port_outputs(0, 0);
    PORTC |= pin_enable | pin_rearm | pin_hold;
    PORTD |= pin_trigger | pin_line;
    DDRB |= pin_lamp;
}

void pins_use_trigger(bool active_high) {
    pins_trigger_low = active_high ? 0 : pin_trigger;
    if (active_high) { /* a sensor that drives the line brings its own resistor */
        PORTD &= (uint8_t)~pin_trigger;
    } else {
        PORTD |= pin_trigger;
    }
}

void pins_lamp(bool on) {
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

uint8_t pins_inputs(void) {
    const uint8_t c = PINC;
    return (uint8_t)((pins_trigger_active() ? gb_input_trigger : 0) |
                     ((c & pin_enable) == 0 ? gb_input_enable : 0) |
                     ((c & pin_rearm) == 0 ? gb_input_rearm : 0) | ((c & pin_hold) == 0 ? gb_input_hold : 0) |
                     ((PIND & pin_line) == 0 ? gb_input_line : 0));
}
