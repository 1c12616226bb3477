// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/blank_field.hpp"

#include <fmt/format.h>

namespace gasp {

BlankField blank_field(const Actuator* actuator, std::string_view key, std::string_view label) {
    return actuator != nullptr
               ? BlankField{std::string(key), fmt::format("{} of \"{}\"", label, actuator->name),
                            actuator->id}
               : BlankField{std::string(key), fmt::format("{} of the air plant", label), std::nullopt};
}

Error blank_error(const BlankField& blank) {
    return {"no " + blank.label, blank.key, "Fill in the " + blank.label};
}

std::vector<BlankField> blanks_of_receiver(const AirPlant& plant) {
    BlankFields blanks(nullptr);
    blanks.need(plant.receiver_l, "air_plant.receiver_l", "receiver");
    blanks.need(plant.cut_in_kpa_gauge, "air_plant.cut_in_kpa_gauge", "cut-in");
    blanks.need(plant.cut_out_kpa_gauge, "air_plant.cut_out_kpa_gauge", "cut-out");
    blanks.need(plant.delivery_l_min, "air_plant.delivery_l_min", "free-air delivery");
    return blanks.take();
}

}  // namespace gasp
