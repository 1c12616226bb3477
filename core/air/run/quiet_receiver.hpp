// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/air/run/air_curves.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace gasp {

/// From a moment on the draw on the receiver is by so much greater.
struct DrawStep {
    double time_s = 0.0;
    double kg_per_s = 0.0;
};

/// A stretch in which the compressor ran, s from the night's opening.
struct CompressorRun {
    double begin_s = 0.0;
    double end_s = 0.0;
    bool operator==(const CompressorRun&) const = default;
};

/// What stands open to the receiver behind the regulator while all rests: it fills along with it and keeps
/// its air when the receiver falls.
struct Vessel {
    double reservoir = 0.0;  ///< m3, at the temperature around
    double chamber = 0.0;    ///< m3
    double heat = 0.0;       ///< W/K, of the chamber's wall; infinite where it keeps the temperature around
};

/// The receiver in closed form, while nothing moves or under a draw that is known beforehand: the compressor
/// between cut-in and cut-out, the leak, and below the regulator's setting the chambers and reservoirs that
/// fill along with it. Choked, the leak is proportional to the pressure, so that it goes exponentially;
/// below, so in steps of 1 kPa. Nothing leaves it at the pressure of the air around.
class QuietReceiver {
  public:
    /// What changes with time.
    struct State {
        double pressure = 0.0;  ///< Pa, absolute
        bool on = false;        ///< the compressor
        double time_s = 0.0;
        double on_s = 0.0;  ///< of the compressor so far
        double on_since_s = 0.0;
        double drawn = 0.0;  ///< kg/s
        int starts = 0;
        double lowest = 0.0;  ///< Pa, absolute, so far
        double lowest_at_s = 0.0;
        std::size_t runs = 0;  ///< of the compressor that have ended
    };

    QuietReceiver(const PlantModel& plant, std::vector<Vessel> vessels, double pressure);

    /// To a moment in s that is not before the last one.
    void advance_to(double time_s);
    /// From now on kg/s of air leave.
    void draw(double mass_flow);
    /// Where a simulated stretch left it: the compressor ran `on_s` of the time since, `starts` times anew.
    /// `kept` is the pressure in each vessel, Pa absolute.
    void take_over(double time_s, double lowest, double pressure, bool compressor_on, double on_s, int starts,
                   std::span<const double> kept);

    [[nodiscard]] const State& state() const { return state_; }
    /// In each vessel, Pa absolute.
    [[nodiscard]] std::span<const double> kept() const { return kept_; }
    /// Back to a state that it has been in, since when the receiver has not risen below the regulator's
    /// setting.
    void restore(const State& state);
    /// Every corner from here on goes into `curve` (gauge kPa), and points in between that straight lines are
    /// within 0.02 % of the absolute pressure; null: no more.
    void trace(Curve* curve);

    [[nodiscard]] std::vector<CompressorRun> compressor_runs() const;
    /// More starts than any compressor makes: the switch's two pressures are too close for this receiver.
    [[nodiscard]] bool chatters() const { return state_.starts > most_starts; }

  private:
    static constexpr int most_starts = 100'000;

    /// dp/dt = constant + factor p, as long as the pressure is within [least, most].
    struct Piece {
        double constant = 0.0;
        double factor = 0.0;
        double least = 0.0;
        double most = 0.0;
        [[nodiscard]] double rate(double p) const { return constant + factor * p; }
    };
    [[nodiscard]] Piece piece() const;
    [[nodiscard]] Piece piece_at(double low, double high, double probe) const;
    void step(double longest_s);
    void fill_vessels();
    /// m3 at the temperature around that hold as much as what fills along while the receiver rises, Pa/s.
    [[nodiscard]] double room(double rise) const;
    [[nodiscard]] double straight_s() const;
    void switch_over();
    void note();

    PlantModel plant_;
    std::vector<Vessel> vessels_;
    std::vector<double> kept_;
    double lift_;  ///< Pa for each kg
    State state_;
    std::vector<CompressorRun> runs_;
    Curve* curve_ = nullptr;
};

}  // namespace gasp
