/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#define _XOPEN_SOURCE 700

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include "player/image.h"
#include "player/link.h"
#include "player/log.h"
#include "player/player.h"
#include "player/port.h"

/* Plays a board in a process. The link is standard input and output, or a pseudo-terminal; a line for every
 * change of the outputs goes to the trace. */

static const char usage[] =
    "usage: gaspworks-host-board [options]\n"
    "  --image FILE     the image in its store at power-up\n"
    "  --keep FILE      store and log are kept there over power-down\n"
    "  --pty LINK       speak over a pseudo-terminal, with a symbolic link of this name to it;\n"
    "                   else over standard input and output\n"
    "  --trace FILE     a line for each change: clock in us, levels of the pins in hexadecimal\n"
    "  --fast SECONDS   no link: play so long by a clock that does not wait, then end\n"
    "  --trigger S      with --fast: when the trigger comes (default 0.01; may be given again)\n"
    "Signals: SIGUSR1 trips the trigger, SIGUSR2 opens or closes the output-enable input, SIGHUP presses\n"
    "re-arm for a while.\n";

static struct {
    uint8_t store[GB_STORE_BYTES];
    uint8_t nv[GB_NV_BYTES];
} memory;
static const char* keep;
static FILE* trace;
static int from_link = 0;
static int to_link = 1;

static bool fast;
static uint64_t now_us;
static uint64_t begun_ns;
static uint64_t tick_us = 1000;
static uint64_t next_tick;
static uint64_t next_sample; /* of the trigger input; 0: none */
static uint64_t trigger_until;
static uint64_t rearm_until;
static gb_mask pins;

static volatile sig_atomic_t tripped;
static volatile sig_atomic_t opened;
static volatile sig_atomic_t rearmed;
static volatile sig_atomic_t ended;

static void fail(const char* what) {
    perror(what);
    exit(2);
}

static uint64_t real_ns(void) {
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (uint64_t)time.tv_sec * 1000000000U + (uint64_t)time.tv_nsec;
}

static void look_at_clock(void) {
    if (!fast) {
        now_us = (real_ns() - begun_ns) / 1000U;
    }
}

static void write_memory(void) {
    if (keep == NULL) {
        return;
    }
    FILE* file = fopen(keep, "wb");
    if (file == NULL || fwrite(&memory, sizeof memory, 1, file) != 1 || fclose(file) != 0) {
        fail(keep);
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

void gb_port_levels(gb_mask levels) {
    if (trace != NULL) {
        look_at_clock();
        fprintf(trace, "%llu %lx\n", (unsigned long long)now_us, (unsigned long)(levels & pins));
        fflush(trace);
    }
}

void gb_port_outputs(gb_mask outputs, gb_mask levels) {
    pins = outputs;
    gb_port_levels(levels);
}

void gb_port_line(bool low) {
    (void)low; /* it has none */
}

void gb_port_use(const struct gb_image* image) {
    tick_us = image->head.tick_us;
    next_tick = now_us + tick_us;
    next_sample = 0;
}

uint32_t gb_port_clock_us(void) {
    look_at_clock();
    return (uint32_t)now_us;
}

uint32_t gb_port_seconds(void) {
    return (uint32_t)(now_us / 1000000U);
}

gb_lock gb_port_lock(void) {
    return 0; /* everything is done in the main loop */
}

void gb_port_unlock(gb_lock before) {
    (void)before;
}

void gb_port_alive(void) {}

void gb_port_put(uint8_t byte) {
    if (write(to_link, &byte, 1) != 1) {
        ended = 1;
    }
}

static uint8_t inputs(void) {
    return (uint8_t)(gb_input_hold | (now_us < trigger_until ? gb_input_trigger : 0) |
                     (opened ? 0 : gb_input_enable) | (now_us < rearm_until ? gb_input_rearm : 0));
}

static void trip(void) {
    enum { tripped_us = 100000 };
    trigger_until = now_us + tripped_us;
    if (next_sample == 0) {
        next_sample = now_us + tick_us;
    }
}

static void sample_trigger(void) {
    const uint64_t moment = next_sample;
    next_sample = 0;
    switch (gb_player_trigger(moment <= trigger_until)) {
        case gb_sample_again:
            next_sample = moment + tick_us;
            break;
        case gb_sample_start:
            next_tick = moment + tick_us;
            break;
        case gb_sample_over:
            break;
    }
}

/* Everything that was due up to now, in order. */
static void catch_up(void) {
    const uint64_t until = now_us;
    while (next_tick <= until || (next_sample != 0 && next_sample <= until)) {
        if (next_sample != 0 && next_sample <= next_tick) {
            sample_trigger();
        } else {
            next_tick += tick_us;
            gb_player_tick(inputs());
        }
    }
}

static void handle_signals(void) {
    enum { pressed_us = 1000000 };
    if (tripped) {
        tripped = 0;
        trip();
    }
    if (rearmed) {
        rearmed = 0;
        rearm_until = now_us + pressed_us;
    }
}

static void read_link(void) {
    uint8_t bytes[256];
    const ssize_t count = read(from_link, bytes, sizeof bytes);
    if (count == 0) {
        ended = 1;
    }
    for (ssize_t i = 0; i < count; ++i) {
        gb_link_take(bytes[i]);
        gb_link_poll();
    }
}

static void play_real(void) {
    struct pollfd link = {.fd = from_link, .events = POLLIN};
    while (!ended) {
        look_at_clock();
        handle_signals();
        catch_up();
        gb_log_write();
        if (poll(&link, 1, 1) > 0) {
            read_link();
        }
    }
}

static void play_fast(double seconds, const double* triggers, int count) {
    const uint64_t end = (uint64_t)(seconds * 1e6);
    int next = 0;
    while (now_us < end) {
        uint64_t moment = next_sample != 0 && next_sample < next_tick ? next_sample : next_tick;
        const uint64_t trigger = next < count ? (uint64_t)(triggers[next] * 1e6) : end;
        now_us = moment;
        if (trigger <= moment) {
            now_us = trigger;
            trip();
            ++next;
        }
        catch_up();
        gb_log_write();
    }
}

static void on_signal(int number) {
    switch (number) {
        case SIGUSR1:
            tripped = 1;
            break;
        case SIGUSR2:
            opened = !opened;
            break;
        case SIGHUP:
            rearmed = 1;
            break;
        default:
            ended = 1;
    }
}

static void take_signals(void) {
    const int numbers[] = {SIGUSR1, SIGUSR2, SIGHUP, SIGTERM, SIGINT};
    struct sigaction action;
    memset(&action, 0, sizeof action);
    action.sa_handler = on_signal;
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; ++i) {
        sigaction(numbers[i], &action, NULL);
    }
}

static void read_file(const char* name, void* to, size_t room, bool must) {
    FILE* file = fopen(name, "rb");
    if (file == NULL) {
        if (must) {
            fail(name);
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

static void open_pty(const char* name) {
    const int master = posix_openpt(O_RDWR | O_NOCTTY);
    if (master < 0 || grantpt(master) != 0 || unlockpt(master) != 0) {
        fail("pseudo-terminal");
    }
    const char* slave = ptsname(master);
    /* Held open here, too, so that a client may come and go. */
    const int held = open(slave, O_RDWR | O_NOCTTY);
    struct termios line;
    if (held < 0 || tcgetattr(held, &line) != 0) {
        fail(slave);
    }
    line.c_iflag = line.c_oflag = line.c_lflag = 0;
    line.c_cflag = CS8 | CREAD | CLOCAL;
    tcsetattr(held, TCSANOW, &line);
    unlink(name);
    if (symlink(slave, name) != 0) {
        fail(name);
    }
    from_link = to_link = master;
}

int main(int argc, char** argv) {
    double triggers[64];
    int trigger_count = 0;
    double seconds = 0;
    memset(&memory, 0xFF, sizeof memory);
    for (int i = 1; i < argc; ++i) {
        const char* value = i + 1 < argc ? argv[i + 1] : NULL;
        if (value == NULL) {
            fputs(usage, stderr);
            return 2;
        }
        if (strcmp(argv[i], "--image") == 0) {
            read_file(value, memory.store, sizeof memory.store, true);
        } else if (strcmp(argv[i], "--keep") == 0) {
            read_file(keep = value, &memory, sizeof memory, false);
        } else if (strcmp(argv[i], "--pty") == 0) {
            open_pty(value);
        } else if (strcmp(argv[i], "--trace") == 0) {
            trace = strcmp(value, "-") == 0 ? stdout : fopen(value, "w");
        } else if (strcmp(argv[i], "--fast") == 0) {
            fast = true;
            seconds = atof(value);
        } else if (strcmp(argv[i], "--trigger") == 0 && trigger_count < 64) {
            triggers[trigger_count++] = atof(value);
        } else {
            fputs(usage, stderr);
            return 2;
        }
        ++i;
    }
    if (trigger_count == 0) {
        triggers[trigger_count++] = 0.01;
    }
    take_signals();
    begun_ns = real_ns();
    gb_link_begin();
    gb_log_begin();
    gb_player_begin(gb_reset_power);
    if (fast) {
        play_fast(seconds, triggers, trigger_count);
    } else {
        play_real();
    }
    return 0;
}
