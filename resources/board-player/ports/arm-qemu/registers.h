/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_REGISTERS_H
#define GB_REGISTERS_H

#include <stdint.h>

/* The few registers of the chip that the port uses, from its data sheet and the ARMv7-M manual. */
#define REGISTER(address) (*(volatile uint32_t*)(address))

#define SYSTICK_CONTROL REGISTER(0xE000E010U)
#define SYSTICK_RELOAD REGISTER(0xE000E014U)
#define SYSTICK_VALUE REGISTER(0xE000E018U)
#define INTERRUPT_ENABLE REGISTER(0xE000E100U)
#define CLOCK_GATES_1 REGISTER(0x400FE104U) /* UARTs */
#define CLOCK_GATES_2 REGISTER(0x400FE108U) /* ports */

/* Port D: outputs 1 to 8. Port F, bit 1: the select button of the board is the trigger, low when pressed. */
#define PORT_D 0x40007000U
#define PORT_F 0x40025000U
#define PORT_DATA(port) REGISTER((port) + 0x3FCU)
#define PORT_DIRECTION(port) REGISTER((port) + 0x400U)
#define PORT_PULL_UP(port) REGISTER((port) + 0x510U)
#define PORT_DIGITAL(port) REGISTER((port) + 0x51CU)

/* UART 0: the link. UART 1: the trace. */
#define LINK 0x4000C000U
#define TRACE 0x4000D000U
#define UART_DATA(uart) REGISTER((uart) + 0x000U)
#define UART_FLAGS(uart) REGISTER((uart) + 0x018U)
#define UART_DIVISOR(uart) REGISTER((uart) + 0x024U)
#define UART_FRACTION(uart) REGISTER((uart) + 0x028U)
#define UART_LINE(uart) REGISTER((uart) + 0x02CU)
#define UART_CONTROL(uart) REGISTER((uart) + 0x030U)
#define UART_INTERRUPTS(uart) REGISTER((uart) + 0x038U)
#define UART_INTERRUPT_CLEAR(uart) REGISTER((uart) + 0x044U)

enum {
    trigger_pin = 1 << 1,
    uart_receive_empty = 1 << 4,
    uart_transmit_full = 1 << 5,
    uart_receive_interrupts = 1 << 4 | 1 << 6,
    uart_interrupt = 5
};

#endif
