// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edit_building.hpp"
#include "core/show/fields.hpp"

#include <cctype>

namespace gasp {
namespace {

/// Figures of `wanted` that are not allowed stay as they were in `before`.
template <class T>
void keep_allowed(T& wanted, const T& before) {
    for (const FigureField<T>& field : fields<T>().figures) {
        if (!figure_allowed(field, wanted)) {
            wanted.*field.member = before.*field.member;
        }
    }
    for (const TextField<T>& field : fields<T>().texts) {
        if (!text_allowed(wanted.*field.member)) {
            wanted.*field.member = before.*field.member;
        }
    }
}

template <class T>
void add_changed_labels(std::vector<std::string_view>& labels, const T& before, const T& after) {
    for (const ChoiceField<T>& field : fields<T>().choices) {
        if (field.get(before) != field.get(after)) {
            labels.push_back(field.label);
        }
    }
    const auto add_changed = [&](const auto& all) {
        for (const auto& field : all) {
            if (before.*field.member != after.*field.member) {
                labels.push_back(field.label);
            }
        }
    };
    add_changed(fields<T>().figures);
    add_changed(fields<T>().texts);
}

/// "change bore of ..." when one field changed, "change ..." when more did.
std::string change_sentence(const std::vector<std::string_view>& labels, const std::string& of) {
    if (labels.size() != 1) {
        return "change " + of;
    }
    std::string label(labels.front());
    label[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(label[0])));
    return "change " + label + " of " + of;
}

/// The same for what has a name.
template <class T>
std::string named_sentence(std::vector<std::string_view> labels, const T& before, const T& after) {
    if (labels.empty() && before.name != after.name) {
        return "rename " + quoted(before.name) + " to " + quoted(after.name);
    }
    if (before.name != after.name) {
        labels.emplace_back("Name");
    }
    return change_sentence(labels, quoted(before.name));
}

template <class T>
Edit set_only(const T& before, T after, const std::string& called) {
    Edit edit;
    keep_allowed(after, before);
    std::vector<std::string_view> labels;
    add_changed_labels(labels, before, after);
    edit.sentence = change_sentence(labels, called);
    add_change(edit, SequenceId{}, before, std::move(after));
    return edit;
}

template <class T>
void add_in_place(Edit& edit, const T& before, T after, std::size_t index) {
    if (before != after) {
        edit.changes.emplace_back(Exchange<T>{before, std::move(after), index, index});
    }
}

/// Puts a thing, whose name and figures are seen to, at the end of its list.
template <class T>
Edit add_thing(const Show& show, const std::vector<T>& things, T thing, const std::string& called) {
    Edit edit;
    edit.sentence = "add " + called + " " + quoted(thing.name);
    edit.ids_taken = 1;
    thing.id.value = show.next_id;
    edit.changes.emplace_back(Exchange<T>{std::nullopt, std::move(thing), 0, things.size()});
    return edit;
}

/// For every channel that `change`, void(Channel&), makes a difference to.
template <class F>
void change_channels(Edit& edit, const Show& show, F&& change) {
    for (std::size_t index = 0; index < show.rig.channels.size(); ++index) {
        Channel after = show.rig.channels[index];
        change(after);
        add_in_place(edit, show.rig.channels[index], std::move(after), index);
    }
}

void keep_allowed_actuator(Actuator& wanted, const Actuator& before) {
    for_each_actuator_part([&](auto, auto, auto member) { keep_allowed(wanted.*member, before.*member); });
    if (!points_allowed(wanted.linkage.points)) {
        wanted.linkage.points = before.linkage.points;
    }
    if (!timed_allowed(wanted.fit.out_ms)) {
        wanted.fit.out_ms = before.fit.out_ms;
    }
    if (!timed_allowed(wanted.fit.back_ms)) {
        wanted.fit.back_ms = before.fit.back_ms;
    }
}

void keep_allowed_channel(Channel& wanted, const Channel& before) {
    keep_allowed(wanted, before);
    keep_allowed(wanted.circuit, before.circuit);
}

void drop_unknown(const Show& show, std::optional<SupplyId>& supply) {
    if (supply && !find(show, *supply)) {
        supply.reset();
    }
}

/// Drops mentions of what is not there from a channel that is to have the id `id`.
void keep_known(const Show& show, ChannelId id, Channel& wanted) {
    if (wanted.board && !find(show, *wanted.board)) {
        wanted.board.reset();
        wanted.output.reset();
    }
    if (wanted.output == 0U) {
        wanted.output.reset();
    }
    if (wanted.actuator && !find(show, *wanted.actuator)) {
        wanted.actuator.reset();
    }
    drop_unknown(show, wanted.circuit.supply);
    drop_unknown(show, wanted.circuit.returns_to);
    std::vector<ChannelId> known;
    for (const ChannelId other : wanted.excludes) {
        if (other != id && find(show, other) && std::ranges::find(known, other) == known.end()) {
            known.push_back(other);
        }
    }
    wanted.excludes = std::move(known);
}

std::vector<std::string_view> changed_labels(const Channel& before, const Channel& after) {
    std::vector<std::string_view> labels;
    add_changed_labels(labels, before, after);
    add_changed_labels(labels, before.circuit, after.circuit);
    if (before.circuit.supply != after.circuit.supply) {
        labels.emplace_back("Supply");
    }
    if (before.circuit.returns_to != after.circuit.returns_to) {
        labels.emplace_back("Supply it returns to");
    }
    if (before.board != after.board || before.output != after.output) {
        labels.emplace_back("Output");
    }
    if (before.actuator != after.actuator) {
        labels.emplace_back("Actuator");
    }
    if (before.excludes != after.excludes) {
        labels.emplace_back("Exclusions");
    }
    return labels;
}

std::vector<std::string_view> changed_labels(const Board& before, const Board& after) {
    std::vector<std::string_view> labels;
    add_changed_labels(labels, before, after);
    return labels;
}

std::vector<std::string_view> changed_labels(const Supply& before, const Supply& after) {
    std::vector<std::string_view> labels;
    add_changed_labels(labels, before, after);
    if (before.fed_from != after.fed_from) {
        labels.emplace_back("Fed from");
    }
    return labels;
}

std::vector<std::string_view> changed_labels(const Actuator& before, const Actuator& after) {
    std::vector<std::string_view> labels;
    for_each_actuator_part(
        [&](auto, auto, auto member) { add_changed_labels(labels, before.*member, after.*member); });
    if (before.linkage.points != after.linkage.points) {
        labels.emplace_back("Points of the linkage");
    }
    if (before.fit.out_ms != after.fit.out_ms || before.fit.back_ms != after.fit.back_ms) {
        labels.emplace_back("Timed strokes");
    }
    return labels;
}

/// Exchanges the thing of a list that has the id of `after` for it. `keep(after, before)` keeps what is not
/// allowed as it was.
template <class T, class Keep>
Edit set_thing(const std::vector<T>& things, T after, Keep keep) {
    Edit edit;
    const auto index = index_of(things, after.id);
    if (!index) {
        return edit;
    }
    const T& before = things[*index];
    keep(after, before);
    after.name = name_among(things, after.id, after.name, before.name);
    edit.sentence = named_sentence(changed_labels(before, after), before, after);
    add_in_place(edit, before, std::move(after), *index);
    return edit;
}

/// Takes a thing out of its list. `forget(edit)` adds the changes of all that mentions it.
template <class T, class Forget>
Edit remove_thing(const std::vector<T>& things, decltype(T::id) id, const std::string& called,
                  Forget forget) {
    Edit edit;
    const auto index = index_of(things, id);
    if (!index) {
        return edit;
    }
    forget(edit);
    edit.sentence = "delete " + called + " " + quoted(things[*index].name);
    edit.changes.emplace_back(Exchange<T>{things[*index], std::nullopt, *index, 0});
    return edit;
}

}  // namespace

Edit set_air_plant(const Show& show, AirPlant plant) {
    return set_only(show.rig.air_plant, std::move(plant), "the air plant");
}

Edit set_sensor(const Show& show, Sensor sensor) {
    return set_only(show.rig.sensor, std::move(sensor), "the sensor");
}

Edit set_night(const Show& show, NightPlan night) {
    if (!hourly_allowed(night.groups_by_hour)) {
        night.groups_by_hour = show.night.groups_by_hour;
    }
    if (!arrivals_allowed(night.arrivals_s)) {
        night.arrivals_s = show.night.arrivals_s;
    }
    return set_only(show.night, std::move(night), "the night");
}

Edit set_speaker(const Show& show, Speaker speaker) {
    return set_only(show.rig.speaker, std::move(speaker), "the speaker");
}

Edit add_channel(const Show& show, Channel channel) {
    if (!ids_left(show, 1)) {
        return {};
    }
    keep_allowed_channel(channel, Channel{});
    keep_known(show, ChannelId{show.next_id}, channel);
    channel.name = name_among(show.rig.channels, ChannelId{}, channel.name, "Channel");
    return add_thing(show, show.rig.channels, std::move(channel), "channel");
}

Edit set_channel(const Show& show, const Channel& channel) {
    return set_thing(show.rig.channels, channel, [&show](Channel& after, const Channel& before) {
        keep_allowed_channel(after, before);
        keep_known(show, after.id, after);
    });
}

Edit move_channel(const Show& show, ChannelId id, std::size_t index) {
    Edit edit;
    const auto from = index_of(show.rig.channels, id);
    if (!from) {
        return edit;
    }
    const std::size_t to = std::min(index, show.rig.channels.size() - 1);
    const Channel& channel = show.rig.channels[*from];
    edit.sentence = "move channel " + quoted(channel.name);
    if (to != *from) {
        edit.changes.emplace_back(Exchange<Channel>{channel, channel, *from, to});
    }
    return edit;
}

Edit remove_channel(const Show& show, ChannelId id) {
    return remove_thing(show.rig.channels, id, "channel", [&show, id](Edit& edit) {
        for (const Sequence& sequence : show.sequences) {
            std::vector<Exchange<Cue>> gone;
            for (const Cue& cue : sequence.cues) {
                if (cue.channel == id) {
                    gone.push_back({cue, std::nullopt});
                }
            }
            add_change(edit, sequence.id, std::move(gone));
        }
        change_channels(edit, show, [id](Channel& channel) { std::erase(channel.excludes, id); });
    });
}

Edit add_actuator(const Show& show, Actuator actuator) {
    if (!ids_left(show, 1)) {
        return {};
    }
    keep_allowed_actuator(actuator, Actuator{});
    actuator.name = name_among(show.rig.actuators, ActuatorId{}, actuator.name, "Actuator");
    return add_thing(show, show.rig.actuators, std::move(actuator), "actuator");
}

Edit set_actuator(const Show& show, const Actuator& actuator) {
    return set_thing(show.rig.actuators, actuator, keep_allowed_actuator);
}

Edit remove_actuator(const Show& show, ActuatorId id) {
    return remove_thing(show.rig.actuators, id, "actuator", [&show, id](Edit& edit) {
        change_channels(edit, show, [id](Channel& channel) {
            if (channel.actuator == id) {
                channel.actuator.reset();
            }
        });
    });
}

Edit add_board(const Show& show, Board board) {
    if (!ids_left(show, 1)) {
        return {};
    }
    keep_allowed(board, Board{});
    board.name = name_among(show.rig.boards, BoardId{}, board.name, "Board");
    return add_thing(show, show.rig.boards, std::move(board), "board");
}

Edit set_board(const Show& show, const Board& board) {
    return set_thing(show.rig.boards, board, keep_allowed<Board>);
}

Edit remove_board(const Show& show, BoardId id) {
    return remove_thing(show.rig.boards, id, "board", [&show, id](Edit& edit) {
        change_channels(edit, show, [id](Channel& channel) {
            if (channel.board == id) {
                channel.board.reset();
                channel.output.reset();
            }
        });
    });
}

Edit add_supply(const Show& show, Supply supply) {
    if (!ids_left(show, 1)) {
        return {};
    }
    keep_allowed(supply, Supply{});
    drop_unknown(show, supply.fed_from);
    supply.name = name_among(show.rig.supplies, SupplyId{}, supply.name, "Supply");
    return add_thing(show, show.rig.supplies, std::move(supply), "supply");
}

Edit set_supply(const Show& show, const Supply& supply) {
    return set_thing(show.rig.supplies, supply, [&show](Supply& after, const Supply& before) {
        keep_allowed(after, before);
        drop_unknown(show, after.fed_from);
    });
}

Edit remove_supply(const Show& show, SupplyId id) {
    return remove_thing(show.rig.supplies, id, "supply", [&show, id](Edit& edit) {
        const auto drop = [id](std::optional<SupplyId>& supply) {
            if (supply == id) {
                supply.reset();
            }
        };
        change_channels(edit, show, [&](Channel& channel) {
            drop(channel.circuit.supply);
            drop(channel.circuit.returns_to);
        });
        for (std::size_t other = 0; other < show.rig.supplies.size(); ++other) {
            Supply after = show.rig.supplies[other];
            if (after.id != id) {
                drop(after.fed_from);
                add_in_place(edit, show.rig.supplies[other], std::move(after), other);
            }
        }
    });
}

}  // namespace gasp
