/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include <string.h>

#include "player/image.h"
#include "player/link.h"
#include "player/log.h"
#include "player/player.h"
#include "player/port.h"
#include "registers.h"

/* A thin port: it shows what a 32-bit chip needs. Its store and its log are in RAM, the trigger is looked at
 * on the tick (so a run begins up to a tick late), and each change of the outputs is told on the second UART.
 */

enum { cycles_per_2us = 25 };

static uint8_t* const store = (uint8_t*)GB_STORE_AT; /* the linker keeps away from it */
static uint8_t nv[GB_NV_BYTES];
static uint32_t tick_us = 1000;
static volatile uint32_t clock_us; /* at the last tick */
static volatile uint32_t seconds;
static uint32_t part_us; /* of the next second */
static bool tripped;     /* the trigger input, at the last tick */
static bool sampling;

void gb_port_store_read(gb_at at, void* to, uint8_t count) {
    memcpy(to, store + at, count);
}

bool gb_port_store_write(gb_at at, const uint8_t* bytes, uint8_t count) {
    memcpy(store + at, bytes, count);
    return true;
}

void gb_port_nv_read(uint16_t at, void* to, uint8_t count) {
    memcpy(to, nv + at, count);
}

void gb_port_nv_write(uint16_t at, const void* from, uint8_t count) {
    memcpy(nv + at, from, count);
}

gb_lock gb_port_lock(void) {
    uint32_t before;
    __asm__ volatile("mrs %0, primask\n\tcpsid i" : "=r"(before) : : "memory");
    return (gb_lock)before;
}

void gb_port_unlock(gb_lock before) {
    __asm__ volatile("msr primask, %0" : : "r"((uint32_t)before) : "memory");
}

static void put(uint32_t uart, uint8_t byte) {
    while ((UART_FLAGS(uart) & uart_transmit_full) != 0) {
    }
    UART_DATA(uart) = byte;
}

void gb_port_put(uint8_t byte) {
    put(LINK, byte);
}

static void put_hex(uint32_t value, int digits) {
    while (digits-- > 0) {
        put(TRACE, (uint8_t) "0123456789ABCDEF"[value >> (4 * digits) & 15U]);
    }
}

void gb_port_levels(gb_mask levels) {
    PORT_DATA(PORT_D) = levels;
    put_hex(gb_port_clock_us(), 8);
    put(TRACE, ' ');
    put_hex(levels, 2);
    put(TRACE, '\n');
}

void gb_port_outputs(gb_mask pins, gb_mask levels) {
    PORT_DIRECTION(PORT_D) &= pins;
    gb_port_levels(levels);
    PORT_DIRECTION(PORT_D) = pins;
}

void gb_port_line(bool low) {
    (void)low; /* it has none */
}

static void set_tick(uint32_t us) {
    tick_us = us;
    SYSTICK_RELOAD = us * cycles_per_2us / 2U - 1U;
    SYSTICK_VALUE = 0;
    SYSTICK_CONTROL = 7; /* on, with its interrupt, by the processor's clock */
}

void gb_port_use(const struct gb_image* image) {
    set_tick(image->head.tick_us);
}

uint32_t gb_port_clock_us(void) {
    const uint32_t gone = SYSTICK_RELOAD - SYSTICK_VALUE;
    return clock_us + gone * 2U / cycles_per_2us;
}

uint32_t gb_port_seconds(void) {
    return seconds;
}

void gb_port_alive(void) {}

static uint8_t inputs(void) {
    /* The evaluation board has no contact for output-enable: a port to a board of your own reads one here. */
    return (uint8_t)(gb_input_enable | ((PORT_DATA(PORT_F) & trigger_pin) == 0 ? gb_input_trigger : 0));
}

static void look_at_trigger(bool active) {
    if (sampling) {
        sampling = gb_player_trigger(active) == gb_sample_again;
    } else if (active && !tripped) {
        sampling = true;
    }
    tripped = active;
}

void systick_handler(void) {
    const uint8_t now = inputs();
    clock_us += tick_us;
    part_us += tick_us;
    if (part_us >= 1000000U) {
        part_us -= 1000000U;
        ++seconds;
    }
    gb_player_tick(now);
    look_at_trigger((now & gb_input_trigger) != 0);
}

void link_handler(void) {
    UART_INTERRUPT_CLEAR(LINK) = uart_receive_interrupts;
    while ((UART_FLAGS(LINK) & uart_receive_empty) == 0) {
        gb_link_take((uint8_t)UART_DATA(LINK));
    }
}

static void begin_uart(uint32_t uart) {
    UART_DIVISOR(uart) = 6; /* 12.5 MHz / 16 / 115 200 */
    UART_FRACTION(uart) = 50;
    UART_LINE(uart) = 0x70; /* 8N1, with its buffers */
    UART_CONTROL(uart) = 0x301;
}

static void begin_chip(void) {
    CLOCK_GATES_1 |= 3;
    CLOCK_GATES_2 |= 1U << 3 | 1U << 5;
    PORT_DIGITAL(PORT_D) = 0xFF;
    PORT_DIGITAL(PORT_F) = trigger_pin;
    PORT_PULL_UP(PORT_F) = trigger_pin;
    begin_uart(LINK);
    begin_uart(TRACE);
    UART_INTERRUPTS(LINK) = uart_receive_interrupts;
    INTERRUPT_ENABLE = 1U << uart_interrupt;
    set_tick(tick_us);
    tripped = (inputs() & gb_input_trigger) != 0;
}

int main(void) {
    const gb_lock lock = gb_port_lock();
    begin_chip();
    memset(nv, 0xFF, sizeof nv);
    gb_link_begin();
    gb_log_begin();
    gb_player_begin(gb_reset_power);
    gb_port_unlock(lock);
    for (;;) {
        gb_link_poll();
        gb_log_write();
        __asm__ volatile("wfi");
    }
}
