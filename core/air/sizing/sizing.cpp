// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/sizing/sizing.hpp"

#include "core/air/model/flow.hpp"
#include "core/air/model/linkage.hpp"
#include "core/air/sizing/handbook.hpp"
#include "core/air/sizing/sizing_plant.hpp"
#include "core/air/sizing/sizing_trial.hpp"
#include "core/air/sizing/standard_sizes.hpp"
#include "core/units/rounded.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

using Q = Quantity;
namespace rules = sizing_rules;

constexpr double l_s_bar = 1e8;  // in one m3/(s Pa)
constexpr double widest_c = 100.0;
constexpr double least_c = 1e-3;
constexpr double in_hand = 0.95;   // of the wanted time, with the air as free as it can be
constexpr double aimed_at = 0.97;  // of the wanted time, where a flow control sets it
constexpr double worth_throttling = 0.9;
constexpr int halvings = 14;

/// Weight of the figure along the rod, N, at its largest and its least over the stroke: above 0 it pulls
/// back.
struct Weight {
    double most = 0.0;
    double least = 0.0;
};

Weight weight_of(const Mechanism& mechanism, double mass, double stroke) {
    constexpr int travels = 100;
    Weight weight{-1e300, 1e300};
    for (int i = 0; i <= travels; ++i) {
        const double force = mass * standard_gravity * mechanism.at(stroke * i / travels).height_slope;
        weight = {std::max(weight.most, force), std::min(weight.least, force)};
    }
    return weight;
}

class Sizer {
  public:
    Sizer(const SizingTask& task, UnitSystem units, std::function<bool()> stopped)
        : task_(task), units_(units), stopped_(std::move(stopped)) {}

    Result<Sizing> size() {
        if (const Result<void> prepared = prepare(); !prepared) {
            return tl::unexpected(prepared.error());
        }
        for (const BoreSize& bore : standard_bores(units_)) {
            const Result<bool> taken = take(bore);
            if (!taken) {
                return tl::unexpected(taken.error());
            }
            if (*taken) {
                return finish(bore);
            }
        }
        return nothing_fits();
    }

  private:
    [[nodiscard]] std::string say(Q quantity, double value) const {
        return print_rounded(quantity, value, units_, 3);
    }

    Result<void> prepare() {
        const bool direct = task_.linkage.kind == LinkageKind::direct;
        actuator_.id = ActuatorId{1};
        actuator_.name = "the figure";
        actuator_.cylinder.action = task_.action;
        actuator_.cylinder.stroke_mm = direct ? *task_.lift_mm / task_.ratio.value_or(1.0) : *task_.stroke_mm;
        actuator_.valve.kind = task_.action == CylinderAction::double_acting ? ValveKind::five_two_one_coil
                                                                             : ValveKind::three_two;
        actuator_.valve.opening_delay_ms = task_.valve_delay_ms.value_or(25.0);
        actuator_.valve.closing_delay_ms = actuator_.valve.opening_delay_ms;
        actuator_.valve.supply_b = 0.3;
        actuator_.valve.exhaust_b = 0.3;
        actuator_.tube.length_m = task_.tube_m.value_or(2.0);
        actuator_.load = {task_.mass_kg,
                          task_.angle_deg.value_or(90.0),
                          task_.ratio.value_or(1.0),
                          task_.friction_percent.value_or(10.0),
                          {},
                          {},
                          {}};
        actuator_.linkage = task_.linkage;
        plant_.regulator_kpa_gauge = task_.working_kpa_gauge;
        plant_.altitude_m = task_.altitude_m.value_or(0.0);
        plant_.temperature_c = 20.0;
        const double stroke = si(Q::small_length, *actuator_.cylinder.stroke_mm);
        const Result<Mechanism> mechanism = Mechanism::make(actuator_, stroke);
        if (!mechanism) {
            return tl::unexpected(mechanism.error());
        }
        weight_ = weight_of(*mechanism, *task_.mass_kg, stroke);
        const double wanted = std::max(*task_.out_ms, task_.back_ms.value_or(0.0)) / 1000.0;
        plan_ = {wanted * 2.0 + 1.0, wanted * 2.0 + 4.0, 1};
        return {};
    }

    [[nodiscard]] double wanted_s() const { return *task_.out_ms / 1000.0; }

    Result<Trial> attempt() {
        plan_.stopped = stopped_;
        return try_strokes(plant_, actuator_, plan_);
    }

    /// Time out with this valve; the far future where it does not get there, or does not come back.
    Result<double> time_with(double valve_c) {
        actuator_.valve.supply_c_l_s_bar = valve_c;
        actuator_.valve.exhaust_c_l_s_bar = valve_c;
        const Result<Trial> trial = attempt();
        if (!trial) {
            return tl::unexpected(trial.error());
        }
        return trial->out_s && trial->back_s ? *trial->out_s : 1e9;
    }

    void set_tube(const TubeSize& tube) {
        actuator_.tube.bore_mm = tube.bore_mm;
        tube_ = &tube;
    }

    /// Whether the force, the return and the time with the air as free as can be allow this bore.
    Result<bool> strong_enough(const BoreSize& bore) {
        const double force = piston_force_n(bore.bore_mm, 0.0, *task_.working_kpa_gauge);
        const double friction = force * si(Q::percent, *actuator_.load.friction_percent);
        double load = std::max(weight_.most, 0.0);
        actuator_.cylinder.bore_mm = bore.bore_mm;
        actuator_.cylinder.rod_mm = bore.rod_mm;
        ports_ = &standard_ports(units_)[bore.port];
        if (task_.action == CylinderAction::single_spring_return) {
            actuator_.cylinder.spring_n =
                std::max(rules::return_over_friction * friction - weight_.least, 0.05 * force);
            load += *actuator_.cylinder.spring_n;
        }
        if (task_.action == CylinderAction::single_gravity_return &&
            weight_.least < rules::return_over_friction * friction) {
            returns_ = false;
            return false;
        }
        const double pull = piston_force_n(bore.bore_mm, bore.rod_mm, *task_.working_kpa_gauge);
        const bool lifts = load <= rules::most_load_share * force;
        const bool pulls =
            task_.action != CylinderAction::double_acting || -weight_.least <= rules::most_load_share * pull;
        if (!lifts || !pulls) {
            return false;
        }
        returns_ = true;
        lifts_ = true;
        load_n_ = load;
        least_bore_mm_ = bore_for_force_mm(load / rules::most_load_share, *task_.working_kpa_gauge);
        set_tube(standard_tubes(units_).back());
        const Result<double> time = time_with(widest_c);
        if (!time) {
            return tl::unexpected(time.error());
        }
        if (*time < fastest_s_) {
            fastest_s_ = *time;
            fastest_ = &bore;
        }
        smaller_too_slow_ = smaller_too_slow_ || *time > in_hand * wanted_s();
        return *time <= in_hand * wanted_s();
    }

    /// The least conductance of the valve that makes the time with the tube that is set; 0 where none does.
    Result<double> least_valve() {
        const double most = ports_->c_l_s_bar / (1.0 + rules::valve_margin);
        double high = std::log(most);
        double low = std::log(least_c);
        const Result<double> best = time_with(most);
        if (!best || *best > wanted_s()) {
            return best ? Result<double>(0.0) : best;
        }
        for (int i = 0; i < halvings; ++i) {
            const double middle = 0.5 * (low + high);
            const Result<double> time = time_with(std::exp(middle));
            if (!time) {
                return tl::unexpected(time.error());
            }
            (*time <= wanted_s() ? high : low) = middle;
        }
        return std::exp(high);
    }

    Result<bool> take(const BoreSize& bore) {
        Result<bool> strong = strong_enough(bore);
        if (!strong || !*strong) {
            return strong;
        }
        for (const TubeSize& tube : standard_tubes(units_)) {
            set_tube(tube);
            const Result<double> least = least_valve();
            if (!least) {
                return tl::unexpected(least.error());
            }
            tube_c_ = of_tube(*actuator_.tube.length_m, si(Q::small_length, tube.bore_mm)).c * l_s_bar;
            if (*least > 0.0 && tube_c_ >= rules::tube_over_valve * *least) {
                valve_c_ = *least;
                port_ = &*std::ranges::find_if(standard_ports(units_), [&](const PortSize& port) {
                    return port.c_l_s_bar >= (1.0 + rules::valve_margin) * valve_c_ * (1.0 - 1e-9);
                });
                return true;
            }
        }
        smaller_too_slow_ = true;
        return false;
    }

    /// Throttles the way out to the wanted time where the valve open wide is much faster. The conductance
    /// set; 0 where none is needed.
    Result<double> throttle() {
        Figure& control = task_.action == CylinderAction::double_acting
                              ? actuator_.flow_controls.out_c_l_s_bar
                              : actuator_.flow_controls.in_c_l_s_bar;
        (task_.action == CylinderAction::double_acting ? actuator_.flow_controls.out_b
                                                       : actuator_.flow_controls.in_b) = 0.3;
        double high = std::log(port_->c_l_s_bar);
        double low = std::log(least_c);
        for (int i = 0; i < halvings; ++i) {
            const double middle = 0.5 * (low + high);
            control = std::exp(middle);
            const Result<Trial> trial = attempt();
            if (!trial) {
                return tl::unexpected(trial.error());
            }
            const bool in_time = trial->out_s && *trial->out_s <= aimed_at * wanted_s();
            (in_time ? high : low) = middle;
        }
        control = std::exp(high);
        return *control;
    }

    void add(std::string key, std::string label, Q quantity, double needed, double chosen, std::string size,
             double margin, std::string reason) {
        sizing_.figures.push_back({std::move(key), std::move(label), quantity, needed, chosen,
                                   std::move(size), margin, std::move(reason)});
    }

    void tell_cylinder(const BoreSize& bore) {
        const double force = piston_force_n(bore.bore_mm, 0.0, *task_.working_kpa_gauge);
        std::string reason =
            load_n_ > 0.0
                ? fmt::format("pushes with {} against {}; a load of at most {:.0f} % of the force moves fast",
                              say(Q::force, force), say(Q::force, load_n_), rules::most_load_share * 100.0)
                : fmt::format("pushes with {}; nothing to lift", say(Q::force, force));
        reason += smaller_too_slow_ ? "; a smaller bore does not make the time through its ports" : "";
        add("cylinder.bore_mm", "Bore", Q::small_length, least_bore_mm_, bore.bore_mm, std::string(bore.name),
            least_bore_mm_ > 0.0 ? std::pow(bore.bore_mm / least_bore_mm_, 2.0) - 1.0 : 0.0,
            std::move(reason));
        add("cylinder.rod_mm", "Rod", Q::small_length, bore.rod_mm, bore.rod_mm, "", 0.0,
            "the usual one of this bore; check a long stroke against buckling with its maker");
        add("cylinder.stroke_mm", "Stroke", Q::small_length, *actuator_.cylinder.stroke_mm,
            *actuator_.cylinder.stroke_mm, "", 0.0,
            task_.linkage.kind == LinkageKind::direct ? "the figure's travel over the ratio" : "as given");
        if (actuator_.cylinder.spring_n) {
            add("cylinder.spring_n", "Return spring", Q::force, *actuator_.cylinder.spring_n,
                *actuator_.cylinder.spring_n, "", 0.0,
                fmt::format("{} times the friction, with what the weight gives",
                            rules::return_over_friction));
        }
    }

    void tell_paths(double open_ms, double open_speed, double throttled) {
        add("valve.supply_c_l_s_bar", "Valve, each way", Q::conductance, valve_c_, port_->c_l_s_bar,
            fmt::format("{}, Cv {:.2g}", port_->name,
                        port_->c_l_s_bar / shown_unit(Q::conductance, UnitSystem::us).scale),
            port_->c_l_s_bar / valve_c_ - 1.0,
            fmt::format("the least one makes {:.0f} ms; this one, open wide, {:.0f} ms; the cylinder's own "
                        "ports are {}",
                        *task_.out_ms, open_ms, ports_->name));
        const double needed_c = rules::tube_over_valve * valve_c_;
        add("tube.bore_mm", "Tube, inside", Q::small_length, bore_of_tube(needed_c), tube_->bore_mm,
            std::string(tube_->name), tube_c_ / needed_c - 1.0,
            fmt::format("over {} it lets through {}, {:.1f} times what the valve must",
                        say(Q::length, *actuator_.tube.length_m), say(Q::conductance, tube_c_),
                        tube_c_ / valve_c_));
        if (throttled > 0.0) {
            const bool out = task_.action == CylinderAction::double_acting;
            add(out ? "flow_controls.out_c_l_s_bar" : "flow_controls.in_c_l_s_bar",
                out ? "Flow control, metering out" : "Flow control, metering in", Q::conductance, throttled,
                throttled, "", 0.0,
                fmt::format(
                    "so set, the way out takes the wanted time; without it the rod meets its stop at {}",
                    say(Q::speed, open_speed)));
        }
    }

    /// The bore, mm, of a tube of the length that lets so much through.
    [[nodiscard]] double bore_of_tube(double c) const {
        double low = 0.1;
        double high = 100.0;
        for (int i = 0; i < 50; ++i) {
            const double middle = 0.5 * (low + high);
            (of_tube(*actuator_.tube.length_m, si(Q::small_length, middle)).c * l_s_bar < c ? low : high) =
                middle;
        }
        return high;
    }

    void take_trial(const Trial& trial) {
        sizing_.out_ms = trial.out_s.value_or(0.0) * 1000.0;
        sizing_.back_ms = trial.back_s.value_or(0.0) * 1000.0;
        sizing_.end_speed_m_s = trial.end_speed_m_s;
        sizing_.end_energy_j = trial.end_energy_j;
        sizing_.cycle_l = trial.cycle_l;
    }

    Result<Sizing> finish(const BoreSize& bore) {
        actuator_.valve.supply_c_l_s_bar = port_->c_l_s_bar;
        actuator_.valve.exhaust_c_l_s_bar = port_->c_l_s_bar;
        const Result<Trial> open = attempt();
        if (!open || !open->out_s) {
            return open ? nothing_fits() : tl::unexpected(open.error());
        }
        double throttled = 0.0;
        Result<Trial> as_set = open;
        if (*open->out_s < worth_throttling * wanted_s()) {
            const Result<double> control = throttle();
            if (!control) {
                return tl::unexpected(control.error());
            }
            throttled = *control;
            as_set = attempt();
        }
        if (!as_set) {
            return tl::unexpected(as_set.error());
        }
        take_trial(*as_set);
        tell_cylinder(bore);
        tell_paths(*open->out_s * 1000.0, open->end_speed_m_s, throttled);
        Result<PlantChoice> choice = choose_plant(task_, units_, {plant_, actuator_, plan_, sizing_.cycle_l});
        if (!choice) {
            return tl::unexpected(choice.error());
        }
        sizing_.figures.insert(sizing_.figures.end(), choice->figures.begin(), choice->figures.end());
        sizing_.lowest_receiver_kpa_gauge = choice->lowest_receiver_kpa_gauge;
        sizing_.plant = choice->plant;
        add_notes(throttled > 0.0);
        sizing_.actuator = actuator_;
        return std::move(sizing_);
    }

    void add_notes(bool throttled) {
        constexpr double gentle_m_s = 0.5;
        constexpr double usual_m_s =
            1.0;  // what standard cylinders are made for: makers' guides, from memory
        if (sizing_.end_speed_m_s > gentle_m_s) {
            sizing_.notes.push_back(fmt::format(
                "The rod meets its stop at {} with {}: the cylinder's sheet must allow that, or a cushion or "
                "damper take it",
                say(Q::speed, sizing_.end_speed_m_s), say(Q::energy, sizing_.end_energy_j)));
        }
        if (sizing_.end_speed_m_s > 1.5 * usual_m_s) {
            sizing_.notes.push_back(
                fmt::format("Standard cylinders are made for about {}: a linkage that multiplies the rod's "
                            "travel about {:.0f} "
                            "times more brings it there",
                            say(Q::speed, usual_m_s), std::ceil(sizing_.end_speed_m_s / usual_m_s)));
        }
        if (task_.back_ms && sizing_.back_ms > *task_.back_ms) {
            sizing_.notes.push_back(fmt::format(
                "It comes back in {:.0f} ms, later than the {:.0f} ms wanted: a quick exhaust valve at the "
                "cylinder is the usual remedy",
                sizing_.back_ms, *task_.back_ms));
        }
        if (throttled && task_.action == CylinderAction::double_acting) {
            sizing_.notes.emplace_back(
                "The first stroke after air-on is not braked by metering out: nobody stands in its way then");
        }
        sizing_.notes.emplace_back(
            "These figures are for choosing parts. Strength, mounting, guarding and stopping are for someone "
            "qualified, pressure vessels for the local code");
    }

    [[nodiscard]] Result<Sizing> nothing_fits() const {
        if (!returns_) {
            return fail("the weight does not bring it back against the friction", "action",
                        "Let a spring or air bring it back, or make the way steeper");
        }
        if (!lifts_) {
            return fail(fmt::format("no standard bore up to {} has twice the force of the load",
                                    standard_bores(units_).back().name),
                        "working_kpa_gauge", "Raise the pressure, or lower mass or ratio");
        }
        const std::string nearest =
            fastest_ != nullptr && fastest_s_ < 1e8
                ? fmt::format("; the fastest, a bore of {}, takes {:.0f} ms with the air as free as can be{}",
                              fastest_->name, fastest_s_ * 1000.0,
                              fastest_s_ <= wanted_s() ? ", which leaves nothing in hand" : "")
                : std::string();
        return fail(fmt::format("no standard sizes make {:.0f} ms{}", *task_.out_ms, nearest), "out_ms",
                    "Allow more time, shorten the travel or the tube, or raise the pressure");
    }

    const SizingTask& task_;
    UnitSystem units_;
    std::function<bool()> stopped_;
    Actuator actuator_;
    AirPlant plant_;
    TrialPlan plan_;
    Sizing sizing_;
    Weight weight_;
    double load_n_ = 0.0;
    double least_bore_mm_ = 0.0;
    double valve_c_ = 0.0;
    double tube_c_ = 0.0;
    const TubeSize* tube_ = nullptr;
    const PortSize* ports_ = nullptr;  ///< of the cylinder: a wider valve would not help it
    const PortSize* port_ = nullptr;   ///< of the valve
    const BoreSize* fastest_ = nullptr;
    double fastest_s_ = 1e9;
    bool returns_ = true;
    bool lifts_ = false;
    bool smaller_too_slow_ = false;
};

}  // namespace

Result<Sizing> size_rig(const SizingTask& task, UnitSystem sizes, const std::function<bool()>& stopped) {
    if (const Result<void> checked = check_task(task, sizes); !checked) {
        return tl::unexpected(checked.error());
    }
    return Sizer(task, sizes, stopped).size();
}

}  // namespace gasp
