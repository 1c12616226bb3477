/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_PINS_H
#define GB_PINS_H

#include <avr/io.h>
#include <stdbool.h>

#include "player/port.h"

/*      output 1-4    PD4-PD7        trigger        PD2 (interrupt 0)
 *      output 5-9    PB0-PB4        start line     PD3 (interrupt 1)
 *      output 10-12  PC3-PC5        output-enable  PC0, closed to ground
 *      lamp          PB5            re-arm         PC1, closed to ground
 *      link          PD0, PD1       hold-to-run    PC2, closed to ground */
enum {
    pin_trigger = 1 << 2, /* of port D */
    pin_line = 1 << 3,    /* of port D */
    pin_enable = 1 << 0,  /* of port C */
    pin_rearm = 1 << 1,   /* of port C */
    pin_hold = 1 << 2,    /* of port C */
    pin_lamp = 1 << 5     /* of port B */
};

void pins_begin(void);
void pins_use_trigger(bool active_high);
void pins_lamp(bool on);

extern uint8_t pins_trigger_low; /* pin_trigger: it is active when low; 0: when high */

static inline bool pins_trigger_active(void) {
    return ((PIND ^ pins_trigger_low) & pin_trigger) != 0;
}

static inline bool pins_enable_open(void) {
    return (PINC & pin_enable) != 0;
}

uint8_t pins_inputs(void); /* as gb_input bits */

#endif
