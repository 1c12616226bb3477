// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/parts_list.hpp"

#include "core/show/fields.hpp"
#include "ui/sheet/pack/pack_words.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace gasp {

namespace {

using Q = Quantity;

/// A size put together from figures; those that are blank are left out.
class Size {
  public:
    explicit Size(UnitSystem units) : units_(units) {}

    Size& with(const QString& before, Q quantity, const Figure& figure) {
        if (figure) {
            add(before + figure_text(quantity, figure, units_));
        }
        return *this;
    }
    Size& with(const QString& words) {
        add(words);
        return *this;
    }
    [[nodiscard]] QString text() const {
        return parts_.isEmpty() ? QStringLiteral("size not given") : parts_.join(", ");
    }

  private:
    void add(const QString& words) {
        if (!words.isEmpty()) {
            parts_ << words;
        }
    }
    UnitSystem units_;
    QStringList parts_;
};

template <class T>
QString choice_of(const T& part, std::size_t field = 0) {
    const auto& choice = fields<T>().choices[field];
    return text_of(choice.labels[choice.get(part)]);
}

void add(PartsGroup& group, Part part) {
    const auto same = std::ranges::find_if(group.parts, [&](const Part& one) {
        return one.name == part.name && one.size == part.size && one.length == part.length;
    });
    if (same == group.parts.end()) {
        group.parts.push_back(std::move(part));
        return;
    }
    same->quantity += part.quantity;
    for (const QString& use : part.used_for) {
        if (!same->used_for.contains(use)) {
            same->used_for << use;
        }
    }
}

Part not_planned(const char* name, const char* size) {
    Part part{QString::fromUtf8(name), QString::fromUtf8(size) + ", not in the plan", 1.0, false, false, {}};
    return part;
}

void add_plant(PartsGroup& group, const AirPlant& plant, UnitSystem units) {
    add(group, {"Compressor", Size(units)
                                  .with("free air ", Q::free_air_flow, plant.delivery_l_min)
                                  .with("duty ", Q::percent, plant.duty_percent)
                                  .text()});
    add(group, {"Receiver", Size(units).with("", Q::volume, plant.receiver_l).text()});
    add(group, {"Pressure switch", Size(units)
                                       .with("on at ", Q::gauge_pressure, plant.cut_in_kpa_gauge)
                                       .with("off at ", Q::gauge_pressure, plant.cut_out_kpa_gauge)
                                       .text()});
    add(group, {"Regulator", Size(units)
                                 .with("set to ", Q::gauge_pressure, plant.regulator_kpa_gauge)
                                 .with("", Q::conductance, plant.regulator_c_l_s_bar)
                                 .text()});
    add(group, not_planned("Relief valve", "as the receiver's maker set it"));
    add(group, not_planned("Shut-off valve", "by hand, lockable, venting what is behind it"));
    add(group, not_planned("Filter with drain", "for the flow of the largest stroke"));
    Part gauges = not_planned("Pressure gauge", "one at the receiver, one behind the regulator");
    gauges.quantity = 2;
    add(group, gauges);
}

void add_controls(PartsGroup& group, const Actuator& actuator, const QString& name, UnitSystem units) {
    const FlowControls& controls = actuator.flow_controls;
    const double ends = actuator.cylinder.action == CylinderAction::double_acting ? 2.0 : 1.0;
    const auto put = [&](const QString& what, const Figure& conductance, double count) {
        if (conductance) {
            add(group,
                {what, Size(units).with("", Q::conductance, conductance).text(), count, false, true, {name}});
        }
    };
    const QString place = controls.place == ControlPlace::at_valve ? ", at the valve" : ", at the cylinder";
    put("Flow control, metering in" + place, controls.in_c_l_s_bar, ends);
    put("Flow control, metering out" + place, controls.out_c_l_s_bar, ends);
    put(QStringLiteral("Quick exhaust valve"), controls.quick_exhaust_c_l_s_bar, ends);
    put(QStringLiteral("Silencer"), controls.silencer_c_l_s_bar,
        actuator.valve.kind == ValveKind::three_two ? 1.0 : 2.0);
}

void add_tube(PartsGroup& group, const QString& name, const Figure& length, const Figure& bore, double runs,
              UnitSystem units) {
    if (length) {
        add(group, {"Tube",
                    Size(units).with("bore ", Q::small_length, bore).text(),
                    *length * runs,
                    true,
                    true,
                    {name}});
    }
}

void add_actuator(PartsGroup& group, const Actuator& actuator, UnitSystem units) {
    const QString name = text_of(actuator.name);
    const Cylinder& cylinder = actuator.cylinder;
    add(group, {"Cylinder",
                Size(units)
                    .with(choice_of(cylinder).toLower())
                    .with("bore ", Q::small_length, cylinder.bore_mm)
                    .with("rod ", Q::small_length, cylinder.rod_mm)
                    .with("stroke ", Q::small_length, cylinder.stroke_mm)
                    .with("rated ", Q::gauge_pressure, cylinder.rating_kpa_gauge)
                    .with(cylinder.cushion_mm.value_or(0.0) > 0.0 ? QStringLiteral("cushioned") : QString())
                    .text(),
                1.0,
                false,
                true,
                {name}});
    add(group, {"Valve",
                Size(units)
                    .with(choice_of(actuator.valve))
                    .with("", Q::conductance, actuator.valve.supply_c_l_s_bar)
                    .with("shifts from ", Q::gauge_pressure, actuator.valve.least_kpa_gauge)
                    .text(),
                1.0,
                false,
                true,
                {name}});
    add_controls(group, actuator, name, units);
    add_tube(group, name, actuator.tube.length_m, actuator.tube.bore_mm,
             cylinder.action == CylinderAction::double_acting ? 2.0 : 1.0, units);
    add_tube(group, name, actuator.feed.length_m, actuator.feed.bore_mm, 1.0, units);
    if (actuator.feed.reservoir_l) {
        add(group, {"Reservoir",
                    Size(units).with("", Q::volume, actuator.feed.reservoir_l).text(),
                    1.0,
                    false,
                    true,
                    {name}});
    }
}

QString load_name(const Channel& channel) {
    if (channel.circuit.load != LoadKind::not_stated) {
        return choice_of(channel.circuit);
    }
    return channel.kind == ChannelKind::valve ? QStringLiteral("Coil") : choice_of(channel);
}

void add_circuit(PartsGroup& group, const Channel& channel, UnitSystem units) {
    const QString name = text_of(channel.name);
    const Circuit& circuit = channel.circuit;
    add(group,
        {load_name(channel),
         Size(units).with("", Q::voltage, circuit.volts).with("", Q::current, channel.load_current_a).text(),
         1.0,
         false,
         true,
         {name}});
    if (circuit.switched_by != SwitchedBy::not_stated) {
        add(group, {circuit.switched_by == SwitchedBy::relay ? QStringLiteral("Relay contact")
                                                             : QStringLiteral("Transistor"),
                    Size(units)
                        .with(circuit.switched_by == SwitchedBy::transistor ? QString()
                              : channel.contact == Contact::normally_open   ? QStringLiteral("NO")
                                                                            : QStringLiteral("NC"))
                        .with("", Q::current, circuit.switch_a)
                        .with("", Q::voltage, circuit.switch_volts)
                        .text(),
                    1.0,
                    false,
                    true,
                    {name}});
    }
    if (circuit.suppression != Suppression::not_stated && circuit.suppression != Suppression::none) {
        add(group, {"Suppression: " + choice_of(circuit, 2).toLower(),
                    Size(units).with("for ", Q::voltage, circuit.volts).text(),
                    1.0,
                    false,
                    true,
                    {name}});
    }
    if (circuit.fuse_a) {
        add(group,
            {"Fuse", Size(units).with("", Q::current, circuit.fuse_a).text(), 1.0, false, true, {name}});
    }
    if (circuit.wire_length_m) {
        add(group,
            {"Wire",
             Size(units).with("", Q::wire_area, circuit.wire_mm2).with(text_of(circuit.wire_colour)).text(),
             *circuit.wire_length_m * (circuit.return_path == ReturnPath::own_wire ? 2.0 : 1.0),
             true,
             true,
             {name}});
    }
}

void add_supply(PartsGroup& group, const Supply& supply, UnitSystem units) {
    const QString name = text_of(supply.name);
    add(group, {"Supply: " + choice_of(supply).toLower(),
                Size(units)
                    .with("", Q::voltage, supply.volts)
                    .with("", Q::current, supply.rated_a)
                    .with("", Q::charge, supply.capacity_ah)
                    .text(),
                1.0,
                false,
                true,
                {name}});
    if (supply.fuse_a) {
        add(group,
            {"Fuse", Size(units).with("", Q::current, supply.fuse_a).text(), 1.0, false, true, {name}});
    }
    const auto wire = [&](const Figure& area, const Figure& length) {
        if (length) {
            add(group,
                {"Wire", Size(units).with("", Q::wire_area, area).text(), *length, true, true, {name}});
        }
    };
    wire(supply.feed_mm2, supply.feed_length_m);
    wire(supply.return_mm2, supply.return_length_m);
}

PartsGroup control_of(const Show& show, UnitSystem units) {
    PartsGroup group{"Control and sound", {}};
    for (const Board& board : show.rig.boards) {
        add(group, {"Board",
                    board.outputs ? QStringLiteral("%1 outputs").arg(*board.outputs, 0, 'f', 0)
                                  : QStringLiteral("outputs not given"),
                    1.0,
                    false,
                    true,
                    {text_of(board.name)}});
    }
    if (std::ranges::find(show.sequences, SequenceKind::triggered, &Sequence::kind) != show.sequences.end()) {
        add(group, {"Sensor", choice_of(show.rig.sensor).toLower(), 1.0, false, true, {}});
    }
    if (show.rig.speaker.power_w) {
        add(group, {"Loudspeaker",
                    Size(units).with("", Q::power, show.rig.speaker.power_w).text(),
                    1.0,
                    false,
                    true,
                    {}});
    }
    return group;
}

}  // namespace

std::vector<PartsGroup> parts_of(const Show& show, UnitSystem units) {
    std::vector<PartsGroup> groups;
    if (!show.rig.actuators.empty()) {
        PartsGroup plant{"Air plant", {}};
        add_plant(plant, show.rig.air_plant, units);
        groups.push_back(std::move(plant));
        PartsGroup figures{"Figures", {}};
        for (const Actuator& actuator : show.rig.actuators) {
            add_actuator(figures, actuator, units);
        }
        groups.push_back(std::move(figures));
    }
    PartsGroup circuits{"Circuits", {}};
    for (const Channel& channel : show.rig.channels) {
        add_circuit(circuits, channel, units);
    }
    for (const Supply& supply : show.rig.supplies) {
        add_supply(circuits, supply, units);
    }
    groups.push_back(std::move(circuits));
    groups.push_back(control_of(show, units));
    std::erase_if(groups, [](const PartsGroup& group) { return group.parts.empty(); });
    return groups;
}

}  // namespace gasp
