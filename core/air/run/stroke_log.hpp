// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_run.hpp"
#include "core/air/run/air_system.hpp"
#include "core/air/run/curve_writer.hpp"

#include <functional>
#include <optional>
#include <vector>

// What is noted of a run while it goes. Nobody outside this folder includes this.

namespace gasp {

/// A stretch of the integration: the step and when it began, its equations laid out as they were in it.
struct Stretch {
    double begin = 0.0;
    double length = 0.0;
    const Step* step = nullptr;
    const std::vector<double>* from = nullptr;  ///< the unknowns at its begin
    const std::vector<double>* to = nullptr;    ///< and at its end
};

class StrokeLog {
  public:
    StrokeLog(const AirSystem& system, AirRun& run, bool curves);
    /// Before anything moves.
    void begin();

    /// A command: air and pressure count for it from here on. Returns the place of its stroke.
    std::size_t command(std::size_t unit, const StrokeCommand& command);
    /// The valve has shifted for a stroke.
    void shifted(std::size_t stroke) { run_.strokes[stroke].shifted = true; }
    /// The cylinder feels it: the motion belongs to this stroke from here on.
    void felt(double time, std::size_t unit, std::size_t stroke);

    void stretch(const Stretch& stretch);
    /// Time passes with all asleep; the receiver goes from one pressure to the other.
    void quiet(double begin, double end, const std::function<double(double)>& receiver_pressure);
    /// A unit starts to move, from rest.
    void starts(double time, std::size_t unit);
    /// A unit meets a stop at a speed.
    void meets_stop(double time, std::size_t unit, double speed);
    void compressor_starts() { ++run_.compressor_starts; }
    void finish(double time);

  private:
    struct Watch {
        std::optional<std::size_t> latest;  ///< stroke of the latest command
        std::optional<std::size_t> acting;  ///< stroke whose valve position the cylinder feels
        double supplied = 0.0;              ///< kg through the supply port since the run began
        double drawn = 0.0;                 ///< kg out of the receiver
        double supplied_at_command = 0.0;
        double drawn_at_command = 0.0;
        double furthest = 0.0;
        bool arrived = false;
        bool strike_noted = false;
        std::optional<double> slow_since;
    };

    [[nodiscard]] double progress(const Stroke& stroke, const AirUnit& unit, double travel) const;
    [[nodiscard]] double gauge_kpa(double pressure) const;
    void count_air(const Stretch& stretch, std::size_t unit);
    void note_motion(const Stretch& stretch, std::size_t unit);
    void note_shares(const Stretch& stretch, std::size_t unit, double from, double to);
    void note_force(const AirUnit& unit, Stroke& stroke, double speed);
    void note_strike(std::size_t unit, double receiver, double working);
    void note_slowness(double time, std::size_t unit, double speed);
    void note_receiver(double time, double pressure);
    void draw(const Stretch& stretch, std::size_t unit);
    void draw_point(double time, std::size_t unit);
    [[nodiscard]] double working_pressure(const AirUnit& unit, Coil way, const Stretch* stretch,
                                          double share) const;
    void close_air(std::size_t unit);
    void close_motion(double time, std::size_t unit, bool superseded);

    const AirSystem& system_;
    AirRun& run_;
    bool curves_;
    std::vector<Watch> watches_;
    std::vector<CurveWriter> out_;
    std::vector<CurveWriter> back_;
    std::vector<CurveWriter> reservoir_;
    CurveWriter receiver_;
};

}  // namespace gasp
