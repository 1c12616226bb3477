// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/fields.hpp"
#include "core/show/fields_building.hpp"

#include <array>

namespace gasp {
namespace {

using std::string_view;
using Q = Quantity;

constexpr std::array<string_view, 3> action_keys{"single_gravity_return", "single_spring_return",
                                                 "double_acting"};
constexpr std::array<string_view, 3> action_labels{"Single-acting, weight returns it",
                                                   "Single-acting, spring returns it", "Double-acting"};
constexpr std::array<string_view, 3> valve_keys{"three_two", "five_two_one_coil", "five_two_two_coils"};
constexpr std::array<string_view, 3> valve_labels{"3/2, one coil", "5/2, one coil", "5/2, two coils"};
constexpr std::array<string_view, 2> place_keys{"at_valve", "at_cylinder"};
constexpr std::array<string_view, 2> place_labels{"At the valve", "At the cylinder"};
constexpr std::array<string_view, 4> linkage_keys{"direct", "lever", "swing_arms", "table"};
constexpr std::array<string_view, 4> linkage_labels{"None: figure on the rod", "Lever", "Swing arms",
                                                    "As measured"};
constexpr std::array<string_view, 2> turn_keys{"rises", "falls"};
constexpr std::array<string_view, 2> turn_labels{"Turns upwards", "Turns downwards"};

}  // namespace

template <>
const Fields<Cylinder>& fields<Cylinder>() {
    using F = FigureField<Cylinder>;
    static constexpr std::array choices{choice<Cylinder, CylinderAction, &Cylinder::action>(
        "action", "Action", action_keys, action_labels, "Which way air drives it, and what brings it back.")};
    static constexpr std::array figures{
        F{"bore_mm", "Bore", Q::small_length, 1, 500, &Cylinder::bore_mm, "Diameter of the piston."},
        F{"rod_mm", "Rod", Q::small_length, 0.5, 250, &Cylinder::rod_mm, "Diameter of the rod."},
        F{"stroke_mm", "Stroke", Q::small_length, 1, 5000, &Cylinder::stroke_mm, "Travel of the rod."},
        F{"spring_n", "Spring force", Q::force, 0, 20000, &Cylinder::spring_n,
          "Pull of the return spring with the rod in."},
        F{"spring_rate_n_mm", "Spring rate", Q::stiffness, 0, 1000, &Cylinder::spring_rate_n_mm,
          "What the return spring gains for each step of travel."},
        F{"rod_mass_kg", "Mass of rod and piston", Q::mass, 0, 500, &Cylinder::rod_mass_kg,
          "Only where the moving mass of the load does not hold it already."},
        F{"dead_ml", "Dead volume", Q::small_volume, 0, 100000, &Cylinder::dead_ml,
          "Room at each end with the piston against it, fittings included, tube not."},
        F{"friction_n", "Friction, moving", Q::force, 0, 50000, &Cylinder::friction_n,
          "Force that just keeps it moving, air off; blank takes the share given with the load."},
        F{"static_friction_n", "Friction, standing", Q::force, 0, 50000, &Cylinder::static_friction_n,
          "Force that just sets it going, air off; blank counts as the moving one."},
        F{"viscous_n_s_m", "Friction by speed", Q::damping, 0, 100000, &Cylinder::viscous_n_s_m,
          "Further friction for each step of speed; blank counts as none."},
        F{"cushion_mm", "Cushion length", Q::small_length, 0, 500, &Cylinder::cushion_mm,
          "Last part of the way, at each end, in which the cushion throttles; blank counts as none."},
        F{"cushion_c_l_s_bar", "Cushion conductance", Q::conductance, 0.0001, 100,
          &Cylinder::cushion_c_l_s_bar, "Sonic conductance C of the cushion as it is set (ISO 6358)."},
        F{"cushion_b", "Cushion ratio b", Q::number, 0, 0.95, &Cylinder::cushion_b,
          "Critical pressure ratio of the cushion (ISO 6358); 0.3 where nothing is known."},
        F{"rated_speed_m_s", "Rated speed", Q::speed, 0.01, 20, &Cylinder::rated_speed_m_s,
          "Highest speed at the end of the stroke its maker allows."},
        F{"rated_energy_j", "Rated energy", Q::energy, 0.001, 10000, &Cylinder::rated_energy_j,
          "Most energy its maker lets the end of the stroke take."},
        F{"rating_kpa_gauge", "Rated pressure", Q::gauge_pressure, 10, 5000, &Cylinder::rating_kpa_gauge,
          "Highest pressure its maker allows."},
    };
    static constexpr Fields<Cylinder> all{choices, figures};
    return all;
}

template <>
const Fields<Valve>& fields<Valve>() {
    using F = FigureField<Valve>;
    static constexpr std::array choices{choice<Valve, ValveKind, &Valve::kind>(
        "kind", "Valve", valve_keys, valve_labels, "Ports and positions, and how many coils shift it.")};
    static constexpr std::array figures{
        F{"opening_delay_ms", "Opening delay", Q::time_ms, 0, 2000, &Valve::opening_delay_ms,
          "From power on the coil to air at the port."},
        F{"closing_delay_ms", "Closing delay", Q::time_ms, 0, 2000, &Valve::closing_delay_ms,
          "From power off to the exhaust opening."},
        F{"shortest_on_ms", "Shortest dwell", Q::time_ms, 0, 10000, &Valve::shortest_on_ms,
          "The shortest time on with which it still shifts fully; try it on the bench."},
        F{"shortest_off_ms", "Shortest rest", Q::time_ms, 0, 10000, &Valve::shortest_off_ms,
          "The shortest time off before it may come on again."},
        F{"least_kpa_gauge", "Least pressure", Q::gauge_pressure, 0, 1000, &Valve::least_kpa_gauge,
          "Below it a pilot valve does not shift."},
        F{"ramp_ms", "Opening time", Q::time_ms, 0, 2000, &Valve::ramp_ms,
          "Time in which it goes from shut to fully open; blank counts as at once."},
        F{"supply_c_l_s_bar", "Supply conductance", Q::conductance, 0.001, 10000, &Valve::supply_c_l_s_bar,
          "Sonic conductance C from supply to cylinder, from its sheet (ISO 6358)."},
        F{"supply_b", "Supply ratio b", Q::number, 0, 0.95, &Valve::supply_b,
          "Critical pressure ratio of that way (ISO 6358); 0.3 where nothing is known."},
        F{"exhaust_c_l_s_bar", "Exhaust conductance", Q::conductance, 0.001, 10000, &Valve::exhaust_c_l_s_bar,
          "Sonic conductance C from cylinder to exhaust (ISO 6358); blank counts as that of the supply."},
        F{"exhaust_b", "Exhaust ratio b", Q::number, 0, 0.95, &Valve::exhaust_b,
          "Critical pressure ratio of that way (ISO 6358); 0.3 where nothing is known."},
    };
    static constexpr Fields<Valve> all{choices, figures};
    return all;
}

template <>
const Fields<FlowControls>& fields<FlowControls>() {
    using F = FigureField<FlowControls>;
    static constexpr std::array choices{choice<FlowControls, ControlPlace, &FlowControls::place>(
        "place", "Flow controls", place_keys, place_labels, "Which end of the tube they sit at.")};
    static constexpr std::array figures{
        F{"in_c_l_s_bar", "Metering in", Q::conductance, 0.0001, 10000, &FlowControls::in_c_l_s_bar,
          "Conductance C of a flow control, as set, that throttles the air going in; blank: none."},
        F{"in_b", "Metering in, ratio b", Q::number, 0, 0.95, &FlowControls::in_b,
          "Its critical pressure ratio (ISO 6358); 0.3 where nothing is known."},
        F{"out_c_l_s_bar", "Metering out", Q::conductance, 0.0001, 10000, &FlowControls::out_c_l_s_bar,
          "Conductance C of a flow control, as set, that throttles the air going out; blank: none."},
        F{"out_b", "Metering out, ratio b", Q::number, 0, 0.95, &FlowControls::out_b,
          "Its critical pressure ratio (ISO 6358); 0.3 where nothing is known."},
        F{"quick_exhaust_c_l_s_bar", "Quick exhaust", Q::conductance, 0.001, 10000,
          &FlowControls::quick_exhaust_c_l_s_bar,
          "Conductance C of a quick exhaust valve at the cylinder's port; blank: none."},
        F{"quick_exhaust_b", "Quick exhaust, ratio b", Q::number, 0, 0.95, &FlowControls::quick_exhaust_b,
          "Its critical pressure ratio (ISO 6358); 0.3 where nothing is known."},
        F{"silencer_c_l_s_bar", "Silencer", Q::conductance, 0.001, 10000, &FlowControls::silencer_c_l_s_bar,
          "Conductance C of the silencer at the valve; a clogged one has half of it or less. Blank: none."},
        F{"silencer_b", "Silencer, ratio b", Q::number, 0, 0.95, &FlowControls::silencer_b,
          "Its critical pressure ratio (ISO 6358); 0.3 where nothing is known."},
    };
    static constexpr Fields<FlowControls> all{choices, figures};
    return all;
}

template <>
const Fields<Feed>& fields<Feed>() {
    using F = FigureField<Feed>;
    static constexpr std::array figures{
        F{"length_m", "Length", Q::length, 0, 500, &Feed::length_m,
          "Of the tube from the regulator to the valve, or to the reservoir beside the prop."},
        F{"bore_mm", "Bore", Q::small_length, 0.5, 100, &Feed::bore_mm, "Inside diameter of that tube."},
        F{"reservoir_l", "Reservoir", Q::volume, 0.01, 1000, &Feed::reservoir_l,
          "Volume of a reservoir right beside the prop; blank: none."},
    };
    static constexpr Fields<Feed> all{{}, figures};
    return all;
}

template <>
const Fields<Tube>& fields<Tube>() {
    using F = FigureField<Tube>;
    static constexpr std::array figures{
        F{"length_m", "Length", Q::length, 0, 100, &Tube::length_m, "From the valve to the cylinder's port."},
        F{"bore_mm", "Bore", Q::small_length, 0.5, 50, &Tube::bore_mm, "Inside diameter of the tube."},
    };
    static constexpr Fields<Tube> all{{}, figures};
    return all;
}

template <>
const Fields<Load>& fields<Load>() {
    using F = FigureField<Load>;
    static constexpr std::array figures{
        F{"mass_kg", "Moving mass", Q::mass, 0, 2000, &Load::mass_kg,
          "All that moves with the rod; weigh it."},
        F{"angle_deg", "Way out rises by", Q::angle, -90, 90, &Load::angle_deg,
          "Slope of the way out: 90 straight up, 0 level, -90 straight down."},
        F{"ratio", "Figure travel per rod travel", Q::number, 0.05, 50, &Load::ratio,
          "1 where the figure sits on the rod; 3 where a lever trebles its travel."},
        F{"friction_percent", "Friction", Q::percent, 0, 90, &Load::friction_percent,
          "Share of the piston's force lost to friction; 10 where nothing is known."},
        F{"counter_n", "Spring or counterweight", Q::force, -20000, 20000, &Load::counter_n,
          "Force at the rod, rod in, of a spring or counterweight: above 0 it pulls back, below 0 it helps "
          "out."},
        F{"counter_rate_n_mm", "Its rate", Q::stiffness, -1000, 1000, &Load::counter_rate_n_mm,
          "What that pull back gains for each step of travel; blank counts as none."},
    };
    static constexpr Fields<Load> all{{}, figures};
    return all;
}

template <>
const Fields<Linkage>& fields<Linkage>() {
    using F = FigureField<Linkage>;
    static constexpr std::array choices{
        choice<Linkage, LinkageKind, &Linkage::kind>("kind", "Linkage", linkage_keys, linkage_labels,
                                                     "What stands between rod and figure."),
        choice<Linkage, ArmTurn, &Linkage::turn>("turn", "Arm", turn_keys, turn_labels,
                                                 "Which way the arm turns as the rod goes out."),
    };
    static constexpr std::array figures{
        F{"foot_mm", "Pivot to foot", Q::small_length, 1, 20000, &Linkage::foot_mm,
          "From the arm's pivot to the pin that holds the cylinder's foot."},
        F{"pin_mm", "Pivot to rod pin", Q::small_length, 1, 20000, &Linkage::pin_mm,
          "From the arm's pivot to the pin where the rod pushes the arm."},
        F{"closed_mm", "Foot to rod pin, rod in", Q::small_length, 1, 20000, &Linkage::closed_mm,
          "Length of the cylinder, pin to pin, with the rod fully in."},
        F{"arm_mm", "Arm", Q::small_length, 1, 20000, &Linkage::arm_mm,
          "From the pivot to the figure's centre of mass; with swing arms, to the coupler."},
        F{"arm_deg", "Arm's slope, rod in", Q::angle, -360, 360, &Linkage::arm_deg,
          "Of the arm above the horizontal with the rod in: 0 level, -90 hanging."},
        F{"second_arm_mm", "Second arm", Q::small_length, 1, 20000, &Linkage::second_arm_mm,
          "Of swing arms: from the second pivot to the coupler."},
        F{"coupler_mm", "Coupler", Q::small_length, 1, 20000, &Linkage::coupler_mm,
          "Of swing arms: from one arm's end to the other's."},
        F{"ground_mm", "Pivot to pivot", Q::small_length, 1, 20000, &Linkage::ground_mm,
          "Of swing arms: from the first pivot to the second."},
        F{"ground_deg", "Slope, pivot to pivot", Q::angle, -360, 360, &Linkage::ground_deg,
          "Of the line from the first pivot to the second above the horizontal."},
        F{"mass_percent", "Mass along the coupler", Q::percent, -200, 300, &Linkage::mass_percent,
          "Where the figure's centre of mass is: 0 at the first arm, 100 at the second; 50 where blank."},
    };
    static constexpr Fields<Linkage> all{choices, figures};
    return all;
}

template <>
const Fields<Base>& fields<Base>() {
    using F = FigureField<Base>;
    static constexpr std::array figures{
        F{"depth_mm", "Footprint", Q::small_length, 10, 20000, &Base::depth_mm,
          "Of the frame on the floor, measured along the strike."},
        F{"height_mm", "Height of the strike", Q::small_length, 0, 20000, &Base::height_mm,
          "Of the line along which the figure strikes above the floor."},
        F{"mass_kg", "Mass", Q::mass, 0, 100000, &Base::mass_kg,
          "Of the frame with its ballast, without what moves."},
    };
    static constexpr Fields<Base> all{{}, figures};
    return all;
}

template <>
const Fields<Motion>& fields<Motion>() {
    using F = FigureField<Motion>;
    static constexpr std::array figures{
        F{"out_ms", "Time out", Q::time_ms, 1, 60000, &Motion::out_ms,
          "From the coil switching to the figure fully out; film it."},
        F{"back_ms", "Time back", Q::time_ms, 1, 60000, &Motion::back_ms,
          "From the coil letting go to the figure fully back."},
    };
    static constexpr Fields<Motion> all{{}, figures};
    return all;
}

template <>
const Fields<Fit>& fields<Fit>() {
    using F = FigureField<Fit>;
    static constexpr std::array figures{
        F{"friction_factor", "Friction", Q::number, 0.05, 20, &Fit::friction_factor,
          "By what timed strokes say it differs; blank: not measured."},
        F{"friction_spread_percent", "Friction, spread", Q::percent, 0, 100, &Fit::friction_spread_percent,
          "How far off the friction may be, either way."},
        F{"conductance_factor", "Conductances", Q::number, 0.05, 20, &Fit::conductance_factor,
          "By what timed strokes say they differ; blank: not measured."},
        F{"conductance_spread_percent", "Conductances, spread", Q::percent, 0, 100,
          &Fit::conductance_spread_percent, "How far off the conductances may be, either way."},
        F{"delay_factor", "Valve delays", Q::number, 0.05, 20, &Fit::delay_factor,
          "By what timed strokes say they differ; blank: not measured."},
        F{"delay_spread_percent", "Valve delays, spread", Q::percent, 0, 100, &Fit::delay_spread_percent,
          "How far off the valve's delays may be, either way."},
        F{"heat_spread_percent", "Heat transfer, spread", Q::percent, 0, 100, &Fit::heat_spread_percent,
          "How far off the heat transfer of the cylinder's wall may be."},
        F{"load_spread_percent", "Load, spread", Q::percent, 0, 100, &Fit::load_spread_percent,
          "How far off the moving mass may be; 0 where it was weighed."},
    };
    static constexpr Fields<Fit> all{{}, figures};
    return all;
}

}  // namespace gasp
