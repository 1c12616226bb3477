// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/part_fields.hpp"

#include "core/show/edits.hpp"
#include "core/show/fields.hpp"
#include "ui/panels/night_lists.hpp"
#include "ui/panels/part_edits.hpp"

#include <algorithm>
#include <optional>
#include <string_view>
#include <type_traits>
#include <utility>

namespace gasp {
namespace {

QString text(std::string_view view) {
    return QString::fromUtf8(view.data(), static_cast<qsizetype>(view.size()));
}

QStringList texts(std::span<const std::string_view> views) {
    QStringList list;
    for (const auto& view : views) {
        list << text(view);
    }
    return list;
}

/// Where a struct with fields stands in a show: `get` is null when its part is gone, `set` makes the edit
/// that puts another one in its place.
template <class T>
struct Spot {
    std::function<const T*(const Show&)> get;
    std::function<Edit(const Show&, const T&)> set;
};

template <class T>
FigureEntry entry(const FigureField<T>& field, const Spot<T>& spot, const std::string& prefix,
                  const QString& part) {
    FigureEntry entry{.key = prefix + std::string(field.key),
                      .label = text(field.label),
                      .help = text(field.help),
                      .quantity = field.quantity,
                      .least = field.least,
                      .most = field.most,
                      .whole = false,
                      .get = {},
                      .set = {}};
    entry.get = [spot, member = field.member](const Show& show) {
        const T* value = spot.get(show);
        return value != nullptr ? value->*member : Figure{};
    };
    entry.set = [spot, member = field.member, label = entry.label, part](const Show& show, Figure figure) {
        const T* value = spot.get(show);
        if (value == nullptr) {
            return Edit{};
        }
        T changed = *value;
        changed.*member = figure;
        return named_after(spot.set(show, changed), label, part);
    };
    return entry;
}

template <class T>
ChoiceEntry entry(const ChoiceField<T>& field, const Spot<T>& spot, const std::string& prefix,
                  const QString& part) {
    ChoiceEntry entry{.key = prefix + std::string(field.key),
                      .label = text(field.label),
                      .help = text(field.help),
                      .words = [words = texts(field.labels)](const Show&) { return words; },
                      .get = {},
                      .set = {}};
    entry.get = [spot, get = field.get](const Show& show) {
        const T* value = spot.get(show);
        return value != nullptr ? static_cast<int>(get(*value)) : -1;
    };
    entry.set = [spot, set = field.set, label = entry.label, part](const Show& show, int index) {
        const T* value = spot.get(show);
        if (value == nullptr) {
            return Edit{};
        }
        T changed = *value;
        set(changed, static_cast<std::size_t>(index));
        return named_after(spot.set(show, changed), label, part);
    };
    return entry;
}

template <class T>
TextEntry entry(const TextField<T>& field, const Spot<T>& spot, const std::string& prefix,
                const QString& part) {
    TextEntry entry{.key = prefix + std::string(field.key),
                    .label = text(field.label),
                    .help = text(field.help),
                    .may_be_blank = true,
                    .get = {},
                    .taken = [](const Show&, const QString&) { return false; },
                    .set = {}};
    entry.get = [spot, member = field.member](const Show& show) {
        const T* value = spot.get(show);
        return value != nullptr ? QString::fromStdString(value->*member) : QString();
    };
    entry.set = [spot, member = field.member, label = entry.label, part](const Show& show,
                                                                         const QString& line) {
        const T* value = spot.get(show);
        if (value == nullptr) {
            return Edit{};
        }
        T changed = *value;
        changed.*member = line.toStdString();
        return named_after(spot.set(show, changed), label, part);
    };
    return entry;
}

template <class T>
void add_fields(Section& section, const Spot<T>& spot, const std::string& prefix, const QString& part) {
    for (const auto& field : fields<T>().choices) {
        section.entries.emplace_back(entry(field, spot, prefix, part));
    }
    for (const auto& field : fields<T>().figures) {
        section.entries.emplace_back(entry(field, spot, prefix, part));
    }
    for (const auto& field : fields<T>().texts) {
        section.entries.emplace_back(entry(field, spot, prefix, part));
    }
}

template <class T>
Section section(const QString& title, const Spot<T>& spot, const std::string& prefix, const QString& part) {
    Section made{title, {}};
    add_fields(made, spot, prefix, part);
    return made;
}

/// A named thing of one of the rig's lists.
template <class T>
Spot<T> listed(decltype(T::id) id, Edit (*set)(const Show&, const T&)) {
    return {[id](const Show& show) { return find(show, id); }, set};
}

/// A struct within an actuator.
template <class T>
Spot<T> within(ActuatorId id, T Actuator::*member) {
    return {[id, member](const Show& show) -> const T* {
                const Actuator* actuator = find(show, id);
                return actuator != nullptr ? &(actuator->*member) : nullptr;
            },
            [id, member](const Show& show, const T& value) {
                Actuator changed = *find(show, id);
                changed.*member = value;
                return set_actuator(show, changed);
            }};
}

template <class T>
TextEntry name_entry(const Spot<T>& spot, std::vector<T> Rig::*list) {
    TextEntry entry{.key = "name",
                    .label = "Name",
                    .help = "How it is called everywhere.",
                    .may_be_blank = false,
                    .get = {},
                    .taken = {},
                    .set = {}};
    entry.get = [spot](const Show& show) {
        const T* value = spot.get(show);
        return value != nullptr ? QString::fromStdString(value->name) : QString();
    };
    entry.taken = [spot, list](const Show& show, const QString& name) {
        const T* own = spot.get(show);
        const auto& all = show.rig.*list;
        return std::any_of(all.begin(), all.end(), [&](const T& other) {
            return own != nullptr && other.id != own->id && other.name == name.toStdString();
        });
    };
    entry.set = [spot](const Show& show, const QString& name) {
        const T* value = spot.get(show);
        if (value == nullptr) {
            return Edit{};
        }
        T changed = *value;
        changed.name = name.toStdString();
        Edit edit = spot.set(show, changed);
        edit.sentence = "rename " + value->name;
        return edit;
    };
    return entry;
}

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

/// A choice of one thing of a list, or of none.
template <class T, class Owner>
ChoiceEntry reference(const Spot<Owner>& spot, std::optional<decltype(T::id)> Owner::*member,
                      std::vector<T> Rig::*list, std::string key, const QString& label, const QString& none,
                      const QString& help, const QString& part) {
    ChoiceEntry entry{.key = std::move(key), .label = label, .help = help, .words = {}, .get = {}, .set = {}};
    entry.words = [list, none](const Show& show) {
        QStringList words{none};
        for (const T& thing : show.rig.*list) {
            words << QString::fromStdString(thing.name);
        }
        return words;
    };
    entry.get = [spot, member, list](const Show& show) {
        const Owner* owner = spot.get(show);
        if (owner == nullptr || !(owner->*member)) {
            return 0;
        }
        const auto& all = show.rig.*list;
        const auto it =
            std::find_if(all.begin(), all.end(), [&](const T& t) { return t.id == *(owner->*member); });
        return it == all.end() ? 0 : static_cast<int>(it - all.begin()) + 1;
    };
    entry.set = [spot, member, list, label, part](const Show& show, int index) {
        const Owner* owner = spot.get(show);
        const auto& all = show.rig.*list;
        if (owner == nullptr || index > static_cast<int>(all.size())) {
            return Edit{};
        }
        Owner changed = *owner;
        changed.*member =
            index > 0 ? std::optional(all[static_cast<std::size_t>(index - 1)].id) : std::nullopt;
        return named_after(spot.set(show, changed), label, part);
    };
    return entry;
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
