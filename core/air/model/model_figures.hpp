// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/show/fields.hpp"
#include "core/show/limits.hpp"

#include <fmt/format.h>

#include <numbers>

// How figures of the rig get into the model. Nobody outside this folder includes this.

namespace gasp {

[[nodiscard]] inline double area_of_circle(double diameter) {
    return std::numbers::pi / 4.0 * diameter * diameter;
}

/// Reads figures into SI, of the plant or of one actuator, and notes which are blank.
class ModelFigures {
  public:
    ModelFigures(AirModel& model, const Actuator* actuator) : model_(model), actuator_(actuator) {}

    /// A figure without which nothing can be simulated.
    double need(Quantity quantity, const Figure& figure, std::string_view key, std::string_view label) {
        if (!figure) {
            model_.missing.push_back(blank_field(actuator_, key, label));
            whole_ = false;
        }
        return si(quantity, figure.value_or(0.0));
    }

    /// `otherwise` is in SI.
    double or_else(Quantity quantity, const Figure& figure, double otherwise, std::string taken,
                   std::string_view key, std::string_view label) {
        if (!figure) {
            model_.assumptions.push_back({blank_field(actuator_, key, label), std::move(taken)});
        }
        return figure ? si(quantity, *figure) : otherwise;
    }

    /// A conductance with its ratio; `c` is given.
    Conductance path(double c, const Figure& b, std::string_view key, std::string_view label) {
        return {si(Quantity::conductance, c),
                or_else(Quantity::number, b, taken_where_blank::critical_ratio,
                        fmt::format("{}", taken_where_blank::critical_ratio), key, label)};
    }

    void refuse(Error error) {
        model_.impossible.push_back(std::move(error));
        whole_ = false;
    }

    /// Every figure of a part within the range of its field.
    template <class T>
    void check(const T& part, std::string_view prefix) {
        for (const FigureField<T>& each : fields<T>().figures) {
            if (!figure_allowed(each, part)) {
                const auto print = [&](double value) {
                    return print_quantity(each.quantity, value, UnitSystem::metric);
                };
                refuse({fmt::format("{} is {}, outside {} to {}", name(each.label),
                                    print(*(part.*each.member)), print(each.least), print(each.most)),
                        fmt::format("{}.{}", prefix, each.key), "Correct it, or leave it out"});
            }
        }
    }

    [[nodiscard]] bool whole() const { return whole_; }

  private:
    [[nodiscard]] std::string name(std::string_view label) const {
        return blank_field(actuator_, {}, label).label;
    }

    AirModel& model_;
    const Actuator* actuator_;
    bool whole_ = true;
};

/// Receiver, compressor, leak and regulator. False where the rest cannot be simulated without what lacks.
[[nodiscard]] bool set_plant(AirModel& model, const AirPlant& rig);

/// Adds the actuator to the model if it can be simulated. Requires: the plant is set.
void add_actuator(AirModel& model, const AirPlant& plant, const Actuator& actuator);

}  // namespace gasp
