/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#ifndef GB_CRC_H
#define GB_CRC_H

#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* CRC-16/IBM-3740: of a frame, and of the sums of the log. */
uint16_t gb_crc16(const void* bytes, uint8_t count);

/* CRC-32/ISO-HDLC of an image: begins with all ones, inverted at the end. */
#define GB_CRC32_BEGIN 0xFFFFFFFFU
uint32_t gb_crc32(uint32_t crc, uint8_t byte);

#ifdef __cplusplus
}
#endif

#endif
