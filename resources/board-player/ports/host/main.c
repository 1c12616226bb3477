/* SPDX-License-Identifier: MIT */
/* SPDX-FileCopyrightText: The Gaspworks authors */
#define _XOPEN_SOURCE 700

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#include "board.h"
#include "memory.h"
#include "player/link.h"
#include "player/log.h"
#include "player/player.h"
#include "player/port.h"

/* Plays a board in a process. */

static const char usage[] =
    "usage: gaspworks-host-board [options]\n"
    "  --image FILE     the image in its store at power-up\n"
    "  --keep FILE      store and log are kept there over power-down\n"
    "  --pty LINK       speak over a pseudo-terminal, with a symbolic link of this name to it;\n"
    "                   else over standard input and output\n"
    "  --trace FILE     a line for each change: clock in us, levels of the pins in hexadecimal\n"
    "  --fast SECONDS   no link: play so long by a clock that does not wait, then end\n"
    "  --trigger S      with --fast: when the trigger comes; may be given again\n"
    "Signals: SIGUSR1 trips the trigger, SIGUSR2 opens or closes the output-enable input, SIGHUP presses\n"
    "re-arm for a while.\n";

enum { most_triggers = 64 };

static struct {
    FILE* trace;
    double fast_s; /* 0: in real time */
    double triggers[most_triggers];
    int trigger_count;
} options;
static int from_link = 0;
static int to_link = 1;

static volatile sig_atomic_t tripped;
static volatile sig_atomic_t opened;
static volatile sig_atomic_t switched;
static volatile sig_atomic_t rearmed;
static volatile sig_atomic_t ended;

static void fail(const char* what) {
    perror(what);
    exit(2);
}

void gb_port_put(uint8_t byte) {
    if (write(to_link, &byte, 1) != 1) {
        ended = 1;
    }
}

static void handle_signals(void) {
    if (tripped) {
        tripped = 0;
        board_trip();
    }
    if (rearmed) {
        rearmed = 0;
        board_press_rearm();
    }
    if (switched) {
        switched = 0;
        board_enable(!opened);
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
        handle_signals();
        board_catch_up();
        gb_log_write();
        if (poll(&link, 1, 1) > 0) {
            read_link();
        }
    }
}

static void play_fast(void) {
    const uint64_t end = (uint64_t)(options.fast_s * 1e6);
    int next = 0;
    while (board_now() < end) {
        const uint64_t due = board_next();
        const uint64_t trigger =
            next < options.trigger_count ? (uint64_t)(options.triggers[next] * 1e6) : end;
        board_go_to(trigger < due ? trigger : due);
        if (trigger <= due) {
            board_trip();
            ++next;
        }
        board_catch_up();
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
            switched = 1;
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

static void refuse(void) {
    fputs(usage, stderr);
    exit(2);
}

static void take_option(const char* name, const char* value) {
    if (strcmp(name, "--image") == 0) {
        memory_load(value);
    } else if (strcmp(name, "--keep") == 0) {
        memory_keep(value);
    } else if (strcmp(name, "--pty") == 0) {
        open_pty(value);
    } else if (strcmp(name, "--trace") == 0) {
        options.trace = strcmp(value, "-") == 0 ? stdout : fopen(value, "w");
        if (options.trace == NULL) {
            fail(value);
        }
    } else if (strcmp(name, "--fast") == 0) {
        options.fast_s = atof(value);
    } else if (strcmp(name, "--trigger") == 0 && options.trigger_count < most_triggers) {
        options.triggers[options.trigger_count++] = atof(value);
    } else {
        refuse();
    }
}

int main(int argc, char** argv) {
    memory_begin();
    for (int i = 1; i < argc; i += 2) {
        if (i + 1 == argc) {
            refuse();
        }
        take_option(argv[i], argv[i + 1]);
    }
    take_signals();
    board_begin(options.fast_s > 0, options.trace);
    gb_link_begin();
    gb_log_begin();
    gb_player_begin(gb_reset_power);
    if (options.fast_s > 0) {
        play_fast();
    } else {
        play_real();
    }
    return 0;
}
