/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#include "memory.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "player/port.h"

static struct {
    uint8_t store[GB_STORE_BYTES];
    uint8_t nv[GB_NV_BYTES];
} memory;
static const char* keep;

static void write_memory(void) {
    if (keep == NULL) {
        return;
    }
    FILE* file = fopen(keep, "wb");
    if (file == NULL || fwrite(&memory, sizeof memory, 1, file) != 1 || fclose(file) != 0) {
        perror(keep);
        exit(2);
    }
}

void gb_port_store_read(gb_at at, void* to, uint8_t count) {
    memset(to, 0xFF, count);
    if (at < GB_STORE_BYTES) {
        memcpy(to, memory.store + at, count < GB_STORE_BYTES - at ? count : GB_STORE_BYTES - at);
    }
}

bool gb_port_store_write(gb_at at, const uint8_t* bytes, uint8_t count) {
    memcpy(memory.store + at, bytes, count);
    write_memory();
    return true;
}

void gb_port_nv_read(uint16_t at, void* to, uint8_t count) {
    memcpy(to, memory.nv + at, count);
}

void gb_port_nv_write(uint16_t at, const void* from, uint8_t count) {
    memcpy(memory.nv + at, from, count);
    write_memory();
}

static void read_file(const char* name, void* to, size_t room, bool must) {
    FILE* file = fopen(name, "rb");
    if (file == NULL) {
        if (must) {
            perror(name);
            exit(2);
        }
        return;
    }
    const size_t count = fread(to, 1, room, file);
    if (must && (count == 0 || fgetc(file) != EOF)) {
        fprintf(stderr, "%s: empty, or longer than the store\n", name);
        exit(2);
    }
    fclose(file);
}

void memory_begin(void) {
    memset(&memory, 0xFF, sizeof memory);
}

void memory_load(const char* image) {
    read_file(image, memory.store, sizeof memory.store, true);
}

void memory_keep(const char* file) {
    keep = file;
    read_file(file, &memory, sizeof memory, false);
}
