// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edit.hpp"

#include <algorithm>
#include <cassert>
#include <span>
#include <type_traits>

namespace gasp {
namespace {

template <class T>
std::vector<T>& list(Sequence& sequence) {
    if constexpr (std::is_same_v<T, Cue>) {
        return sequence.cues;
    } else if constexpr (std::is_same_v<T, Mark>) {
        return sequence.marks;
    } else {
        return sequence.clips;
    }
}

template <class T>
std::vector<T>& list(Show& show) {
    if constexpr (std::is_same_v<T, Channel>) {
        return show.rig.channels;
    } else if constexpr (std::is_same_v<T, Actuator>) {
        return show.rig.actuators;
    } else if constexpr (std::is_same_v<T, Board>) {
        return show.rig.boards;
    } else if constexpr (std::is_same_v<T, Supply>) {
        return show.rig.supplies;
    } else {
        return show.sequences;
    }
}

/// An edit is done or undone by the same code, which asks each exchange what it takes and what it puts.
enum class Direction { forward, back };

template <class T>
const std::optional<T>& taken(const Exchange<T>& exchange, Direction direction) {
    return direction == Direction::forward ? exchange.before : exchange.after;
}

template <class T>
const std::optional<T>& put(const Exchange<T>& exchange, Direction direction) {
    return taken(exchange, direction == Direction::forward ? Direction::back : Direction::forward);
}

template <class T, class Iterator>
Iterator place_of(Iterator first, Iterator last, const T& thing) {
    return std::lower_bound(first, last, thing, [](const T& a, const T& b) { return a.id < b.id; });
}

/// Closes the gaps in one pass from the first of them on.
template <class T>
void take_out(std::vector<T>& things, std::span<const Exchange<T>* const> gone, Direction direction) {
    if (gone.empty()) {
        return;
    }
    auto read = place_of(things.begin(), things.end(), *taken(*gone.front(), direction));
    auto write = read;
    for (const Exchange<T>* exchange : gone) {
        const auto place = place_of(read, things.end(), *taken(*exchange, direction));
        assert(place != things.end() && *place == *taken(*exchange, direction));
        write = read == write ? place : std::move(read, place, write);
        read = place + 1;
    }
    write = std::move(read, things.end(), write);
    things.erase(write, things.end());
}

/// Opens the gaps in one pass from the end of the list down to the first of them.
template <class T>
void put_in(std::vector<T>& things, std::span<const Exchange<T>* const> come, Direction direction) {
    if (come.empty()) {
        return;
    }
    const auto old_size = static_cast<std::ptrdiff_t>(things.size());
    things.resize(things.size() + come.size());
    auto read = things.begin() + old_size;
    auto write = things.end();
    for (auto last = come.rbegin(); last != come.rend(); ++last) {
        const Exchange<T>* exchange = *last;
        const T& thing = *put(*exchange, direction);
        const auto place = place_of(things.begin(), read, thing);
        write = std::move_backward(place, read, write);
        read = place;
        *--write = thing;
    }
}

/// One exchange costs O(log n) and at most one move of the list's tail, any number of them one pass more.
template <class T>
void run(const InSequence<T>& change, Show& show, Direction direction) {
    const auto sequence = std::ranges::find(show.sequences, change.sequence, &Sequence::id);
    assert(sequence != show.sequences.end());
    std::vector<T>& things = list<T>(*sequence);
    std::vector<const Exchange<T>*> gone;
    std::vector<const Exchange<T>*> come;
    auto next = things.begin();
    for (const Exchange<T>& exchange : change.exchanges) {
        const auto& before = taken(exchange, direction);
        const auto& after = put(exchange, direction);
        if (before && after) {
            // Exchanges stand in the order of the list, and a selection is often a run of neighbours.
            next =
                next != things.end() && next->id == before->id ? next : place_of(next, things.end(), *before);
            assert(next != things.end() && *next == *before);
            *next++ = *after;
        } else if (before) {
            gone.push_back(&exchange);
        } else {
            come.push_back(&exchange);
        }
    }
    take_out<T>(things, gone, direction);
    put_in<T>(things, come, direction);
}

template <class T>
void run(const Exchange<T>& exchange, Show& show, Direction direction) {
    std::vector<T>& things = list<T>(show);
    const auto at = [&](std::size_t index) { return things.begin() + static_cast<std::ptrdiff_t>(index); };
    const bool forward = direction == Direction::forward;
    const std::size_t from = forward ? exchange.index_before : exchange.index_after;
    const std::size_t to = forward ? exchange.index_after : exchange.index_before;
    const auto& before = taken(exchange, direction);
    const auto& after = put(exchange, direction);
    assert(!before || (from < things.size() && things[from] == *before));
    if (before && after && from == to) {
        things[to] = *after;
        return;
    }
    if (before) {
        things.erase(at(from));
    }
    if (after) {
        assert(to <= things.size());
        things.insert(at(to), *after);
    }
}

template <class T>
void run(const Replacement<T>& replacement, Show& show, Direction direction) {
    const T& value = direction == Direction::forward ? replacement.after : replacement.before;
    if constexpr (std::is_same_v<T, AirPlant>) {
        show.rig.air_plant = value;
    } else if constexpr (std::is_same_v<T, Sensor>) {
        show.rig.sensor = value;
    } else if constexpr (std::is_same_v<T, Speaker>) {
        show.rig.speaker = value;
    } else if constexpr (std::is_same_v<T, NightPlan>) {
        show.night = value;
    } else if constexpr (std::is_same_v<T, SequenceHead>) {
        const auto sequence = std::ranges::find(show.sequences, replacement.sequence, &Sequence::id);
        assert(sequence != show.sequences.end());
        sequence->name = value.name;
        sequence->kind = value.kind;
        sequence->length = value.length;
        sequence->trigger_after_s = value.trigger_after_s;
    } else {
        show.name = value;
    }
}

void run(const Change& change, Show& show, Direction direction) {
    std::visit([&](const auto& one) { run(one, show, direction); }, change);
}

}  // namespace

SequenceHead head_of(const Sequence& sequence) {
    return {sequence.name, sequence.kind, sequence.length, sequence.trigger_after_s};
}

void apply(const Edit& edit, Show& show) {
    show.next_id += edit.ids_taken;
    for (const Change& change : edit.changes) {
        run(change, show, Direction::forward);
    }
}

void revert(const Edit& edit, Show& show) {
    for (auto last = edit.changes.rbegin(); last != edit.changes.rend(); ++last) {
        const Change& change = *last;
        run(change, show, Direction::back);
    }
    show.next_id -= edit.ids_taken;
}

}  // namespace gasp
