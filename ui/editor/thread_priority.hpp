// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

namespace gasp {

// How the threads of the program share the processor with each other, and with other programs. Each is asked
// for by the thread itself; threads that it starts afterwards are as it is.

/// Before everything else, where the system allows that (RLIMIT_RTPRIO, or a RLIMIT_NICE): for a thread that
/// serves a sound device and works for moments only. QThread's own priorities do nothing on Linux.
void serve_in_time();
/// Before others, where the system allows that: for a thread that reads ahead of one that serves in time.
void read_ahead();
/// After everything that someone sees or hears: for work of seconds and minutes. Where the processor is idle
/// it takes no longer.
void stand_back();

}  // namespace gasp
