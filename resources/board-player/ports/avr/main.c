/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

#include "clock.h"
#include "pins.h"
#include "player/link.h"
#include "player/log.h"
#include "player/player.h"

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

static void link_begin(void) {
    gb_link_begin();
    UCSR0A = _BV(U2X0);
    UBRR0 = 16; /* 117 647 baud: 2.1 % above 115 200 */
    UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
    UCSR0B = _BV(RXEN0) | _BV(TXEN0) | _BV(RXCIE0);
}

ISR(USART_RX_vect) {
    gb_link_take(UDR0);
}

void gb_port_put(uint8_t byte) {
    while ((UCSR0A & _BV(UDRE0)) == 0) {
    }
    UDR0 = byte;
}

void gb_port_alive(void) {
    wdt_reset();
}

static void show_lamp(void) {
    const uint8_t lamp = gb_player_lamp();
    pins_lamp(lamp == 1 || (lamp == 2 && (gb_port_seconds() & 1U) != 0));
}

int main(void) {
    pins_begin();
    wdt_enable(watchdog_time);
    link_begin();
    clock_begin();
    gb_log_begin();
    gb_player_begin(reset_cause());
    set_sleep_mode(SLEEP_MODE_IDLE);
    sei();
    for (;;) {
        gb_link_poll();
        gb_log_write();
        show_lamp();
        if (clock_ticked()) { /* a dead timer is a fault, too */
            wdt_reset();
        }
        sleep_mode();
    }
}
