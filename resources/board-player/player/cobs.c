/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "player/cobs.h"

/* Each zero, and the first byte, holds how far it is to the next zero; the last one, to the end. */

void gb_cobs_encode(uint8_t* bytes, uint8_t count) {
    uint8_t far = 1;
    while (--count != 0) {
        if (bytes[count] == 0) {
            bytes[count] = far;
            far = 0;
        }
        ++far;
    }
    bytes[0] = far;
}

bool gb_cobs_decode(uint8_t* bytes, uint8_t count) {
    while (count != 0) {
        const uint8_t far = *bytes;
        if (far == 0 || far > count) {
            return false;
        }
        *bytes = 0;
        bytes += far;
        count = (uint8_t)(count - far);
    }
    return true;
}
