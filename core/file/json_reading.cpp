// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/json_reading.hpp"

#include "core/file/json_trouble.hpp"
#include "core/show/validity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace gasp {
namespace {

/// What a value beginning like this is, in words.
std::string_view type_words(char first) {
    switch (first) {
        case '{':
            return "an object";
        case '[':
            return "a list";
        case '"':
            return "text";
        case 't':
        case 'f':
            return "true or false";
        case 'n':
            return "null";
        default:
            return "a number";
    }
}

}  // namespace

void Reading::refuse(std::string what, std::string remedy) const {
    refuse_at(here_, std::move(what), std::move(remedy));
}

void Reading::refuse_json() const {
    if (const auto trouble = trouble_in(text_)) {
        refuse_at(trouble->at ? text_.data() + *trouble->at : here_, trouble->what, trouble->remedy);
    }
    refuse("a show file holds one JSON object, and this is something else",
           "Open a file that was saved by Gaspworks");
}

void Reading::refuse_at(const char* place, std::string what, std::string remedy) const {
    std::string keys;
    for (const PathStep& step : path_) {
        if (step.index) {
            keys += fmt::format("[{}]", *step.index);
        } else if (!step.key.empty()) {
            keys += (keys.empty() ? "" : ".") + std::string(step.key);
        }
    }
    throw Refused{{std::move(what), where(place, keys), std::move(remedy)}};
}

std::string Reading::where(const char* place, std::string_view keys) const {
    const auto line = 1 + std::count(text_.data(), place, '\n');
    return fmt::format("{}:{}{}{}", name_, line, keys.empty() ? "" : ": ", keys);
}

char Reading::first_of(JsonValue& value) const {
    return *must(value.current_location());
}

bool Reading::is_number(JsonValue& value) const {
    const char first = first_of(value);
    return first == '-' || (first >= '0' && first <= '9');
}

void Reading::refuse_type(JsonValue& value, std::string_view wanted) const {
    const char first = first_of(value);
    if (std::string_view("{[\"tfn-0123456789").find(first) == std::string_view::npos) {
        refuse_json();
    }
    refuse(fmt::format("this must be {}, not {}", wanted, type_words(first)),
           first == 'n' ? fmt::format("Enter {}, or leave the key out where it may be blank", wanted)
                        : fmt::format("Enter {}", wanted));
}

double Reading::figure(JsonValue& value) const {
    if (!is_number(value)) {
        refuse_type(value, "a number");
    }
    return must(value.get_double());
}

std::int64_t Reading::integer(JsonValue& value, std::int64_t least, std::int64_t most) const {
    if (!is_number(value)) {
        refuse_type(value, "a whole number");
    }
    const std::string_view written = value.raw_json_token();
    std::int64_t number = 0;
    if (value.get_int64().get(number) == simdjson::SUCCESS && number >= least && number <= most) {
        return number;
    }
    if (trouble_in(text_)) {
        refuse_json();
    }
    constexpr std::size_t shown = 24;
    refuse(fmt::format("{} is not a whole number from {} to {}",
                       written.substr(0, std::min(written.find_first_of(" \t\r\n"), shown)), least, most),
           "Enter one, without point or exponent");
}

std::uint32_t Reading::id(JsonValue& value) const {
    return static_cast<std::uint32_t>(integer(value, 1, std::numeric_limits<std::uint32_t>::max() - 1));
}

Micros Reading::time(JsonValue& value) const {
    constexpr std::int64_t longest = std::chrono::duration_cast<Micros>(longest_sequence).count();
    return Micros(integer(value, -longest, longest));
}

bool Reading::truth(JsonValue& value) const {
    if (first_of(value) != 't' && first_of(value) != 'f') {
        refuse_type(value, "true or false");
    }
    return must(value.get_bool());
}

std::string Reading::string(JsonValue& value) const {
    if (first_of(value) != '"') {
        refuse_type(value, "text");
    }
    const std::string_view text = must(value.get_string());
    if (text.find('\0') != std::string_view::npos) {
        refuse("this text holds a NUL character", "Take the NUL character out of the text");
    }
    return std::string(text);
}

simdjson::ondemand::object Reading::object(JsonValue& value) const {
    if (first_of(value) != '{') {
        refuse_type(value, "an object");
    }
    return must(value.get_object());
}

simdjson::ondemand::array Reading::array(JsonValue& value) const {
    if (first_of(value) != '[') {
        refuse_type(value, "a list");
    }
    return must(value.get_array());
}

}  // namespace gasp
