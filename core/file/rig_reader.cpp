// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/rig_reader.hpp"

#include "core/file/json_object.hpp"

#include <limits>

namespace gasp {
namespace {

template <class T>
void read_id(Reading& reading, JsonValue& value, T& part) {
    part.id.value = reading.id(value);
}

template <class T>
void read_name(Reading& reading, JsonValue& value, T& part) {
    part.name = reading.string(value);
}

template <class T, class Part, Part T::*member>
void read_inner(Reading& reading, JsonValue& value, T& whole) {
    read_part(reading, value, whole.*member);
}

/// Pairs of travel and slope.
void read_points(Reading& reading, JsonValue& value, Linkage& linkage) {
    read_list(reading, value, [&linkage](Reading& inner, JsonValue& item) {
        std::vector<double> pair;
        read_list(inner, item, [&pair](Reading& innermost, JsonValue& number) {
            pair.push_back(innermost.figure(number));
        });
        if (pair.size() != 2) {
            inner.refuse("a point is two numbers: travel in mm, slope in degrees", "Correct it");
        }
        linkage.points.push_back({pair[0], pair[1]});
    });
}

constexpr Member<Linkage> linkage_members[]{{"points_mm_deg", false, &read_points}};

void read_linkage(Reading& reading, JsonValue& value, Actuator& actuator) {
    Linkage& linkage = actuator.linkage;
    ObjectReader<Linkage>(linkage_members, fields<Linkage>())
        .read(reading, reading.object(value), linkage, linkage.extra);
}

constexpr Member<Fit> fit_members[]{
    {"out_ms", false, &read_figures<Fit, &Fit::out_ms>},
    {"back_ms", false, &read_figures<Fit, &Fit::back_ms>},
};

void read_fit(Reading& reading, JsonValue& value, Actuator& actuator) {
    Fit& fit = actuator.fit;
    ObjectReader<Fit>(fit_members, fields<Fit>()).read(reading, reading.object(value), fit, fit.extra);
}

constexpr Member<Actuator> actuator_members[]{
    {"id", true, &read_id<Actuator>},
    {"name", true, &read_name<Actuator>},
    {"cylinder", false, &read_inner<Actuator, Cylinder, &Actuator::cylinder>},
    {"valve", false, &read_inner<Actuator, Valve, &Actuator::valve>},
    {"flow_controls", false, &read_inner<Actuator, FlowControls, &Actuator::flow_controls>},
    {"feed", false, &read_inner<Actuator, Feed, &Actuator::feed>},
    {"tube", false, &read_inner<Actuator, Tube, &Actuator::tube>},
    {"load", false, &read_inner<Actuator, Load, &Actuator::load>},
    {"linkage", false, &read_linkage},
    {"base", false, &read_inner<Actuator, Base, &Actuator::base>},
    {"motion", false, &read_inner<Actuator, Motion, &Actuator::motion>},
    {"fit", false, &read_fit},
};

void read_excludes(Reading& reading, JsonValue& value, Channel& channel) {
    read_list(reading, value, [&channel](Reading& inner, JsonValue& item) {
        channel.excludes.push_back(ChannelId{inner.id(item)});
    });
}

template <class T, std::optional<SupplyId> T::*member>
void read_supply_id(Reading& reading, JsonValue& value, T& part) {
    part.*member = SupplyId{reading.id(value)};
}

constexpr Member<Circuit> circuit_members[]{
    {"supply", false, &read_supply_id<Circuit, &Circuit::supply>},
    {"returns_to", false, &read_supply_id<Circuit, &Circuit::returns_to>},
};

void read_circuit(Reading& reading, JsonValue& value, Channel& channel) {
    Circuit& circuit = channel.circuit;
    ObjectReader<Circuit>(circuit_members, fields<Circuit>())
        .read(reading, reading.object(value), circuit, circuit.extra);
}

constexpr Member<Channel> channel_members[]{
    {"id", true, &read_id<Channel>},
    {"name", true, &read_name<Channel>},
    {"board", false,
     [](Reading& reading, JsonValue& value, Channel& channel) {
         channel.board = BoardId{reading.id(value)};
     }},
    {"output", false,
     [](Reading& reading, JsonValue& value, Channel& channel) {
         channel.output =
             static_cast<std::uint32_t>(reading.integer(value, 1, std::numeric_limits<std::uint32_t>::max()));
     }},
    {"actuator", false,
     [](Reading& reading, JsonValue& value, Channel& channel) {
         channel.actuator = ActuatorId{reading.id(value)};
     }},
    {"excludes", false, &read_excludes},
    {"circuit", false, &read_circuit},
};

constexpr Member<Board> board_members[]{
    {"id", true, &read_id<Board>},
    {"name", true, &read_name<Board>},
};

constexpr Member<Supply> supply_members[]{
    {"id", true, &read_id<Supply>},
    {"name", true, &read_name<Supply>},
    {"fed_from", false, &read_supply_id<Supply, &Supply::fed_from>},
};

/// A list of things with a name and an id.
template <class T, std::vector<T> Rig::*member>
void read_things(Reading& reading, JsonValue& value, std::span<const Member<T>> members,
                 const Fields<T>& known, Rig& rig) {
    const ObjectReader<T> reader(members, known);
    read_list(reading, value, [&](Reading& inner, JsonValue& item) {
        T& thing = (rig.*member).emplace_back();
        reader.read(inner, inner.object(item), thing, thing.extra);
    });
}

constexpr Member<Rig> rig_members[]{
    {"air_plant", false, &read_inner<Rig, AirPlant, &Rig::air_plant>},
    {"actuators", false,
     [](Reading& reading, JsonValue& value, Rig& rig) {
         read_things<Actuator, &Rig::actuators>(reading, value, actuator_members, {}, rig);
     }},
    {"channels", false,
     [](Reading& reading, JsonValue& value, Rig& rig) {
         read_things<Channel, &Rig::channels>(reading, value, channel_members, fields<Channel>(), rig);
     }},
    {"boards", false,
     [](Reading& reading, JsonValue& value, Rig& rig) {
         read_things<Board, &Rig::boards>(reading, value, board_members, fields<Board>(), rig);
     }},
    {"supplies", false,
     [](Reading& reading, JsonValue& value, Rig& rig) {
         read_things<Supply, &Rig::supplies>(reading, value, supply_members, fields<Supply>(), rig);
     }},
    {"sensor", false, &read_inner<Rig, Sensor, &Rig::sensor>},
    {"speaker", false, &read_inner<Rig, Speaker, &Rig::speaker>},
};

}  // namespace

void read_rig(Reading& reading, JsonValue& value, Rig& rig) {
    ObjectReader<Rig>(rig_members, {}).read(reading, reading.object(value), rig, rig.extra);
}

}  // namespace gasp
