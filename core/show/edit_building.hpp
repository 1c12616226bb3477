// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edits.hpp"
#include "core/show/limits.hpp"
#include "core/show/validity.hpp"

#include <algorithm>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// What the builders of edits share. Nobody outside core/show includes this.

namespace gasp {

[[nodiscard]] inline std::string quoted(std::string_view name) {
    return std::string(1, '"').append(name).append(1, '"');
}

/// "move cue", "move 3 cues".
[[nodiscard]] inline std::string counted(std::string_view verb, std::string_view thing, std::size_t count) {
    return count == 1 ? std::string(verb) + " " + std::string(thing)
                      : std::string(verb) + " " + std::to_string(count) + " " + std::string(thing) + "s";
}

[[nodiscard]] inline Micros within_day(Micros time) {
    return std::clamp(time, Micros{0}, longest_sequence);
}

/// False when the document has run out of ids.
[[nodiscard]] inline bool ids_left(const Show& show, std::size_t count) {
    return count <= std::numeric_limits<std::uint32_t>::max() - show.next_id;
}

template <class T, class IdOf>
[[nodiscard]] std::optional<std::size_t> index_of(const std::vector<T>& things, IdOf id) {
    const auto place =
        std::find_if(things.begin(), things.end(), [id](const T& thing) { return thing.id == id; });
    if (place == things.end()) {
        return std::nullopt;
    }
    return static_cast<std::size_t>(place - things.begin());
}

/// The ids in order, each once.
template <class IdOf>
[[nodiscard]] std::vector<IdOf> in_order(std::span<const IdOf> ids) {
    std::vector<IdOf> sorted(ids.begin(), ids.end());
    std::sort(sorted.begin(), sorted.end());
    sorted.erase(std::unique(sorted.begin(), sorted.end()), sorted.end());
    return sorted;
}

/// `thing` changed by `change`, if that makes a difference.
template <class T, class F>
void exchange(std::vector<Exchange<T>>& exchanges, const T& thing, F&& change) {
    T after = thing;
    change(after);
    if (after != thing) {
        exchanges.push_back({thing, std::move(after)});
    }
}

/// Adds the exchanges to the edit unless there are none.
template <class T>
void add_change(Edit& edit, SequenceId sequence, std::vector<Exchange<T>> exchanges) {
    if (!exchanges.empty()) {
        edit.changes.emplace_back(InSequence<T>{sequence, std::move(exchanges)});
    }
}

template <class T>
void add_change(Edit& edit, SequenceId sequence, T before, T after) {
    if (before != after) {
        edit.changes.emplace_back(Replacement<T>{sequence, std::move(before), std::move(after)});
    }
}

/// One step on one mark or clip: `change` is void(T&).
template <class T, class IdOf, class F>
Edit edit_one(const Show& show, SequenceId id, IdOf thing_id, std::string sentence, F&& change) {
    Edit edit{std::move(sentence), {}, 0};
    const Sequence* sequence = find(show, id);
    if (const T* thing = sequence ? find(*sequence, thing_id) : nullptr) {
        std::vector<Exchange<T>> exchanges;
        exchange(exchanges, *thing, change);
        add_change(edit, id, std::move(exchanges));
    }
    return edit;
}

[[nodiscard]] inline bool blank(std::string_view name) {
    return name.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

/// What a thing may be called that wants `wanted`: not blank, and no other's name among `things`.
template <class T, class IdOf>
[[nodiscard]] std::string name_among(const std::vector<T>& things, IdOf id, std::string_view wanted,
                                     std::string_view otherwise) {
    std::vector<std::string> taken;
    for (const T& thing : things) {
        if (thing.id != id) {
            taken.push_back(thing.name);
        }
    }
    return free_name(blank(wanted) ? otherwise : wanted, taken);
}

}  // namespace gasp
