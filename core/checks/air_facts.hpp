// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/budget/air_memo.hpp"
#include "core/air/run/receiver_line.hpp"
#include "core/schedule/sequence_run.hpp"
#include "core/schedule/stagger.hpp"

#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace gasp {

/// The sequence played again and again, as often as it may be.
struct Repeated {
    Micros period{0};
    Micros length{0};
    ReceiverLine receiver;
};

/// What checks need of the air beside the one run: made once for all of them.
struct AirFacts {
    std::optional<AirRun> at_cut_out;           ///< the same commands with the receiver full at the start
    std::map<ActuatorId, BandedStroke> firsts;  ///< first strokes after air-on, of what the sequence moves
    /// What a stroke takes with all the air it can use.
    struct Alone {
        std::optional<double> strike_s;
        std::optional<double> arrival_s;
        std::optional<double> latest_s;  ///< arrival at the unfavourable end of its band, where it gets there
        bool measured = false;
    };
    std::map<std::pair<ActuatorId, Coil>, Alone> alone;
    /// The run played on past the end of the sequence, until every figure has had time to get to its end.
    std::optional<AirRun> played_on;
    std::vector<StrokeBand> bands_on;  ///< of its strokes
    /// Cues moved apart, or why not; none where the receiver never falls below the regulator.
    std::optional<Result<Stagger>> stagger;
    double regulator_kpa_gauge = 0.0;
    double lowest_receiver_kpa_gauge = 0.0;
    std::optional<Repeated> repeated;  ///< none without a receiver and its compressor, or a lockout

    /// What a sequence that draws so much air again and again does to the receiver in an hour: each run takes
    /// the air the single run took. Triggered ones are tripped as soon as the lockout and the run are over.
    [[nodiscard]] static std::optional<Repeated> repeat(const Show& show, const Sequence& sequence,
                                                        const AirModel& model, const AirRun& run);
    /// The same once in `period`, above 0, of a plant with a receiver and its compressor.
    [[nodiscard]] static Repeated repeat_every(Micros period, const AirModel& model, const AirRun& run);
};

[[nodiscard]] AirFacts air_facts(const Show& show, const Sequence& sequence, const SequenceRun& run,
                                 AirMemo& memo);

}  // namespace gasp
