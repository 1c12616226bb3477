// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/night_plan.hpp"
#include "core/show/rig.hpp"
#include "core/units/quantity.hpp"

#include <span>
#include <string_view>

namespace gasp {

// One description of the rig's fields, read by the show file, its schema's test, the range check and the rig
// panel.

/// A figure of T. `key` is its name in the file, `label` on the screen; values outside [least, most] are
/// refused.
template <class T>
struct FigureField {
    std::string_view key;
    std::string_view label;
    Quantity quantity;
    double least;
    double most;
    Figure T::*member;
    std::string_view help;  ///< one sentence: what to enter, or how to measure it
};

/// One of a few words. `keys` are their names in the file, in the order of the enumerators; the labels
/// likewise.
template <class T>
struct ChoiceField {
    std::string_view key;
    std::string_view label;
    std::span<const std::string_view> keys;
    std::span<const std::string_view> labels;
    std::size_t (*get)(const T&);
    void (*set)(T&, std::size_t);
    std::string_view help;
};

/// A line of text, blank where nothing is known; at most `longest_text` bytes.
template <class T>
struct TextField {
    std::string_view key;
    std::string_view label;
    std::string T::*member;
    std::string_view help;
};

/// The fields of one kind of part, in the order of the screen and of the file.
template <class T>
struct Fields {
    std::span<const ChoiceField<T>> choices;
    std::span<const FigureField<T>> figures;
    std::span<const TextField<T>> texts{};
};

/// Specialised for AirPlant, the parts of an actuator, Channel, Circuit, Board, Supply, Sensor, Speaker and
/// NightPlan.
template <class T>
[[nodiscard]] const Fields<T>& fields();

template <>
const Fields<AirPlant>& fields<AirPlant>();
template <>
const Fields<Cylinder>& fields<Cylinder>();
template <>
const Fields<Valve>& fields<Valve>();
template <>
const Fields<FlowControls>& fields<FlowControls>();
template <>
const Fields<Feed>& fields<Feed>();
template <>
const Fields<Tube>& fields<Tube>();
template <>
const Fields<Load>& fields<Load>();
template <>
const Fields<Linkage>& fields<Linkage>();
template <>
const Fields<Base>& fields<Base>();
template <>
const Fields<Motion>& fields<Motion>();
template <>
const Fields<Fit>& fields<Fit>();
template <>
const Fields<NightPlan>& fields<NightPlan>();
template <>
const Fields<Channel>& fields<Channel>();
template <>
const Fields<Circuit>& fields<Circuit>();
template <>
const Fields<Board>& fields<Board>();
template <>
const Fields<Supply>& fields<Supply>();
template <>
const Fields<Sensor>& fields<Sensor>();
template <>
const Fields<Speaker>& fields<Speaker>();

/// Calls `take(key, title, member)` for each part of an actuator, in the order of the screen and of the file:
/// its key in the file, its name on the screen, where it is.
template <class Take>
void for_each_actuator_part(Take take) {
    take(std::string_view("cylinder"), std::string_view("Cylinder"), &Actuator::cylinder);
    take(std::string_view("valve"), std::string_view("Valve"), &Actuator::valve);
    take(std::string_view("flow_controls"), std::string_view("Flow controls"), &Actuator::flow_controls);
    take(std::string_view("feed"), std::string_view("Feed to the valve"), &Actuator::feed);
    take(std::string_view("tube"), std::string_view("Tube"), &Actuator::tube);
    take(std::string_view("load"), std::string_view("Load"), &Actuator::load);
    take(std::string_view("linkage"), std::string_view("Linkage"), &Actuator::linkage);
    take(std::string_view("base"), std::string_view("Base"), &Actuator::base);
    take(std::string_view("motion"), std::string_view("Stroke times"), &Actuator::motion);
    take(std::string_view("fit"), std::string_view("Fit to timed strokes"), &Actuator::fit);
}

/// The words of the sequence kinds, as in the file.
[[nodiscard]] std::span<const std::string_view> sequence_kind_keys();
[[nodiscard]] std::span<const std::string_view> sequence_kind_labels();

}  // namespace gasp
