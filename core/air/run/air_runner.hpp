// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_run.hpp"
#include "core/air/run/air_system.hpp"
#include "core/air/run/integrate.hpp"
#include "core/air/run/stroke_log.hpp"

#include <queue>

#include <cstdint>
#include <optional>
#include <span>
#include <unordered_map>
#include <vector>

// The course of a run. Nobody outside this folder includes this.

namespace gasp {

/// Takes the commands of a run one after another and integrates between them: explicitly while anything
/// moves, by an L-stable method while all is held, in closed form while all is asleep. Whatever changes the
/// equations (a stop, sticking and slipping, a cushion, the pressure switch, a valve) ends a step.
class AirRunner {
  public:
    AirRunner(const AirModel& model, std::span<const StrokeCommand> commands, Micros length,
              const AirOptions& options);

    [[nodiscard]] Result<AirRun> run();

  private:
    enum class Kind : std::uint8_t { command, shift, felt, open };

    /// Something that happens at a moment known beforehand.
    struct Planned {
        double time = 0.0;
        std::uint64_t order = 0;  ///< of those of one moment
        Kind kind = Kind::command;
        std::size_t unit = 0;
        std::size_t stroke = 0;  ///< of a command: its place among the commands
        Coil way = Coil::back;
        bool operator>(const Planned& other) const {
            return time != other.time ? time > other.time : order > other.order;
        }
    };

    /// The valve of a unit.
    struct ValveState {
        Coil wanted = Coil::back;
        std::optional<std::uint64_t> shifting;  ///< order of the shift that is under way
        std::optional<std::size_t> waiting;     ///< stroke whose pilot has no pressure yet
    };

    enum class What : std::uint8_t { stop, turn, cushion, release, pilot, cut_in, cut_out };

    /// Something that happens within a step.
    struct Found {
        double share = 2.0;
        What what = What::stop;
        std::size_t unit = 0;
    };

    void add_units(const AirModel& model, std::span<const StrokeCommand> commands, const AirOptions& options);
    void settle(const AirOptions& options);
    void plan(double time, Kind kind, std::size_t unit, std::size_t stroke, Coil way);

    void happen(const Planned& planned);
    void take_command(std::size_t unit, const StrokeCommand& command);
    void try_shift(std::size_t unit, std::size_t stroke, Coil way);
    void shift(std::size_t unit, std::size_t stroke, Coil way);
    void feel(std::size_t unit, std::size_t stroke, Coil way);

    [[nodiscard]] bool any_awake() const;
    [[nodiscard]] Result<void> pass_quietly(double until);
    [[nodiscard]] bool passes_in_closed_form(double low) const;
    [[nodiscard]] Result<void> integrate(double until);
    [[nodiscard]] Result<bool> advance(double until);
    void lay_out();
    void release_held();
    /// How hard the rod must be pushed to leave its place.
    [[nodiscard]] double holding_force(const AirUnit& unit) const;
    [[nodiscard]] bool released(const AirUnit& unit, double force) const;
    void set_region(AirUnit& unit) const;

    [[nodiscard]] Found first_event() const;
    void look_at_motion(std::size_t unit, Found& found) const;
    void look_at_hold(std::size_t unit, Found& found) const;
    void look_at_pilot(std::size_t unit, Found& found) const;
    void look_at_switch(Found& found) const;
    template <class F>
    void look(F value, double at_start, double at_end, What what, std::size_t unit, Found& found) const;
    [[nodiscard]] double held_force(const AirUnit& unit, double share) const;
    void apply(const Found& found);
    void turn(std::size_t unit);
    void accept(double length);
    void put_to_sleep();
    [[nodiscard]] Error stuck_error() const;

    const AirModel& model_;
    std::span<const StrokeCommand> commands_;
    double length_;
    double tolerance_;
    bool air_on_now_;
    std::function<bool()> stopped_;
    AirRun run_;
    AirSystem system_;
    std::unordered_map<ActuatorId, std::size_t> places_;
    std::vector<ValveState> valves_;
    std::optional<StrokeLog> log_;
    std::priority_queue<Planned, std::vector<Planned>, std::greater<>> planned_;
    std::uint64_t orders_ = 0;

    double time_ = 0.0;
    double next_step_ = first_step;
    std::vector<double> y_;
    std::vector<double> after_;
    std::vector<double> tolerances_;
    std::vector<double> slopes_;
    DormandPrince explicit_;
    Rosenbrock implicit_;
    Step* step_ = nullptr;
    int stiff_steps_ = 0;
    bool stiff_ = false;
    bool crooked_ = false;  ///< all asleep, but the receiver's pressure has no closed form
    std::size_t most_steps_;

    static constexpr double first_step = 1e-4;  // s
};

}  // namespace gasp
