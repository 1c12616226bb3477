// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/air/night/night_arrivals.hpp"
#include "core/air/night/night_runs.hpp"
#include "core/air/run/air_curves.hpp"
#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <atomic>
#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

// The forecast of an evening: who comes when, which scares they get, and what the air does meanwhile. Strokes
// are simulated (run_air); between them everything is quiet and advances in closed form.

/// What becomes of the triggers of one hour.
struct NightHour {
    double delivered = 0.0;  ///< scares, the weak ones among them
    double refused = 0.0;    ///< in a run or its lockout
    /// A figure struck later than its usual moment by more than is allowed, or not at all.
    double weak = 0.0;
    bool operator==(const NightHour&) const = default;
};

/// One night.
struct Night {
    std::uint64_t seed = 0;
    int groups = 0;
    int delivered = 0;
    int refused = 0;
    int weak = 0;
    std::optional<double> lowest_kpa_gauge;  ///< in the receiver; none where it has no limit
    double lowest_at_s = 0.0;
    double compressor_on_s = 0.0;
    double duty = 0.0;            ///< share of the night the compressor runs
    double duty_of_10_min = 0.0;  ///< in the worst ten minutes
    int compressor_starts = 0;
    int starts_in_an_hour = 0;  ///< in the worst sixty minutes
    std::vector<NightHour> hours;
    bool operator==(const Night&) const = default;
};

/// The 5th, 50th and 95th percentile: of N values in order the one at place N p rounded up.
struct Spread {
    double p5 = 0.0;
    double p50 = 0.0;
    double p95 = 0.0;
    bool operator==(const Spread&) const = default;
};

/// One strike of a sequence over all nights.
struct NightStrike {
    SequenceId sequence;
    ActuatorId actuator;
    Coil way = Coil::out;
    Micros at{0};                   ///< the command, on the sequence's ruler
    std::optional<double> usual_s;  ///< after the command, in a run by itself that begins at cut-in
    bool cut_short = false;  ///< the next command usually turns it before it strikes: no scare is weak by it
    std::size_t strokes = 0;
    std::size_t missed = 0;  ///< of those, that never strike
    std::optional<Spread> strike_s;
};

/// The nights played again with every uncertain input off towards late strikes, each by so much that together
/// they come to the band's end: the root of the sum of the squares. Judged by the usual
/// moments of the rig as it is.
struct UnfavourableNights {
    double share_without_weak = 0.0;
    Spread weak;
    std::vector<std::optional<Spread>> strike_s;  ///< of each of the forecast's strikes
};

struct NightForecast {
    NightTerms terms;
    std::vector<Night> nights;  ///< those played, the first with the seed itself
    bool complete = true;       ///< false: cancelled before all were played
    Curve receiver_kpa_gauge;   ///< over the first night; empty where the receiver has no limit
    std::vector<NightStrike> strikes;
    std::vector<NightHour> hours;  ///< means over the nights
    Spread groups;
    Spread delivered;
    Spread refused;
    Spread weak;
    std::optional<Spread> lowest_kpa_gauge;
    Spread duty;
    Spread duty_of_10_min;
    Spread starts_in_an_hour;
    double share_without_weak = 0.0;                 ///< of the nights; says nothing unless `judged`
    std::optional<UnfavourableNights> unfavourable;  ///< where NightWork asks for them
    std::vector<ActuatorId> not_simulated;  ///< moved by a triggered sequence: no strike of theirs is judged
    std::vector<BlankField> missing;        ///< what was not simulated for want of them
    std::vector<Assumption> assumptions;    ///< in the rig
    std::size_t simulated_strokes = 0;

    /// Whether there is a strike by which a scare can be weak.
    [[nodiscard]] bool judged() const { return !strikes.empty() && !nights.empty(); }
};

/// How nights are played.
struct NightWork {
    bool cached = true;         ///< false: every stroke is simulated anew
    int threads = 0;            ///< 0: one for each core
    bool unfavourable = false;  ///< also UnfavourableNights: twice the work
    std::size_t most_strokes =
        0;  ///< simulated, after which it stops as if cancelled; 0: as many as it takes
};

/// What a show's plan says, with what NightTerms has where that is blank.
[[nodiscard]] NightTerms night_terms(const NightPlan& plan);
/// What is taken where plan, sensor and sequences leave the course of a night blank.
[[nodiscard]] std::vector<Assumption> night_assumptions(const Show& show);

/// Plays terms.runs nights, on several threads; the result does not depend on their number. Each night opens
/// with the receiver at cut-out. `progress` (may be empty) gets the share done, 0..1 and never falling, from
/// any of the threads but one at a time; the work stops soon after `cancel` becomes true, which is no error
/// but leaves the forecast incomplete. Error: a figure that cannot be, which it names; as run_air.
[[nodiscard]] Result<NightForecast> forecast_night(const Show& show, std::span<const NightSequence> sequences,
                                                   const NightTerms& terms, const NightWork& options,
                                                   const std::atomic<bool>& cancel,
                                                   const std::function<void(double)>& progress);

}  // namespace gasp
