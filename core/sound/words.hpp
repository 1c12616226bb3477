// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/listening.hpp"
#include "core/units/error.hpp"

#include <optional>
#include <vector>

namespace gasp {

/// How words are told from the pauses between them: a word begins where the level rises above `open_db`
/// below the loudest moment, and ends where it stays below `close_db` under it for a pause (hysteresis).
struct WordOptions {
    double open_db = 26.0;   ///< below the loudest moment, above 0
    double close_db = 32.0;  ///< likewise, at least open_db
    double shortest_word_ms = 40.0;
    double shortest_pause_ms = 120.0;  ///< a shorter one is a part of the word
    bool operator==(const WordOptions&) const = default;
};

/// Error: the option that is out of range.
[[nodiscard]] Result<void> valid(const WordOptions& options);

/// A stretch that sounds between two pauses.
struct Word {
    Micros begin{0};
    Micros end{0};
    double loudest_dbfs = 0.0;
    bool operator==(const Word&) const = default;
};

struct LoudMoment {
    Micros time{0};
    double dbfs = 0.0;
};

/// The words of an envelope in order of time; none where it is silent. Error: an option out of range.
[[nodiscard]] Result<std::vector<Word>> words_of(const Envelope& envelope, const WordOptions& options);

/// The first of the loudest steps; empty where it is silent.
[[nodiscard]] std::optional<LoudMoment> loudest_of(const Envelope& envelope);

}  // namespace gasp
