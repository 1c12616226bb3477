/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/crc.h"

#include <stdbool.h>

/* Bit by bit: a chip has little room for tables, and a byte arrives only every 1400 cycles. */

uint16_t gb_crc16(const void* bytes, uint8_t count) {
    const uint8_t* next = bytes;
    uint16_t crc = 0xFFFF;
    while (count-- != 0) {
        crc = (uint16_t)(crc ^ ((uint16_t)*next++ << 8));
        for (uint8_t bit = 8; bit != 0; --bit) {
            const bool carry = (crc & 0x8000U) != 0;
            crc = (uint16_t)(crc << 1);
            if (carry) {
                crc ^= 0x1021U;
            }
        }
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
