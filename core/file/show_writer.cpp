// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/atomic_write.hpp"
#include "core/file/format.hpp"
#include "core/file/json_text.hpp"
#include "core/file/show_file.hpp"
#include "core/show/fields.hpp"
#include "core/show/validity.hpp"

#include <fmt/format.h>
#include <simdjson.h>

namespace gasp {
namespace {

constexpr Layout show_layout{"{\n  ", ",\n  ", "\n}\n"};
constexpr Layout rig_layout{"{\n    ", ",\n    ", "\n  }"};
constexpr Layout rig_list_layout{"[\n      ", ",\n      ", "\n    ]"};
constexpr Layout sequences_layout{"[\n    ", ",\n    ", "\n  ]"};
constexpr Layout sequence_layout{"{\n      ", ",\n      ", "\n    }"};
constexpr Layout sequence_list_layout{"[\n        ", ",\n        ", "\n      ]"};

template <class T>
void put_choices(JsonItems& object, const T& part) {
    for (const ChoiceField<T>& field : fields<T>().choices) {
        object.string(field.key, field.keys[field.get(part)]);
    }
}

template <class T>
void put_figures(JsonItems& object, const T& part) {
    for (const FigureField<T>& field : fields<T>().figures) {
        if (const Figure& figure = part.*field.member) {
            object.number(field.key, *figure);
        }
    }
}

template <class T>
void put_texts(JsonItems& object, const T& part) {
    for (const TextField<T>& field : fields<T>().texts) {
        if (const std::string& line = part.*field.member; !line.empty()) {
            object.string(field.key, line);
        }
    }
}

/// A part that is nothing but choices and figures.
template <class T>
void put_part(JsonText& text, JsonItems& whole, std::string_view key, const T& part) {
    whole.key(key);
    JsonItems object(text, object_in_a_line);
    put_choices(object, part);
    put_figures(object, part);
    object.extra(part.extra);
    object.close();
}

void put_points(JsonText& text, JsonItems& linkage, const std::vector<LinkagePoint>& points) {
    linkage.key("points_mm_deg");
    JsonItems list(text, list_in_a_line);
    for (const LinkagePoint& point : points) {
        list.next();
        JsonItems pair(text, list_in_a_line);
        pair.next();
        text.number(point.travel_mm);
        pair.next();
        text.number(point.arm_deg);
        pair.close();
    }
    list.close();
}

/// A linkage has a list beside its choices and figures.
void put_part(JsonText& text, JsonItems& whole, std::string_view key, const Linkage& linkage) {
    whole.key(key);
    JsonItems object(text, object_in_a_line);
    if (!linkage.points.empty()) {
        put_points(text, object, linkage.points);
    }
    put_choices(object, linkage);
    put_figures(object, linkage);
    object.extra(linkage.extra);
    object.close();
}

void put_numbers(JsonText& text, JsonItems& whole, std::string_view key, const std::vector<double>& numbers) {
    if (numbers.empty()) {
        return;
    }
    whole.key(key);
    JsonItems list(text, list_in_a_line);
    for (const double number : numbers) {
        list.next();
        text.number(number);
    }
    list.close();
}

void put_part(JsonText& text, JsonItems& whole, std::string_view key, const Fit& fit) {
    whole.key(key);
    JsonItems object(text, object_in_a_line);
    put_numbers(text, object, "out_ms", fit.out_ms);
    put_numbers(text, object, "back_ms", fit.back_ms);
    put_figures(object, fit);
    object.extra(fit.extra);
    object.close();
}

void put_item(JsonText& text, const Actuator& actuator) {
    JsonItems object(text, object_in_a_line);
    object.integer("id", actuator.id.value);
    object.string("name", actuator.name);
    for_each_actuator_part(
        [&](std::string_view key, auto, auto member) { put_part(text, object, key, actuator.*member); });
    object.extra(actuator.extra);
    object.close();
}

void put_excludes(JsonText& text, JsonItems& channel, const std::vector<ChannelId>& excludes) {
    channel.key("excludes");
    JsonItems list(text, list_in_a_line);
    for (const ChannelId other : excludes) {
        list.next();
        text.number(other.value);
    }
    list.close();
}

void put_id(JsonItems& object, std::string_view key, const std::optional<SupplyId>& supply) {
    if (supply) {
        object.integer(key, supply->value);
    }
}

void put_part(JsonText& text, JsonItems& whole, std::string_view key, const Circuit& circuit) {
    whole.key(key);
    JsonItems object(text, object_in_a_line);
    put_id(object, "supply", circuit.supply);
    put_id(object, "returns_to", circuit.returns_to);
    put_choices(object, circuit);
    put_figures(object, circuit);
    put_texts(object, circuit);
    object.extra(circuit.extra);
    object.close();
}

void put_item(JsonText& text, const Channel& channel) {
    JsonItems object(text, object_in_a_line);
    object.integer("id", channel.id.value);
    object.string("name", channel.name);
    if (channel.board) {
        object.integer("board", channel.board->value);
    }
    if (channel.output) {
        object.integer("output", *channel.output);
    }
    if (channel.actuator) {
        object.integer("actuator", channel.actuator->value);
    }
    if (!channel.excludes.empty()) {
        put_excludes(text, object, channel.excludes);
    }
    if (channel.circuit != Circuit{}) {
        put_part(text, object, "circuit", channel.circuit);
    }
    put_choices(object, channel);
    put_figures(object, channel);
    object.extra(channel.extra);
    object.close();
}

void put_item(JsonText& text, const Board& board) {
    JsonItems object(text, object_in_a_line);
    object.integer("id", board.id.value);
    object.string("name", board.name);
    put_choices(object, board);
    put_figures(object, board);
    object.extra(board.extra);
    object.close();
}

void put_item(JsonText& text, const Supply& supply) {
    JsonItems object(text, object_in_a_line);
    object.integer("id", supply.id.value);
    object.string("name", supply.name);
    put_id(object, "fed_from", supply.fed_from);
    put_choices(object, supply);
    put_figures(object, supply);
    object.extra(supply.extra);
    object.close();
}

void put_item(JsonText& text, const SoundClip& clip) {
    JsonItems object(text, object_in_a_line);
    object.integer("id", clip.id.value);
    object.string("file", clip.file);
    if (!clip.content.empty()) {
        object.string("content", clip.content);
    }
    object.integer("file_length_us", clip.file_length.count());
    object.integer("start_us", clip.start.count());
    object.integer("from_us", clip.from.count());
    object.integer("length_us", clip.length.count());
    object.number("gain_db", clip.gain_db);
    if (clip.lane != 1) {
        object.integer("lane", clip.lane);
    }
    if (clip.fade_in != Micros{0}) {
        object.integer("fade_in_us", clip.fade_in.count());
    }
    if (clip.fade_out != Micros{0}) {
        object.integer("fade_out_us", clip.fade_out.count());
    }
    object.extra(clip.extra);
    object.close();
}

void put_item(JsonText& text, const Mark& mark) {
    JsonItems object(text, object_in_a_line);
    object.integer("id", mark.id.value);
    object.string("name", mark.name);
    object.integer("time_us", mark.time.count());
    object.extra(mark.extra);
    object.close();
}

void put_item(JsonText& text, const Cue& cue) {
    JsonItems object(text, object_in_a_line);
    object.integer("id", cue.id.value);
    object.integer("channel", cue.channel.value);
    if (cue.mark) {
        object.integer("mark", cue.mark->value);
        object.integer("offset_us", cue.at.count());
    } else {
        object.integer("start_us", cue.at.count());
    }
    object.integer("length_us", cue.length.count());
    if (cue.flashes) {
        object.number("rate_hz", cue.flashes->rate_hz);
        object.number("duty_percent", cue.flashes->duty_percent);
    }
    if (cue.strikes) {
        object.truth("strikes", true);
    }
    if (cue.from_voice) {
        object.truth("from_voice", true);
    }
    if (cue.freedom != Micros{0}) {
        object.integer("freedom_us", cue.freedom.count());
    }
    if (!cue.name.empty()) {
        object.string("name", cue.name);
    }
    object.extra(cue.extra);
    object.close();
}

void put_item(JsonText& text, const Sequence& sequence);

/// A list with one item a line.
template <class T>
void put_list(JsonText& text, JsonItems& whole, std::string_view key, const std::vector<T>& items,
              const Layout& layout) {
    whole.key(key);
    JsonItems list(text, layout);
    for (const T& item : items) {
        list.next();
        put_item(text, item);
    }
    list.close();
}

void put_item(JsonText& text, const Sequence& sequence) {
    JsonItems object(text, sequence_layout);
    object.integer("id", sequence.id.value);
    object.string("name", sequence.name);
    object.string("kind", sequence_kind_keys()[static_cast<std::size_t>(sequence.kind)]);
    object.integer("length_us", sequence.length.count());
    if (sequence.trigger_after_s) {
        object.number("trigger_after_s", *sequence.trigger_after_s);
    }
    put_list(text, object, "clips", sequence.clips, sequence_list_layout);
    put_list(text, object, "marks", sequence.marks, sequence_list_layout);
    put_list(text, object, "cues", sequence.cues, sequence_list_layout);
    object.extra(sequence.extra);
    object.close();
}

void put_rig(JsonText& text, JsonItems& show, const Rig& rig) {
    show.key("rig");
    JsonItems object(text, rig_layout);
    put_part(text, object, "air_plant", rig.air_plant);
    put_list(text, object, "actuators", rig.actuators, rig_list_layout);
    put_list(text, object, "channels", rig.channels, rig_list_layout);
    put_list(text, object, "boards", rig.boards, rig_list_layout);
    put_list(text, object, "supplies", rig.supplies, rig_list_layout);
    put_part(text, object, "sensor", rig.sensor);
    put_part(text, object, "speaker", rig.speaker);
    object.extra(rig.extra);
    object.close();
}

void put_night(JsonText& text, JsonItems& show, const NightPlan& night) {
    show.key("night");
    JsonItems object(text, object_in_a_line);
    put_numbers(text, object, "groups_by_hour", night.groups_by_hour);
    put_numbers(text, object, "arrivals_s", night.arrivals_s);
    put_figures(object, night);
    object.extra(night.extra);
    object.close();
}

}  // namespace

std::string write_show(const Show& show) {
    JsonText text;
    JsonItems object(text, show_layout);
    object.string("format", format_name);
    object.integer("version", newest_version);
    object.string("name", show.name);
    object.integer("next_id", show.next_id);
    put_rig(text, object, show.rig);
    put_list(text, object, "sequences", show.sequences, sequences_layout);
    put_night(text, object, show.night);
    object.extra(show.extra);
    object.close();
    return text.take();
}

Result<std::string> savable_text(const Show& show, std::string_view name) {
    if (std::vector<Error> wrong = breaches(show); !wrong.empty()) {
        Error& first = wrong.front();
        first.where = fmt::format("{}: {}", name, first.where);
        return tl::unexpected(std::move(first));
    }
    std::string text = write_show(show);
    if (!simdjson::validate_utf8(text)) {
        return fail("a name in the show is not UTF-8", std::string(name), "Enter the name anew");
    }
    return text;
}

Result<void> save_show(const Show& show, const std::filesystem::path& path) {
    // What cannot be loaded again must not replace what can.
    const Result<std::string> text = savable_text(show, path.string());
    return text ? atomic_write(path, *text) : tl::unexpected(text.error());
}

}  // namespace gasp
