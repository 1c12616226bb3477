/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include <avr/boot.h>
#include <avr/eeprom.h>
#include <avr/interrupt.h>
#include <avr/pgmspace.h>
#include <avr/wdt.h>

#include "player/port.h"

/* The image in flash, written by the chip itself; the log in EEPROM. */

GB_CALLED void gb_port_store_read(gb_at at, void* to, uint8_t count) {
    memcpy_P(to, (const void*)(GB_STORE_AT + at), count);
}

/* Flash can be written from the boot section only, and while it is, nothing outside that section can run: the
 * chip stands still for some 8 ms (two times the 3.7 to 4.5 ms of the data sheet), bytes on the link are
 * lost. The host waits for the answer, which comes after this. */
__attribute__((section(".bootloader"), noinline)) static void write_page(uint16_t page, const uint8_t* bytes,
                                                                         uint8_t count) {
    boot_page_erase(page);
    boot_spm_busy_wait();
    for (uint8_t i = 0; i < SPM_PAGESIZE; i = (uint8_t)(i + 2U)) {
        const uint8_t low = i < count ? bytes[i] : 0xFF;
        const uint8_t high = i + 1 < count ? bytes[i + 1] : 0xFF;
        boot_page_fill(page + i, (uint16_t)(low | (uint16_t)high << 8));
    }
    boot_page_write(page);
    boot_spm_busy_wait();
    boot_rww_enable();
}

static bool holds(uint16_t at, const uint8_t* bytes, uint8_t count) {
    return memcmp_P(bytes, (const void*)at, count) == 0;
}

bool gb_port_store_write(gb_at at, const uint8_t* bytes, uint8_t count) {
    const uint16_t page = (uint16_t)(GB_STORE_AT + at);
    if (holds(page, bytes, count)) {
        return true;
    }
    eeprom_busy_wait();
    const gb_lock lock = gb_port_lock();
    write_page(page, bytes, count);
    gb_port_unlock(lock);
    return holds(page, bytes, count);
}

void gb_port_nv_read(uint16_t at, void* to, uint8_t count) {
    eeprom_read_block(to, (const void*)at, count);
}

/* The few bytes of an entry or a sum take less than the watchdog's time. */
void gb_port_nv_write(uint16_t at, const void* from, uint8_t count) {
    wdt_reset();
    eeprom_update_block(from, (void*)at, count);
}
