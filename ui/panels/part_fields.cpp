// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/part_fields.hpp"

#include "core/show/edits.hpp"
#include "core/show/fields.hpp"
#include "ui/panels/field_entries.hpp"
#include "ui/panels/night_lists.hpp"
#include "ui/panels/part_edits.hpp"

#include <algorithm>
#include <optional>
#include <string_view>
#include <type_traits>
#include <utility>

namespace gasp {
namespace {

std::vector<Section> show_sections() {
    TextEntry entry{
        .key = "name",
        .label = "Name",
        .help = "Stands on everything that is handed over.",
        .may_be_blank = false,
        .get = [](const Show& shown) { return QString::fromStdString(shown.name); },
        .taken = [](const Show&, const QString&) { return false; },
        .set = [](const Show& shown, const QString& name) { return rename_show(shown, name.toStdString()); }};
    return {{"Show", {entry}}};
}

PointsEntry points_entry(ActuatorId id, const QString& part) {
    PointsEntry entry{
        .key = "linkage.points_mm_deg",
        .label = "Measured points",
        .help =
            "Move the rod by hand and note its travel and the arm's slope above the horizontal, "
            "from rod in to rod out: four points or more. Rows can be pasted.",
        .get = {},
        .curve = [id](const Show& show) { return linkage_curve(show, id); },
        .set = {}};
    entry.get = [id](const Show& show) {
        const Actuator* actuator = find(show, id);
        return actuator != nullptr ? actuator->linkage.points : std::vector<LinkagePoint>();
    };
    entry.set = [id, part](const Show& show, std::vector<LinkagePoint> points) {
        const Actuator* actuator = find(show, id);
        if (actuator == nullptr || actuator->linkage.points == points) {
            return Edit{};
        }
        Actuator changed = *actuator;
        changed.linkage.points = std::move(points);
        return named_after(set_actuator(show, changed), "measured points", part);
    };
    return entry;
}

std::vector<Section> actuator_sections(const Show& show, ActuatorId id) {
    const QString part = QString::fromStdString(find(show, id)->name);
    Section head{"Actuator", {name_entry(listed<Actuator>(id, set_actuator), &Rig::actuators)}};
    std::vector<Section> sections{head};
    for_each_actuator_part([&](std::string_view key, std::string_view title, auto member) {
        sections.push_back(section(text(title), within(id, member), std::string(key) + ".", part));
        if constexpr (std::is_same_v<decltype(member), Linkage Actuator::*>) {
            sections.back().entries.emplace_back(points_entry(id, part));
        }
    });
    return sections;
}

FigureEntry output_entry(ChannelId id) {
    FigureEntry entry{.key = "output",
                      .label = "Output",
                      .help = "Its number as printed on the board, counted from 1.",
                      .quantity = Quantity::number,
                      .least = 1,
                      .most = 1024,
                      .whole = true,
                      .get = {},
                      .set = {}};
    entry.get = [id](const Show& show) -> Figure {
        const Channel* channel = find(show, id);
        return channel != nullptr && channel->output ? Figure(*channel->output) : Figure{};
    };
    entry.set = [id](const Show& show, Figure figure) {
        const Channel* channel = find(show, id);
        if (channel == nullptr) {
            return Edit{};
        }
        Channel changed = *channel;
        changed.output = figure ? std::optional(static_cast<std::uint32_t>(*figure)) : std::nullopt;
        return named_after(set_channel(show, changed), "output", QString::fromStdString(channel->name));
    };
    return entry;
}

std::vector<ChannelId> others(const Show& show, ChannelId id) {
    std::vector<ChannelId> list;
    for (const Channel& channel : show.rig.channels) {
        if (channel.id != id) {
            list.push_back(channel.id);
        }
    }
    return list;
}

ManyEntry excludes_entry(ChannelId id) {
    ManyEntry entry{
        .key = "excludes",
        .label = "Never on together with",
        .help = "Channels that must not be on at the same time; the two coils of a valve never may anyway.",
        .words = {},
        .get = {},
        .set = {}};
    entry.words = [id](const Show& show) {
        QStringList words;
        for (const ChannelId other : others(show, id)) {
            words << QString::fromStdString(find(show, other)->name);
        }
        return words;
    };
    entry.get = [id](const Show& show) {
        std::vector<bool> ticks;
        const Channel* channel = find(show, id);
        for (const ChannelId other : others(show, id)) {
            ticks.push_back(channel != nullptr &&
                            std::count(channel->excludes.begin(), channel->excludes.end(), other) > 0);
        }
        return ticks;
    };
    entry.set = [id](const Show& show, int index, bool on) {
        const Channel* channel = find(show, id);
        const auto list = others(show, id);
        if (channel == nullptr || index >= static_cast<int>(list.size())) {
            return Edit{};
        }
        const ChannelId other = list[static_cast<std::size_t>(index)];
        Channel changed = *channel;
        std::erase(changed.excludes, other);
        if (on) {
            changed.excludes.push_back(other);
        }
        return named_after(set_channel(show, changed), "exclusions", QString::fromStdString(channel->name));
    };
    return entry;
}

Section circuit_section(ChannelId id, const QString& part) {
    const Spot<Circuit> spot{[id](const Show& show) -> const Circuit* {
                                 const Channel* channel = find(show, id);
                                 return channel != nullptr ? &channel->circuit : nullptr;
                             },
                             [id](const Show& show, const Circuit& circuit) {
                                 Channel changed = *find(show, id);
                                 changed.circuit = circuit;
                                 return set_channel(show, changed);
                             }};
    Section made{"Circuit", {}};
    made.entries.emplace_back(reference<Supply>(spot, &Circuit::supply, &Rig::supplies, "circuit.supply",
                                                "Supply", "None yet", "What feeds it.", part));
    add_fields(made, spot, "circuit.", part);
    made.entries.emplace_back(reference<Supply>(
        spot, &Circuit::returns_to, &Rig::supplies, "circuit.returns_to", "Supply it returns to",
        "The one that feeds it", "Where the way back leads, if it is another supply's minus.", part));
    return made;
}

std::vector<Section> channel_sections(const Show& show, ChannelId id) {
    const QString part = QString::fromStdString(find(show, id)->name);
    const Spot<Channel> spot = listed<Channel>(id, set_channel);
    Section head{"Channel", {name_entry(spot, &Rig::channels)}};
    add_fields(head, spot, "", part);
    Section place{"Where it hangs", {}};
    place.entries.emplace_back(reference<Board>(spot, &Channel::board, &Rig::boards, "board", "Board",
                                                "None yet", "The board whose output switches it.", part));
    place.entries.emplace_back(output_entry(id));
    place.entries.emplace_back(
        reference<Actuator>(spot, &Channel::actuator, &Rig::actuators, "actuator", "Actuator", "None",
                            "Whose valve it switches, if it is a valve's coil.", part));
    place.entries.emplace_back(excludes_entry(id));
    return {head, place, circuit_section(id, part)};
}

std::vector<Section> board_sections(const Show& show, BoardId id) {
    const Spot<Board> spot = listed<Board>(id, set_board);
    Section head{"Board", {name_entry(spot, &Rig::boards)}};
    add_fields(head, spot, "", QString::fromStdString(find(show, id)->name));
    return {head};
}

std::vector<Section> supply_sections(const Show& show, SupplyId id) {
    const QString part = QString::fromStdString(find(show, id)->name);
    const Spot<Supply> spot = listed<Supply>(id, set_supply);
    Section head{"Supply", {name_entry(spot, &Rig::supplies)}};
    add_fields(head, spot, "", part);
    head.entries.emplace_back(reference<Supply>(spot, &Supply::fed_from, &Rig::supplies, "fed_from",
                                                "Fed from", "Nothing of this rig",
                                                "The supply that a converter hangs on.", part));
    return {head};
}

template <class T>
std::vector<Section> single_section(const QString& title, T Rig::*member, Edit (*set)(const Show&, T),
                                    const std::string& prefix) {
    const Spot<T> spot{[member](const Show& show) { return &(show.rig.*member); },
                       [set](const Show& show, const T& value) { return set(show, value); }};
    return {section(title, spot, prefix, title.toLower())};
}

}  // namespace

Section night_section() {
    const Spot<NightPlan> spot{
        [](const Show& show) { return &show.night; },
        [](const Show& show, const NightPlan& night) { return set_night(show, night); }};
    Section made = section("Night", spot, "night.", "the night");
    for (Entry& entry : made.entries) {
        if (auto* figure = std::get_if<FigureEntry>(&entry)) {
            figure->whole = figure->key == "night.runs" || figure->key == "night.seed";
        }
    }
    made.entries.emplace_back(by_hour_entry());
    made.entries.emplace_back(arrivals_entry());
    return made;
}

bool exists(const Show& show, Part part) {
    switch (part.kind) {
        case PartKind::actuator:
            return find(show, ActuatorId{part.id}) != nullptr;
        case PartKind::channel:
            return find(show, ChannelId{part.id}) != nullptr;
        case PartKind::board:
            return find(show, BoardId{part.id}) != nullptr;
        case PartKind::supply:
            return find(show, SupplyId{part.id}) != nullptr;
        default:
            return true;
    }
}

QString name_of(const Show& show, Part part) {
    if (!exists(show, part)) {
        return {};
    }
    switch (part.kind) {
        case PartKind::show:
            return show.name.empty() ? QString("Show") : QString::fromStdString(show.name);
        case PartKind::air_plant:
            return "Air plant";
        case PartKind::actuator:
            return QString::fromStdString(find(show, ActuatorId{part.id})->name);
        case PartKind::channel:
            return QString::fromStdString(find(show, ChannelId{part.id})->name);
        case PartKind::board:
            return QString::fromStdString(find(show, BoardId{part.id})->name);
        case PartKind::supply:
            return QString::fromStdString(find(show, SupplyId{part.id})->name);
        case PartKind::sensor:
            return "Sensor";
        case PartKind::speaker:
            return "Speaker";
    }
    return {};
}

std::vector<Section> sections_of(const Show& show, Part part) {
    if (!exists(show, part)) {
        return {};
    }
    switch (part.kind) {
        case PartKind::show:
            return show_sections();
        case PartKind::air_plant:
            return single_section<AirPlant>("Air plant", &Rig::air_plant, set_air_plant, "air_plant.");
        case PartKind::actuator:
            return actuator_sections(show, ActuatorId{part.id});
        case PartKind::channel:
            return channel_sections(show, ChannelId{part.id});
        case PartKind::board:
            return board_sections(show, BoardId{part.id});
        case PartKind::supply:
            return supply_sections(show, SupplyId{part.id});
        case PartKind::sensor:
            return single_section<Sensor>("Sensor", &Rig::sensor, set_sensor, "sensor.");
        case PartKind::speaker:
            return single_section<Speaker>("Speaker", &Rig::speaker, set_speaker, "speaker.");
    }
    return {};
}

}  // namespace gasp
