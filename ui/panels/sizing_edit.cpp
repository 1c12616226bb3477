// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/sizing_edit.hpp"

#include "core/show/edits.hpp"
#include "core/show/fields.hpp"

#include <utility>

namespace gasp {
namespace {

Edit put_actuator(const Show& show, const Actuator& sized, std::optional<ActuatorId> id) {
    Actuator actuator = sized;
    const Actuator* before = id ? find(show, *id) : nullptr;
    if (before == nullptr) {
        Edit edit = add_actuator(show, std::move(actuator));
        edit.sentence = "put sized parts into the rig";
        return edit;
    }
    actuator.id = before->id;
    actuator.name = before->name;
    actuator.base = before->base;
    actuator.extra = before->extra;
    Edit edit = set_actuator(show, actuator);
    edit.sentence = "put sized parts into " + before->name;
    return edit;
}

AirPlant plant_with(const AirPlant& before, const AirPlant& sized) {
    AirPlant plant = before;
    for (const auto& field : fields<AirPlant>().figures) {
        if (sized.*field.member) {
            plant.*field.member = sized.*field.member;
        }
    }
    return plant;
}

}  // namespace

Edit put_into_rig(const Show& show, const Sizing& sizing, std::optional<ActuatorId> actuator, bool plant) {
    Edit parts = put_actuator(show, sizing.actuator, actuator);
    if (!plant) {
        return parts;
    }
    Show with_parts = show;
    apply(parts, with_parts);
    const Edit air = set_air_plant(with_parts, plant_with(show.rig.air_plant, sizing.plant));
    return joined(parts, air);
}

}  // namespace gasp
