// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/sizing/sizing_plant.hpp"

#include "core/air/model/air_model.hpp"
#include "core/air/sizing/handbook.hpp"
#include "core/air/sizing/standard_sizes.hpp"
#include "core/units/rounded.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

using Q = Quantity;
namespace rules = sizing_rules;

constexpr double free_air_kpa = 100.0;        // ISO 8778
constexpr double least_delivery_l_min = 1.0;  // no compressor has less
constexpr int most_strokes = 60;              // simulated on end

/// To two significant digits of the shown unit.
double two_digits_up(Q quantity, double value, UnitSystem units) {
    const Unit& unit = shown_unit(quantity, units);
    const double shown = value / unit.scale;
    const double step = std::pow(10.0, std::floor(std::log10(shown)) - 1.0);
    return std::ceil(shown / step - 1e-9) * step * unit.scale;
}

class PlantChooser {
  public:
    PlantChooser(const SizingTask& task, UnitSystem units, const SizedStroke& stroke)
        : task_(task), units_(units), stroke_(stroke) {}

    Result<PlantChoice> choose() {
        set_compressor();
        TrialPlan plan = stroke_.plan;
        plan.times = static_cast<int>(
            std::min(rules::scares_on_end * task_.strokes_per_scare.value_or(1.0), 1.0 * most_strokes));
        for (const ReceiverSize& size : standard_receivers(units_)) {
            if (size.volume_l < std::max(for_draw_l_, for_starts_l_)) {
                continue;
            }
            choice_.plant.receiver_l = size.volume_l;
            const Result<Trial> trial = try_strokes(choice_.plant, stroke_.actuator, plan);
            if (!trial) {
                return tl::unexpected(trial.error());
            }
            if (trial->lowest_receiver_kpa_gauge >= *task_.working_kpa_gauge) {
                choice_.lowest_receiver_kpa_gauge = trial->lowest_receiver_kpa_gauge;
                tell(size);
                return std::move(choice_);
            }
        }
        return nothing_holds();
    }

  private:
    [[nodiscard]] std::string say(Q quantity, double value) const {
        return print_rounded(quantity, value, units_, 3);
    }

    [[nodiscard]] Result<PlantChoice> nothing_holds() const {
        if (for_starts_l_ > for_draw_l_) {
            return fail(fmt::format("keeping the compressor to {:.0f} starts an hour takes a receiver of {}",
                                    rules::starts_per_h, say(Q::volume, for_starts_l_)),
                        "scares_per_h",
                        "Take fewer scares an hour, or a compressor that idles instead of stopping");
        }
        return fail(fmt::format("a scare takes {} of free air, and no usual receiver holds {} of them",
                                say(Q::free_air, a_scare_l_), rules::scares_on_end),
                    "strokes_per_scare", "Take fewer or shorter strokes, or a lower pressure");
    }

    void set_compressor() {
        AirPlant& plant = choice_.plant;
        plant = stroke_.plant;
        a_scare_l_ = stroke_.cycle_l * task_.strokes_per_scare.value_or(1.0);
        const double ambient = ambient_kpa(plant);
        // ISO 1217: a compressor's delivery counts at the air around.
        draw_l_min_ =
            a_scare_l_ * *task_.scares_per_h / 60.0 * (1.0 + rules::leak_share) * free_air_kpa / ambient;
        plant.duty_percent = task_.duty_percent.value_or(50.0);
        plant.delivery_l_min = two_digits_up(
            Q::free_air_flow,
            std::max(draw_l_min_ / si(Q::percent, *plant.duty_percent), least_delivery_l_min), units_);
        plant.cut_in_kpa_gauge = *task_.working_kpa_gauge + rules::switch_above_kpa;
        plant.cut_out_kpa_gauge = *plant.cut_in_kpa_gauge + rules::switch_width_kpa;
        for_draw_l_ =
            receiver_for_draw_l(rules::scares_on_end * a_scare_l_, rules::switch_above_kpa, free_air_kpa);
        for_starts_l_ = receiver_for_starts_l(draw_l_min_, *plant.delivery_l_min, rules::starts_per_h,
                                              rules::switch_width_kpa, ambient);
    }

    void tell(const ReceiverSize& size) {
        const double needed = std::max(for_draw_l_, for_starts_l_);
        const AirPlant& plant = choice_.plant;
        choice_.figures.push_back(
            {"air_plant.receiver_l", "Receiver", Q::volume, needed, size.volume_l, std::string(size.name),
             size.volume_l / needed - 1.0,
             for_draw_l_ >= for_starts_l_
                 ? fmt::format(
                       "{} scares on end, {} of free air each, from cut-in at {} without falling below the "
                       "regulator",
                       rules::scares_on_end, say(Q::free_air, a_scare_l_),
                       say(Q::gauge_pressure, *plant.cut_in_kpa_gauge))
                 : fmt::format("keeps the compressor to {:.0f} starts an hour", rules::starts_per_h)});
        choice_.figures.push_back(
            {"air_plant.delivery_l_min", "Compressor, free air delivered", Q::free_air_flow, draw_l_min_,
             *plant.delivery_l_min, "", *plant.delivery_l_min / draw_l_min_ - 1.0,
             fmt::format(
                 "for this figure alone: {:.4g} scares an hour and {:.0f} % for leaks, running at most "
                 "{:.0f} % of the time; go by its delivery at {}, not by its displacement",
                 *task_.scares_per_h, rules::leak_share * 100.0, *plant.duty_percent,
                 say(Q::gauge_pressure, *plant.cut_out_kpa_gauge))});
    }

    const SizingTask& task_;
    UnitSystem units_;
    const SizedStroke& stroke_;
    PlantChoice choice_;
    double a_scare_l_ = 0.0;
    double draw_l_min_ = 0.0;
    double for_draw_l_ = 0.0;
    double for_starts_l_ = 0.0;
};

}  // namespace

Result<PlantChoice> choose_plant(const SizingTask& task, UnitSystem units, const SizedStroke& stroke) {
    return PlantChooser(task, units, stroke).choose();
}

}  // namespace gasp
