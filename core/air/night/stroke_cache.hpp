// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/air/run/air_run.hpp"
#include "core/units/error.hpp"

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <mutex>
#include <span>
#include <unordered_map>
#include <vector>

namespace gasp {

/// One command of a pattern of strokes.
struct PatternCommand {
    Micros after{0};             ///< after the first one
    std::uint32_t actuator = 0;  ///< its place in the model
    Coil way = Coil::out;
    bool out_before = false;  ///< where it stood until then
    bool operator==(const PatternCommand&) const = default;
};

/// Strokes from one quiet to the next, in order of time.
struct StrokePattern {
    std::vector<PatternCommand> commands;
    Micros length{0};  ///< until all is quiet again
    bool operator==(const StrokePattern&) const = default;
};

struct StrokePatternHash {
    std::size_t operator()(const StrokePattern& pattern) const;
};

/// Strokes of one actuator while the receiver stays at or above the regulator's setting: they depend on no
/// other and on no pressure.
struct HeldStrokes {
    /// In which kg/s of air leave the receiver, s from the first command.
    struct Draw {
        double begin_s = 0.0;
        double end_s = 0.0;
        double flow = 0.0;
    };
    std::vector<double> strike_s;  ///< for each command, from it; not a number where it never strikes
    std::vector<Draw> draws;
};

/// How the plant stands when strokes begin that are played together on the receiver.
struct PlantState {
    double pressure = 0.0;         ///< Pa, absolute, in the receiver
    std::span<const double> kept;  ///< likewise, behind the regulator, of each actuator of the model
    bool compressor_on = false;
    bool filling = false;  ///< AirOptions::filling
};

/// Strokes played together on the receiver.
struct JointStrokes {
    std::vector<double> strike_s;  ///< as in HeldStrokes
    double lowest = 0.0;           ///< Pa, absolute, in the receiver
    double end = 0.0;              ///< likewise, at the end
    double compressor_on_s = 0.0;
    int compressor_starts = 0;
    bool compressor_on = false;  ///< at the end
    std::vector<double> kept;    ///< Pa, at the end, as in PlantState
};

/// The strokes of a rig, each pattern simulated once: by itself while the receiver holds the regulator's
/// setting; below it together with what overlaps, as a polynomial in the receiver's pressure at its beginning
/// (Chebyshev points, 3 to 9 of them, over a stretch that is halved until the points in between agree). What
/// it gives depends on pattern and pressure alone, in whatever order, by whatever thread, it is asked.
class StrokeCache {
  public:
    explicit StrokeCache(AirModel model);
    ~StrokeCache();
    StrokeCache(const StrokeCache&) = delete;
    StrokeCache& operator=(const StrokeCache&) = delete;

    [[nodiscard]] const AirModel& model() const { return model_; }

    /// Requires: all commands are of one actuator. Error: as run_air.
    [[nodiscard]] Result<std::shared_ptr<const HeldStrokes>> held(const StrokePattern& pattern);
    /// The same of a pattern that will not come again: not kept.
    [[nodiscard]] Result<std::shared_ptr<const HeldStrokes>> held_once(const StrokePattern& pattern) const;

    /// By the polynomial, or where that does not settle by simulation, for a plant as it is when all has been
    /// quiet for long: the compressor, if it runs, has been filling. `start` is the receiver's absolute
    /// pressure, below the regulator's setting or little above it. Error: as run_air.
    [[nodiscard]] Result<JointStrokes> joint(const StrokePattern& pattern, double start, bool compressor_on);

    /// All of it simulated, nothing kept.
    [[nodiscard]] Result<JointStrokes> simulated(const StrokePattern& pattern, const PlantState& start) const;

    /// Strokes out and back simulated so far.
    [[nodiscard]] std::size_t simulated_strokes() const { return simulated_; }

  private:
    class Family;
    struct HeldEntry {
        std::once_flag once;
        Result<std::shared_ptr<const HeldStrokes>> strokes;
    };

    [[nodiscard]] Result<AirRun> run(const AirModel& model, const StrokePattern& pattern,
                                     const AirOptions& options) const;

    AirModel model_;
    AirModel held_model_;  ///< without compressor and leak
    std::mutex mutex_;     ///< guards the maps, not what is in them
    std::unordered_map<StrokePattern, std::unique_ptr<HeldEntry>, StrokePatternHash> held_;
    std::unordered_map<StrokePattern, std::unique_ptr<Family>, StrokePatternHash> families_;
    mutable std::atomic<std::size_t> simulated_{0};
};

}  // namespace gasp
