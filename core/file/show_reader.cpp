// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/breach_place.hpp"
#include "core/file/file_text.hpp"
#include "core/file/format.hpp"
#include "core/file/json_object.hpp"
#include "core/file/rig_reader.hpp"
#include "core/file/sequence_reader.hpp"
#include "core/file/show_file.hpp"
#include "core/show/validity.hpp"

#include <fmt/format.h>

#include <limits>

namespace gasp {
namespace {

/// A show with what only the file says.
struct ShowDraft {
    Show show;
    std::optional<std::uint32_t> next_id;
};

void read_format(Reading& reading, JsonValue& value, ShowDraft&) {
    if (reading.string(value) != format_name) {
        reading.refuse("this is not a Gaspworks show", "Open a file that was saved by Gaspworks");
    }
}

void read_version(Reading& reading, JsonValue& value, ShowDraft&) {
    constexpr std::int64_t any = 1'000'000;
    const std::int64_t version = reading.integer(value, 1, any);
    if (version > newest_version) {
        reading.refuse(fmt::format("written by a newer Gaspworks, version {}; this one reads up to {}",
                                   version, newest_version),
                       "Open it with the Gaspworks that wrote it, or a later one");
    }
}

/// Reads the version before all else, wherever it stands: a later one may mean anything by the rest.
void check_version(Reading& reading, simdjson::ondemand::object& object) {
    JsonValue value;
    if (object.find_field_unordered("version").get(value) == simdjson::SUCCESS) {
        Reading::Step step(reading);
        step.at_key("version");
        reading.stand_at(reading.must(value.current_location()));
        ShowDraft unused;
        read_version(reading, value, unused);
    }
    reading.must(object.reset());
}

constexpr Member<NightPlan> night_members[]{
    {"groups_by_hour", false, &read_figures<NightPlan, &NightPlan::groups_by_hour>},
    {"arrivals_s", false, &read_figures<NightPlan, &NightPlan::arrivals_s>},
};

void read_night(Reading& reading, JsonValue& value, ShowDraft& draft) {
    NightPlan& night = draft.show.night;
    ObjectReader<NightPlan>(night_members, fields<NightPlan>())
        .read(reading, reading.object(value), night, night.extra);
}

constexpr Member<ShowDraft> show_members[]{
    {"format", true, &read_format},
    {"version", true, &read_version},
    {"name", false,
     [](Reading& reading, JsonValue& value, ShowDraft& draft) { draft.show.name = reading.string(value); }},
    {"next_id", false,
     [](Reading& reading, JsonValue& value, ShowDraft& draft) {
         draft.next_id =
             static_cast<std::uint32_t>(reading.integer(value, 1, std::numeric_limits<std::uint32_t>::max()));
     }},
    {"rig", false,
     [](Reading& reading, JsonValue& value, ShowDraft& draft) { read_rig(reading, value, draft.show.rig); }},
    {"sequences", false,
     [](Reading& reading, JsonValue& value, ShowDraft& draft) {
         read_list(reading, value, [&draft](Reading& inner, JsonValue& item) {
             read_sequence(inner, item, draft.show.sequences.emplace_back());
         });
     }},
    {"night", false, &read_night},
};

template <class T>
std::uint32_t above(const std::vector<T>& things, std::uint32_t next) {
    for (const T& thing : things) {
        next = std::max(next, thing.id.value + 1);
    }
    return next;
}

std::uint32_t above_all_ids(const Show& show) {
    std::uint32_t next = above(show.rig.actuators,
                               above(show.rig.channels, above(show.rig.boards, above(show.rig.supplies, 1))));
    next = above(show.sequences, next);
    for (const Sequence& sequence : show.sequences) {
        next = above(sequence.clips, above(sequence.marks, above(sequence.cues, next)));
    }
    return next;
}

Show read_document(Reading& reading, const simdjson::padded_string& text) {
    simdjson::ondemand::parser parser;
    auto document = reading.must(parser.iterate(text));
    auto object = reading.must(document.get_object());
    check_version(reading, object);
    reading.stand_at(text.data());
    ShowDraft draft;
    ObjectReader<ShowDraft>(show_members, {}).read(reading, object, draft, draft.show.extra);
    if (document.current_location().error() != simdjson::OUT_OF_BOUNDS) {
        reading.refuse_json();
    }
    draft.show.next_id = draft.next_id.value_or(above_all_ids(draft.show));
    return std::move(draft.show);
}

/// The breach with its place in the text.
Error placed(Error breach, const Reading& reading, const simdjson::padded_string& text, const Show& show) {
    if (const auto place = place_of_breach(text, show, breach.where)) {
        breach.where = reading.where(place->at, place->keys);
    } else {
        breach.where = reading.where(text.data(), breach.where);
    }
    return breach;
}

Result<Show> read_padded(const simdjson::padded_string& text, std::string_view name) {
    Reading reading(text, name);
    try {
        Show show = read_document(reading, text);
        if (std::vector<Error> wrong = breaches(show); !wrong.empty()) {
            return tl::unexpected(placed(std::move(wrong.front()), reading, text, show));
        }
        return show;
    } catch (const Refused& refused) {
        return tl::unexpected(refused.error);
    }
}

}  // namespace

Result<Show> read_show(std::string_view text, std::string_view name) {
    return read_padded(simdjson::padded_string(text), name);
}

Result<Show> load_show(const std::filesystem::path& path) {
    const auto text = file_text(path);
    if (!text) {
        return tl::unexpected(text.error());
    }
    return read_padded(*text, path.string());
}

}  // namespace gasp
