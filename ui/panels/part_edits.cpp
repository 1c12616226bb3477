// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/part_edits.hpp"

#include "core/show/edits.hpp"

#include <algorithm>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

namespace gasp {
namespace {

template <class T>
std::string name_for(const std::vector<T>& list, std::string_view wanted) {
    std::vector<std::string> taken;
    for (const T& thing : list) {
        taken.push_back(thing.name);
    }
    return free_name(wanted, taken);
}

template <class T>
std::size_t place_of(const std::vector<T>& list, decltype(T::id) id) {
    const auto it = std::find_if(list.begin(), list.end(), [&](const T& thing) { return thing.id == id; });
    return static_cast<std::size_t>(it - list.begin());
}

/// The things of one kind: what they are called until they are named, where they stand, and their edits.
template <class T>
struct Listed {
    PartKind kind;
    std::string_view called;
    std::vector<T> Rig::*list;
    Edit (*add)(const Show&, T);
    Edit (*remove)(const Show&, decltype(T::id));

    [[nodiscard]] const std::vector<T>& of(const Show& show) const { return show.rig.*list; }
};

constexpr std::tuple listed{
    Listed<Actuator>{PartKind::actuator, "Actuator", &Rig::actuators, add_actuator, remove_actuator},
    Listed<Channel>{PartKind::channel, "Channel", &Rig::channels, add_channel, remove_channel},
    Listed<Board>{PartKind::board, "Board", &Rig::boards, add_board, remove_board},
    Listed<Supply>{PartKind::supply, "Supply", &Rig::supplies, add_supply, remove_supply},
};

/// What `make` gives of the listed things of that kind; no edit where the kind has but one.
template <class Make>
Edit edit_of(PartKind kind, Make make) {
    Edit edit;
    const auto take = [&](const auto& things) {
        if (things.kind == kind) {
            edit = make(things);
        }
    };
    std::apply([&](const auto&... each) { (take(each), ...); }, listed);
    return edit;
}

template <class T>
Edit moved(const std::vector<T>& list, decltype(T::id) id, int by) {
    const std::size_t from = place_of(list, id);
    const auto to = static_cast<std::ptrdiff_t>(from) + by;
    if (from >= list.size() || to < 0 || to >= static_cast<std::ptrdiff_t>(list.size())) {
        return {};
    }
    const T& thing = list[from];
    return {"move " + thing.name, {Exchange<T>{thing, thing, from, static_cast<std::size_t>(to)}}, 0};
}

/// The same board output would be used twice.
void part_from_original(Channel& twin) {
    twin.output.reset();
}

template <class T>
void part_from_original(T&) {}

}  // namespace

Edit add_part(const Show& show, PartKind kind) {
    return edit_of(kind, [&]<class T>(const Listed<T>& things) {
        T thing;
        thing.name = name_for(things.of(show), things.called);
        return things.add(show, std::move(thing));
    });
}

Edit duplicate_part(const Show& show, Part part) {
    return edit_of(part.kind, [&]<class T>(const Listed<T>& things) {
        const std::vector<T>& list = things.of(show);
        const std::size_t place = place_of(list, {part.id});
        if (place == list.size()) {
            return Edit{};
        }
        T twin = list[place];
        twin.name = name_for(list, twin.name);
        part_from_original(twin);
        return things.add(show, std::move(twin));
    });
}

Edit remove_part(const Show& show, Part part) {
    return edit_of(part.kind, [&](const auto& things) { return things.remove(show, {part.id}); });
}

Edit move_part(const Show& show, Part part, int by) {
    return edit_of(part.kind, [&](const auto& things) { return moved(things.of(show), {part.id}, by); });
}

std::optional<Part> part_put_by(const Edit& edit) {
    std::optional<Part> part;
    for (const Change& change : edit.changes) {
        const auto look = [&]<class T>(const Listed<T>& things) {
            if (const auto* exchange = std::get_if<Exchange<T>>(&change);
                exchange && exchange->after && !part) {
                part = Part{things.kind, exchange->after->id.value};
            }
        };
        std::apply([&](const auto&... each) { (look(each), ...); }, listed);
    }
    return part;
}

Edit named_after(Edit edit, const QString& label, const QString& part) {
    edit.sentence = QStringLiteral("set %1 of %2").arg(label.toLower(), part).toStdString();
    return edit;
}

}  // namespace gasp
