// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/listening.hpp"
#include "core/units/error.hpp"

#include <vector>

namespace gasp {

/// How much quieter than it opens a jaw shuts.
inline constexpr double jaw_hysteresis_db = 6.0;

/// How a jaw goes with a voice. Levels are in dB below the voice's loudest moment.
struct JawOptions {
    double open_db = 18.0;                       ///< louder opens it
    double close_db = 18.0 + jaw_hysteresis_db;  ///< quieter shuts it; at least open_db
    double release_ms = 40.0;        ///< in which what is heard falls by 63 %: longer bridges short dips
    double open_lead_ms = 0.0;       ///< from the output driven to the mouth open
    double close_lead_ms = 0.0;      ///< from the output at rest to the mouth shut
    double shortest_open_ms = 80.0;  ///< of the output
    double shortest_shut_ms = 60.0;  ///< likewise
    bool operator==(const JawOptions&) const = default;
};

/// A stretch of time, [begin, end), from the start of the sound.
struct JawStretch {
    Micros begin{0};
    Micros end{0};
    bool operator==(const JawStretch&) const = default;
};

/// Error: what is out of range.
[[nodiscard]] Result<void> valid(const JawOptions& options);

/// When the output of a jaw is driven so that its mouth is open with the voice: the envelope, falling slowly,
/// switched with hysteresis, moved ahead by the leads, no stretch and no gap shorter than allowed. In order
/// of time and apart. Error: an option out of range.
[[nodiscard]] Result<std::vector<JawStretch>> jaw_stretches(const Envelope& envelope,
                                                            const JawOptions& options);

}  // namespace gasp
