// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/budget/budget.hpp"

#include "core/air/model/stroke_air.hpp"

#include <algorithm>
#include <unordered_map>

namespace gasp {
namespace {

/// An actuator over the run: what its strokes take, and where it was last sent.
struct Stroker {
    StrokeAir air;
    std::optional<Coil> sent;
};

using Strokers = std::unordered_map<ActuatorId, Stroker>;

void add_new(std::vector<BlankField>& all, std::vector<BlankField> some) {
    for (BlankField& blank : some) {
        if (std::find(all.begin(), all.end(), blank) == all.end()) {
            all.push_back(std::move(blank));
        }
    }
}

void add_blanks_of_receiver(const AirPlant& plant, std::vector<BlankField>& blanks) {
    const auto need = [&](const Figure& figure, const char* key, const char* label) {
        if (!figure) {
            blanks.push_back({key, label, std::nullopt});
        }
    };
    need(plant.receiver_l, "air_plant.receiver_l", "receiver of the air plant");
    need(plant.cut_in_kpa_gauge, "air_plant.cut_in_kpa_gauge", "cut-in of the air plant");
    need(plant.cut_out_kpa_gauge, "air_plant.cut_out_kpa_gauge", "cut-out of the air plant");
    need(plant.delivery_l_min, "air_plant.delivery_l_min", "free-air delivery of the air plant");
}

/// The actuators sent anywhere, with the air of those that are known; blank fields go to `blanks`.
Strokers strokers_of(const Show& show, std::span<const StrokeCommand> commands,
                     std::vector<BlankField>& blanks) {
    Strokers strokers;
    for (const StrokeCommand& command : commands) {
        if (strokers.contains(command.actuator)) {
            continue;
        }
        Stroker& stroker = strokers[command.actuator];
        const Actuator* actuator = find(show, command.actuator);
        if (actuator == nullptr) {
            continue;
        }
        if (actuator->valve.kind == ValveKind::five_two_two_coils) {
            stroker.sent = Coil::back;  // where it is left by the run before
        }
        add_new(blanks, blanks_of_stroke_air(show.rig.air_plant, *actuator));
        stroker.air = stroke_air(show.rig.air_plant, *actuator).value_or(StrokeAir{});
    }
    return strokers;
}

/// The commands that move something, with their air.
std::vector<BudgetStroke> strokes_of(std::span<const StrokeCommand> commands, Strokers& strokers,
                                     Micros length) {
    std::vector<BudgetStroke> strokes;
    for (const StrokeCommand& command : commands) {
        Stroker& stroker = strokers.at(command.actuator);
        if (command.time > length || stroker.sent == command.way) {
            continue;
        }
        stroker.sent = command.way;
        const double air = command.way == Coil::out ? stroker.air.out_l : stroker.air.back_l;
        strokes.push_back({command, air, 0.0});
    }
    return strokes;
}

/// The receiver under its pressure switch. Isothermal: what goes in or out changes the pressure by its volume
/// at that of the air around, over the receiver's; one temperature everywhere cancels.
class Receiver {
  public:
    Receiver(const AirPlant& plant, AirBudget& budget)
        : volume_(*plant.receiver_l),
          cut_in_(*plant.cut_in_kpa_gauge),
          cut_out_(*plant.cut_out_kpa_gauge),
          // ISO 1217: delivery is the volume taken in, at the pressure of the air around.
          rise_per_us_(*plant.delivery_l_min * ambient_kpa(plant) / *plant.receiver_l / 60e6),
          pressure_(cut_in_),
          budget_(budget) {
        budget_.lowest_kpa_gauge = pressure_;
        point();
    }

    void run_to(Micros time) {
        if (running_) {
            const double rest = static_cast<double>((time - now_).count());
            const double needed = std::max(cut_out_ - pressure_, 0.0) / rise_per_us_;
            if (needed <= rest) {
                advance(Micros{static_cast<Micros::rep>(needed)});
                pressure_ = std::max(pressure_, cut_out_);
                running_ = false;
                point();
            } else {
                advance(time - now_);
            }
        }
        now_ = time;
    }

    double take(double free_air_l) {
        point();
        constexpr double reference_kpa = 100.0;  // ISO 8778
        pressure_ = std::max(pressure_ - free_air_l * reference_kpa / volume_, 0.0);
        running_ = running_ || pressure_ <= cut_in_;
        if (pressure_ < budget_.lowest_kpa_gauge) {
            budget_.lowest_kpa_gauge = pressure_;
            budget_.lowest_at = now_;
        }
        point();
        return pressure_;
    }

    void finish() { point(); }
    [[nodiscard]] double pressure() const { return pressure_; }

  private:
    void advance(Micros by) {
        pressure_ += rise_per_us_ * static_cast<double>(by.count());
        budget_.compressor_on_s += to_s(by);
        now_ += by;
    }

    void point() {
        const PressurePoint here{now_, pressure_};
        if (budget_.curve.empty() || budget_.curve.back() != here) {
            budget_.curve.push_back(here);
        }
    }

    double volume_;
    double cut_in_;
    double cut_out_;
    double rise_per_us_;
    double pressure_;
    bool running_ = true;
    Micros now_{0};
    AirBudget& budget_;
};

}  // namespace

AirBudget budget(const Show& show, std::span<const StrokeCommand> commands, Micros length) {
    AirBudget budget;
    add_blanks_of_receiver(show.rig.air_plant, budget.missing);
    Strokers strokers = strokers_of(show, commands, budget.missing);
    budget.strokes = strokes_of(commands, strokers, length);
    for (const BudgetStroke& stroke : budget.strokes) {
        budget.free_air_l += stroke.free_air_l;
    }
    if (!budget.missing.empty()) {
        return budget;
    }
    Receiver receiver(show.rig.air_plant, budget);
    for (BudgetStroke& stroke : budget.strokes) {
        receiver.run_to(stroke.command.time);
        stroke.receiver_kpa_gauge =
            stroke.free_air_l > 0.0 ? receiver.take(stroke.free_air_l) : receiver.pressure();
    }
    receiver.run_to(length);
    receiver.finish();
    return budget;
}

}  // namespace gasp
