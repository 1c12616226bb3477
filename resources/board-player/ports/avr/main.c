/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

#include "clock.h"
#include "pins.h"
#include "player/log.h"
#include "player/player.h"
#include "serial.h"

/* Reset only, without its interrupt: it works with interrupts off, too. */
enum { watchdog_time = WDTO_120MS };

static uint8_t reset_flags __attribute__((section(".noinit")));

/* Before anything else: after a watchdog reset the watchdog runs on, at its shortest time. */
__attribute__((naked, used, section(".init3"))) static void note_reset(void) {
    reset_flags = MCUSR;
    MCUSR = 0;
    wdt_disable();
}

static uint8_t reset_cause(void) {
    if ((reset_flags & _BV(WDRF)) != 0) {
        return gb_reset_watchdog;
    }
    if ((reset_flags & _BV(PORF)) != 0) { /* a power-up sets the flag of a brown-out, too */
        return gb_reset_power;
    }
    if ((reset_flags & _BV(BORF)) != 0) {
        return gb_reset_brown_out;
    }
    return (reset_flags & _BV(EXTRF)) != 0 ? gb_reset_pin : gb_reset_other;
}

void gb_port_alive(void) {
    wdt_reset();
}

static void show_lamp(void) {
    const uint8_t lamp = gb_player_lamp();
    pins_lamp(lamp == 1 || (lamp == 2 && ((uint8_t)gb_port_seconds() & 1U) != 0));
}

int main(void) {
    pins_begin();
    wdt_enable(watchdog_time);
    serial_begin();
    clock_begin();
    gb_log_begin();
    gb_player_begin(reset_cause());
    sleep_enable();
    sei();
    for (;;) {
        serial_answer();
        gb_log_write();
        show_lamp();
        if (clock_ticked()) { /* a dead timer is a fault, too */
            wdt_reset();
        }
        sleep_cpu(); /* idle, as after reset: the timer goes on */
    }
}
