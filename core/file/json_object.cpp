// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/json_object.hpp"

#include "core/file/json_trouble.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace gasp {

void UnknownMembers::add(Reading& reading, std::string_view key, const char* start, JsonValue& value) {
    const std::string_view text = reading.must(simdjson::to_json_string(value));
    // The library reads past what it is not asked for without judging it.
    if (const auto trouble = trouble_in(text)) {
        reading.stand_at(trouble->at ? text.data() + *trouble->at : start);
        reading.refuse(trouble->what, trouble->remedy);
    }
    members_.push_back({key, start, {start, static_cast<std::size_t>(text.data() + text.size() - start)}});
}

std::string UnknownMembers::text(Reading& reading, Reading::Step& step) const {
    if (members_.empty()) {
        return {};
    }
    std::vector<Unknown> sorted = members_;
    std::sort(sorted.begin(), sorted.end(), [](const Unknown& a, const Unknown& b) {
        return std::tie(a.key, a.start) < std::tie(b.key, b.start);
    });
    const auto twice = std::adjacent_find(sorted.begin(), sorted.end(),
                                          [](const Unknown& a, const Unknown& b) { return a.key == b.key; });
    if (twice != sorted.end()) {
        reading.stand_at((twice + 1)->start);
        step.at_key(twice->key);
        refuse_twice(reading);
    }
    std::string text;
    for (const Unknown& member : members_) {
        text += text.empty() ? "" : ", ";
        text += member.text;
    }
    return text;
}

void refuse_choice(const Reading& reading, std::string_view word, std::span<const std::string_view> words) {
    reading.refuse(fmt::format("\"{}\" is not one of the words for this", word),
                   fmt::format("Enter one of: {}", fmt::join(words, ", ")));
}

void refuse_missing(const Reading& reading, std::string_view key) {
    reading.refuse("this key is missing", fmt::format("Add \"{}\" to the object that begins here", key));
}

void refuse_twice(const Reading& reading) {
    reading.refuse("this key is there twice", "Take one of the two out");
}

std::size_t read_choice(const Reading& reading, JsonValue& value, std::span<const std::string_view> words) {
    const std::string word = reading.string(value);
    const auto found = std::find(words.begin(), words.end(), word);
    if (found == words.end()) {
        refuse_choice(reading, word, words);
    }
    return static_cast<std::size_t>(found - words.begin());
}

}  // namespace gasp
