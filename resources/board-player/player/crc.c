/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/crc.h"

/* Bit by bit: a chip has little room for tables, and a byte arrives only every 1400 cycles. */

uint16_t gb_crc16(uint16_t crc, uint8_t byte) {
    crc = (uint16_t)(crc ^ ((uint16_t)byte << 8));
    for (uint8_t bit = 0; bit < 8; ++bit) {
        const uint16_t shifted = (uint16_t)(crc << 1);
        crc = (crc & 0x8000U) != 0 ? (uint16_t)(shifted ^ 0x1021U) : shifted;
    }
    return crc;
}

uint32_t gb_crc32(uint32_t crc, uint8_t byte) {
    crc ^= byte;
    for (uint8_t bit = 0; bit < 8; ++bit) {
        crc = (crc & 1U) != 0 ? (crc >> 1) ^ 0xEDB88320UL : crc >> 1;
    }
    return crc;
}
