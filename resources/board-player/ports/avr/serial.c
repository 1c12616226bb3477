/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "serial.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#include "player/link.h"
#include "player/port.h"

void serial_begin(void) {
    gb_link_begin();
    UCSR0A = _BV(U2X0);
    UBRR0L = 16; /* 117 647 baud: 2.1 % above 115 200; 8 bits, no parity, as after reset */
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

void serial_answer(void) {
    gb_link_poll();
}
