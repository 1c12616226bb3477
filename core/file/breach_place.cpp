// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/breach_place.hpp"

#include "core/show/fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <vector>

namespace gasp {
namespace {

namespace od = simdjson::ondemand;

/// A member of an object, or where an index or an id is given, an item of the list that is that member.
struct Step {
    std::string_view key;
    std::optional<std::size_t> index = std::nullopt;
    std::optional<std::uint32_t> id = std::nullopt;
};

using Steps = std::vector<Step>;

/// What follows `beginning` in `where`; empty when it begins otherwise.
std::string_view after(std::string_view where, std::string_view beginning) {
    return where.starts_with(beginning) ? where.substr(beginning.size()) : std::string_view();
}

template <class Thing>
std::string_view key_of(std::string_view where, std::string_view kind, const Thing& thing) {
    return after(where, thing.name.empty() ? fmt::format("{} {}: ", kind, thing.id.value)
                                           : fmt::format("{} \"{}\": ", kind, thing.name));
}

/// Steps to a field of a thing in one of the lists of the rig, or of a sequence.
template <class Thing>
Steps steps_to_thing(std::string_view where, std::string_view kind, const std::vector<Thing>& things,
                     Steps steps, std::string_view list) {
    for (std::size_t i = things.size(); i-- > 0;) {
        if (const std::string_view key = key_of(where, kind, things[i]); !key.empty()) {
            steps.insert(steps.end(), {{list, i}, {key}});
            return steps;
        }
    }
    return {};
}

Steps steps_to_only(std::string_view where) {
    constexpr std::pair<std::string_view, std::string_view> parts[]{
        {"air plant: ", "air_plant"}, {"sensor: ", "sensor"}, {"speaker: ", "speaker"}};
    if (const std::string_view key = after(where, "night: "); !key.empty()) {
        return {{"night"}, {key}};
    }
    for (const auto& [beginning, part] : parts) {
        if (const std::string_view key = after(where, beginning); !key.empty()) {
            return {{"rig"}, {part}, {key}};
        }
    }
    return where == "sequences" ? Steps{{"sequences"}} : Steps{};
}

/// Steps to a field of a part of a thing in one of the lists of the rig.
template <class Thing>
Steps steps_to_part(std::string_view where, std::string_view part, std::string_view kind,
                    const std::vector<Thing>& things, std::string_view list) {
    const std::string_view of = after(where, fmt::format("{} of ", part));
    Steps steps = of.empty() ? Steps{} : steps_to_thing(of, kind, things, {{"rig"}}, list);
    if (!steps.empty()) {
        steps.insert(steps.end() - 1, {part});
    }
    return steps;
}

Steps steps_to_part(std::string_view where, const Rig& rig) {
    Steps steps = steps_to_part(where, "circuit", "channel", rig.channels, "channels");
    for_each_actuator_part([&](std::string_view part, auto, auto) {
        if (steps.empty()) {
            steps = steps_to_part(where, part, "actuator", rig.actuators, "actuators");
        }
    });
    return steps;
}

/// Clips, marks and cues are named by their ids, for in the text they may stand in any order.
Steps steps_in_sequence(std::string_view where, const std::vector<Sequence>& sequences) {
    constexpr std::pair<std::string_view, std::string_view> lists[]{
        {"clip ", "clips"}, {"mark ", "marks"}, {"cue ", "cues"}};
    for (const auto& [beginning, list] : lists) {
        const std::string_view rest = after(where, beginning);
        std::uint32_t id = 0;
        const auto number = std::from_chars(rest.data(), rest.data() + rest.size(), id);
        if (rest.empty() || number.ec != std::errc()) {
            continue;
        }
        const std::string_view of = rest.substr(static_cast<std::size_t>(number.ptr - rest.data()));
        for (std::size_t i = sequences.size(); i-- > 0;) {
            if (const std::string_view key =
                    after(of, fmt::format(" of sequence \"{}\": ", sequences[i].name));
                !key.empty()) {
                return {{"sequences", i}, {list, std::nullopt, id}, {key}};
            }
        }
    }
    return {};
}

Steps steps_to(std::string_view where, const Show& show) {
    const Rig& rig = show.rig;
    for (Steps steps :
         {steps_to_only(where), steps_to_part(where, rig), steps_in_sequence(where, show.sequences),
          steps_to_thing(where, "actuator", rig.actuators, {{"rig"}}, "actuators"),
          steps_to_thing(where, "channel", rig.channels, {{"rig"}}, "channels"),
          steps_to_thing(where, "board", rig.boards, {{"rig"}}, "boards"),
          steps_to_thing(where, "supply", rig.supplies, {{"rig"}}, "supplies"),
          steps_to_thing(where, "sequence", show.sequences, {}, "sequences")}) {
        if (!steps.empty()) {
            return steps;
        }
    }
    return {};
}

/// The index of the last item of the list that has this id.
std::optional<std::size_t> index_of(od::array list, std::uint32_t id) {
    std::optional<std::size_t> found;
    std::size_t index = 0;
    for (auto item : list) {
        std::uint64_t number = 0;
        if (item["id"].get(number) == simdjson::SUCCESS && number == id) {
            found = index;
        }
        ++index;
    }
    return found;
}

/// Walks into the text; `place` is left where the walk ends, which is short of the end when a key is not
/// there.
void walk(od::value value, const Steps& steps, TextPlace& place) {
    for (const Step& step : steps) {
        const char* at = nullptr;
        if (value[step.key].get(value) != simdjson::SUCCESS ||
            value.current_location().get(at) != simdjson::SUCCESS) {
            return;
        }
        place.at = at;
        place.keys += (place.keys.empty() ? "" : ".") + std::string(step.key);
        std::optional<std::size_t> index = step.index;
        od::array list;
        if (step.id) {
            if (value.get_array().get(list) != simdjson::SUCCESS) {
                return;
            }
            index = index_of(list, *step.id);
            static_cast<void>(list.reset());
        } else if (index && value.get_array().get(list) != simdjson::SUCCESS) {
            return;
        }
        if (!index) {
            continue;
        }
        if (list.at(*index).get(value) != simdjson::SUCCESS ||
            value.current_location().get(at) != simdjson::SUCCESS) {
            return;
        }
        place.at = at;
        place.keys += fmt::format("[{}]", *index);
    }
}

}  // namespace

std::optional<TextPlace> place_of_breach(const simdjson::padded_string& text, const Show& show,
                                         std::string_view where) {
    const Steps steps = steps_to(where, show);
    od::parser parser;
    od::document document;
    od::value root;
    TextPlace place{text.data(), {}};
    if (steps.empty() || parser.iterate(text).get(document) != simdjson::SUCCESS ||
        document.get_value().get(root) != simdjson::SUCCESS) {
        return std::nullopt;
    }
    walk(root, steps, place);
    return place;
}

}  // namespace gasp
