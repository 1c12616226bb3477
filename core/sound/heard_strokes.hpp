// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"
#include "core/sound/knocks.hpp"
#include "core/units/error.hpp"

#include <span>
#include <vector>

namespace gasp {

/// A stroke in a recording: the valve's click as it shifts, and the thump at the stop.
struct HeardStroke {
    Coil way = Coil::out;
    double click_s = 0.0;
    double thump_s = 0.0;
    double confidence = 0.0;  ///< 0..1: the lesser of both knocks', less where another pair would do as well
    [[nodiscard]] double ms() const { return (thump_s - click_s) * 1000.0; }
    bool operator==(const HeardStroke&) const = default;
};

/// About how long a stroke takes from click to thump: what tells a pair from two knocks that only follow one
/// another.
struct ExpectedStrokes {
    double out_ms = 0.0;
    double back_ms = 0.0;
};

/// The strokes among knocks in order of time. They alternate, and a time may be off by a factor of three; the
/// pairs taken are those that together are surest. Error: an expected time that is none; more knocks than
/// strokes can be told from; no pair at all.
[[nodiscard]] Result<std::vector<HeardStroke>> pair_strokes(std::span<const Knock> knocks,
                                                            const ExpectedStrokes& expected);

}  // namespace gasp
