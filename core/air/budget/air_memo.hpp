// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/budget/band.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <unordered_map>
#include <vector>

namespace gasp {

/// A stroke and its band.
struct BandedStroke {
    Stroke stroke;
    StrokeBand band;
};

/// Runs the air of one show after another, of which each differs little from the one before, and works out
/// again only what changed.
///
/// While the receiver stays above the regulator's pressure, actuators do not feel each other: the strokes of
/// one, from one rest in which its air has settled to the next, are an episode that depends on their spacing
/// and on nothing else. Episodes are simulated once and kept; what they draw is taken from the receiver.
/// Where the receiver falls lower, run_air plays all of it together.
///
/// Not for two threads at once.
class AirMemo {
  public:
    AirMemo();
    ~AirMemo();
    AirMemo(AirMemo&&) noexcept;
    AirMemo& operator=(AirMemo&&) noexcept;

    /// The show from here on; what still holds of the shows before is kept.
    void take(const Show& show);
    /// The fitted model of that show.
    [[nodiscard]] const AirModel& model() const { return models_.front(); }

    /// As run_air, of the fitted model where `model` is 0, else of varied model `model` - 1.
    /// `options.air_on_now` must be false. Curves are made for the fitted model only.
    [[nodiscard]] Result<AirRun> run(std::size_t model, std::span<const StrokeCommand> commands,
                                     Micros length, const AirOptions& options = {});

    /// The bands of a nominal run of these commands. Error: as run.
    [[nodiscard]] Result<std::vector<StrokeBand>> bands(const Show& show, const AirRun& nominal,
                                                        std::span<const StrokeCommand> commands,
                                                        Micros length, const AirOptions& options = {});

    /// The first stroke out after the air is let on, with its band. Error: as first_stroke; an actuator that
    /// cannot be simulated.
    [[nodiscard]] Result<BandedStroke> first(const Show& show, ActuatorId actuator);

    /// From here on, each run that would simulate anything fails while this answers true; empty: never.
    void stop_when(std::function<bool()> stopped) { stopped_ = std::move(stopped); }

    /// Strokes simulated since it was made, those of all models together.
    [[nodiscard]] std::size_t strokes_simulated() const { return simulated_; }

  private:
    struct Episode;
    class Composer;
    using Key = std::vector<std::int64_t>;
    struct Hash {
        [[nodiscard]] std::size_t operator()(const Key& key) const;
    };
    using Episodes = std::unordered_map<Key, std::shared_ptr<const Episode>, Hash>;
    /// The figures an actuator's strokes follow from, and a number for just these.
    struct Figures {
        AirPlant plant;
        Actuator actuator;
        std::int64_t number = 0;
    };

    [[nodiscard]] Result<std::shared_ptr<const Episode>> episode(std::size_t model, const ActuatorModel& each,
                                                                 std::span<const StrokeCommand> commands,
                                                                 bool out, Micros tail);
    /// run_air, counted.
    [[nodiscard]] Result<AirRun> simulate(const AirModel& model, std::span<const StrokeCommand> commands,
                                          Micros length, const AirOptions& options);
    [[nodiscard]] Result<std::shared_ptr<const AirRun>> whole(std::size_t model,
                                                              std::span<const StrokeCommand> commands,
                                                              Micros length, const AirOptions& options);

    std::vector<AirModel> models_;
    std::map<ActuatorId, Figures> figures_;
    std::int64_t last_number_ = 0;
    Episodes fresh_;
    Episodes old_;  ///< of the generation before; what is asked for again moves up
    std::unordered_map<Key, std::shared_ptr<const AirRun>, Hash> wholes_;
    std::unordered_map<std::int64_t, BandedStroke> firsts_;  ///< by the number of the figures
    std::function<bool()> stopped_;
    std::size_t simulated_ = 0;
};

}  // namespace gasp
