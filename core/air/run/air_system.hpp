// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/air/model/flow_path.hpp"
#include "core/air/run/integrate.hpp"

#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

// The equations of the plant and of the actuators that are awake. Nobody outside this folder includes this.

namespace gasp {

/// Where the rod is held, or which way it moves.
enum class Hold : std::uint8_t { at_back, at_out, stuck, moving_out, moving_back };

[[nodiscard]] constexpr bool moves(Hold hold) {
    return hold == Hold::moving_out || hold == Hold::moving_back;
}

/// Air in a chamber: its mass and its inner energy.
struct ChamberAir {
    double mass = 0.0;
    double energy = 0.0;
};

struct ChamberPoint {
    double pressure = 0.0;
    double temperature = 0.0;
};

/// One end of a cylinder.
struct Chamber {
    double area = 0.0;
    double closed_volume = 0.0;   ///< piston against the end, tube included
    double closed_surface = 0.0;  ///< of the cylinder alone
    double girth = 0.0;           ///< surface gained for each m of travel
};

/// An actuator with its state.
struct AirUnit {
    const ActuatorModel* model = nullptr;
    Chamber out;
    Chamber back;
    FlowPath supply;
    FlowPath exhaust;
    FlowPath cushioned;
    FlowPath feed;

    double travel = 0.0;
    double speed = 0.0;
    ChamberAir out_air;
    ChamberAir back_air;
    double reservoir_mass = 0.0;
    double kept = 0.0;  ///< Pa, behind the regulator at the start where that is more than the source's
    Hold hold = Hold::at_back;
    int region = 0;             ///< of the travel: -1 in the cushion at the back, 1 in that at the front
    bool supplied_out = false;  ///< what the cylinder feels of the valve's position
    bool supply_shut = false;   ///< until the valve first shifts, when the air is let on with it
    double opened_at = -std::numeric_limits<double>::infinity();
    bool awake = false;
    std::size_t first = 0;  ///< of its unknowns

    [[nodiscard]] int direction() const { return hold == Hold::moving_out ? 1 : -1; }
    [[nodiscard]] bool has_reservoir() const { return model->reservoir > 0.0; }
};

/// The equations over one vector of unknowns. Of each unit that is awake, in this order: travel and speed
/// while it moves, mass and energy of the chamber out, the same of the chamber back where it holds air, mass
/// in its reservoir. Then the mass in the receiver, where it has a limit, and the time while a valve opens.
class AirSystem : public Equations {
  public:
    explicit AirSystem(const PlantModel& plant);

    void add(const ActuatorModel& model);
    /// How all units rest.
    struct Rest {
        bool ambient = false;  ///< all chambers hold the air around
        double source = 0.0;   ///< Pa in what a valve or regulator supplies
        double rise = 0.0;     ///< Pa/s in which that rises and warms the air in there
    };
    /// Every unit at rest for its valve's position, the end of its way being where its load takes it.
    void settle(const Rest& rest);
    /// Pa/s by which the receiver rises with all units at rest, and what stands open to it with it.
    [[nodiscard]] double rise_at_rest() const;
    /// Pa in its reservoir, else in the chamber that its valve supplies; 0 where there is neither.
    [[nodiscard]] double kept_pressure(const AirUnit& unit) const;

    /// The unknowns of all that is awake, laid out anew.
    void lay_out(std::vector<double>& y, double time, bool clocked);
    /// Puts the unknowns back where they came from.
    void take_back(const double* y);
    void set_tolerance(std::vector<double>& tolerance, const double* y, double relative) const;

    void derive(const double* y, double* slopes) override;

    // Places among the unknowns.
    [[nodiscard]] static std::size_t speed_of(const AirUnit& unit) { return unit.first + 1; }
    [[nodiscard]] static std::size_t out_of(const AirUnit& unit) {
        return unit.first + (moves(unit.hold) ? 2 : 0);
    }
    [[nodiscard]] static std::size_t back_of(const AirUnit& unit) { return out_of(unit) + 2; }
    [[nodiscard]] static std::size_t reservoir_of(const AirUnit& unit) {
        return out_of(unit) + (unit.model->back_is_air ? 4 : 2);
    }
    [[nodiscard]] std::size_t receiver_place() const { return receiver_place_; }

    [[nodiscard]] bool limited() const { return plant_.receiver < std::numeric_limits<double>::infinity(); }
    [[nodiscard]] double receiver_pressure(double mass) const;
    [[nodiscard]] double receiver_mass_at(double pressure) const;
    [[nodiscard]] double receiver_pressure() const { return receiver_pressure(receiver_mass); }
    /// At the regulator's outlet.
    [[nodiscard]] double source_pressure(double receiver) const {
        return receiver < plant_.set_pressure ? receiver : plant_.set_pressure;
    }
    /// Before the valve, by which a pilot shifts.
    [[nodiscard]] double pilot_pressure(const AirUnit& unit) const;
    /// The same by the mass in its reservoir, or without one in the receiver.
    [[nodiscard]] double pilot_pressure(const AirUnit& unit, double mass) const;
    [[nodiscard]] double compressor_flow(double pressure) const;
    [[nodiscard]] double leak_flow(double pressure, double temperature) const;

    [[nodiscard]] ChamberPoint point(const ActuatorModel& model, const ChamberAir& air, double volume) const;
    [[nodiscard]] ChamberPoint out_point(const AirUnit& unit, const ChamberAir& air, double travel) const;
    [[nodiscard]] ChamberPoint back_point(const AirUnit& unit, const ChamberAir& air, double travel) const;
    /// What pushes the rod out, friction and the pull of its own speed left out.
    [[nodiscard]] double net_force(const AirUnit& unit, double travel, double out_pressure,
                                   double back_pressure, const Gearing& gearing) const;
    [[nodiscard]] double net_force(const AirUnit& unit) const;
    [[nodiscard]] double acceleration(const AirUnit& unit, double force, double speed,
                                      const Gearing& gearing) const;

    [[nodiscard]] const PlantModel& plant() const { return plant_; }

    std::vector<AirUnit> units;
    double receiver_mass = 0.0;
    bool compressor_on = false;

  private:
    struct Flow {
        double mass = 0.0;         ///< into the chamber
        double temperature = 0.0;  ///< of the air that flows
    };

    void settle(AirUnit& unit, const Rest& rest) const;
    /// K, of the air in a chamber of so much volume and surface that is filled at rest.
    [[nodiscard]] double warmth(const ActuatorModel& model, double volume, double surface, double rise) const;
    /// m3 at the temperature around that hold as much as what stands open to the receiver.
    [[nodiscard]] double room_of(const AirUnit& unit, double rise) const;
    [[nodiscard]] Flow supply_flow(const AirUnit& unit, const double* y, const ChamberPoint& chamber) const;
    [[nodiscard]] Flow exhaust_flow(const AirUnit& unit, const ChamberPoint& chamber, bool cushioned) const;
    void derive_unit(const AirUnit& unit, const double* y, double* slopes);
    void derive_chamber(const AirUnit& unit, const Chamber& chamber, const ChamberPoint& point,
                        const Flow& flow, double opened, double growth, double* slopes) const;
    [[nodiscard]] double opening(const AirUnit& unit) const;

    PlantModel plant_;
    FlowPath leak_;
    double receiver_start_ = 1.0;  ///< kg, for the polytropic law
    std::size_t receiver_place_ = 0;
    std::size_t clock_place_ = 0;
    bool clocked_ = false;
    double now_ = 0.0;
    // Of the derivation at work.
    double source_ = 0.0;
    double source_temperature_ = 0.0;
    double drawn_ = 0.0;

    friend class AirRunner;
};

}  // namespace gasp
