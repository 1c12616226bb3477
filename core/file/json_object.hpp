// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/file/json_reading.hpp"
#include "core/show/fields.hpp"

#include <bitset>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

/// A member of an object that is not among the fields of core/show/fields.hpp.
template <class T>
struct Member {
    std::string_view key;
    bool required;
    void (*read)(Reading&, JsonValue&, T&);
};

/// The members of one object that this version does not know: each kept as it stands in the text.
class UnknownMembers {
  public:
    /// `start` is the opening quote of its key; the reading stands there.
    void add(Reading& reading, std::string_view key, const char* start, JsonValue& value);
    /// All of them as JSON text; refuses a key that is there twice.
    [[nodiscard]] std::string text(Reading& reading, Reading::Step& step) const;

  private:
    struct Unknown {
        std::string_view key;
        const char* start;
        std::string_view text;
    };
    std::vector<Unknown> members_;
};

[[noreturn]] void refuse_choice(const Reading& reading, std::string_view word,
                                std::span<const std::string_view> words);
[[noreturn]] void refuse_missing(const Reading& reading, std::string_view key);
[[noreturn]] void refuse_twice(const Reading& reading);

/// The place of a word among the words it may be.
[[nodiscard]] std::size_t read_choice(const Reading& reading, JsonValue& value,
                                      std::span<const std::string_view> words);

/// Reads one object into `part`: members of its own, then choices, figures and texts, in whatever order they
/// stand in the text; what is none of them goes to `extra`.
template <class T>
class ObjectReader {
  public:
    ObjectReader(std::span<const Member<T>> own, const Fields<T>& fields) : own_(own), fields_(fields) {}

    void read(Reading& reading, simdjson::ondemand::object object, T& part, std::string& extra) const {
        const char* const opening = reading.place();
        Reading::Step step(reading);
        std::bitset<most_members> seen;
        std::size_t expected = 0;
        UnknownMembers unknown;
        for (auto result : object) {
            simdjson::ondemand::field field = reading.must(std::move(result));
            const char* const start = field.key().raw() - 1;
            reading.stand_at(start);
            std::size_t index = index_of(field.key(), expected);
            std::string_view key = index < size() ? key_at(index) : std::string_view();
            if (index == size()) {
                key = reading.must(field.unescaped_key());
                index = index_of(key);
            }
            step.at_key(key);
            if (index == size()) {
                unknown.add(reading, key, start, field.value());
                continue;
            }
            if (seen[index]) {
                refuse_twice(reading);
            }
            seen.set(index);
            read_member(reading, index, field.value(), part);
            expected = index + 1;
        }
        reading.stand_at(opening);
        refuse_absent(reading, step, seen);
        extra = unknown.text(reading, step);
    }

  private:
    static constexpr std::size_t most_members = 32;

    [[nodiscard]] std::size_t size() const {
        return own_.size() + fields_.choices.size() + fields_.figures.size() + fields_.texts.size();
    }

    [[nodiscard]] std::string_view key_at(std::size_t index) const {
        if (index < own_.size()) {
            return own_[index].key;
        }
        index -= own_.size();
        if (index < fields_.choices.size()) {
            return fields_.choices[index].key;
        }
        index -= fields_.choices.size();
        return index < fields_.figures.size() ? fields_.figures[index].key
                                              : fields_.texts[index - fields_.figures.size()].key;
    }

    /// Looks from the member after the last one on, for that is where the writer put it. size() when there is
    /// none.
    [[nodiscard]] std::size_t index_of(simdjson::ondemand::raw_json_string key, std::size_t expected) const {
        for (std::size_t step = 0; step < size(); ++step) {
            const std::size_t sum = expected + step;
            const std::size_t index = sum < size() ? sum : sum - size();
            if (key.unsafe_is_equal(key_at(index))) {
                return index;
            }
        }
        return size();
    }

    /// For a key that may have been written with escapes.
    [[nodiscard]] std::size_t index_of(std::string_view key) const {
        std::size_t index = 0;
        while (index < size() && key_at(index) != key) {
            ++index;
        }
        return index;
    }

    void read_member(Reading& reading, std::size_t index, JsonValue& value, T& part) const {
        if (index < own_.size()) {
            own_[index].read(reading, value, part);
            return;
        }
        index -= own_.size();
        if (index < fields_.choices.size()) {
            const ChoiceField<T>& field = fields_.choices[index];
            field.set(part, read_choice(reading, value, field.keys));
            return;
        }
        index -= fields_.choices.size();
        if (index < fields_.figures.size()) {
            part.*fields_.figures[index].member = reading.figure(value);
            return;
        }
        part.*fields_.texts[index - fields_.figures.size()].member = reading.string(value);
    }

    void refuse_absent(const Reading& reading, Reading::Step& step,
                       const std::bitset<most_members>& seen) const {
        for (std::size_t index = 0; index < own_.size(); ++index) {
            if (own_[index].required && !seen[index]) {
                step.at_key(own_[index].key);
                refuse_missing(reading, own_[index].key);
            }
        }
    }

    std::span<const Member<T>> own_;
    Fields<T> fields_;
};

/// A part that is nothing but choices, figures and texts.
template <class T>
void read_part(Reading& reading, JsonValue& value, T& part) {
    ObjectReader<T>({}, fields<T>()).read(reading, reading.object(value), part, part.extra);
}

/// Calls `read_item(reading, value)` for each item of a list.
template <class ReadItem>
void read_list(Reading& reading, JsonValue& value, const ReadItem& read_item) {
    auto array = reading.array(value);
    Reading::Step step(reading);
    std::size_t index = 0;
    for (auto result : array) {
        JsonValue item = reading.must(std::move(result));
        step.at_item(index++);
        reading.stand_at(reading.must(item.current_location()));
        read_item(reading, item);
    }
}

/// A list of figures that is a member of `part`.
template <class T, std::vector<double> T::*member>
void read_figures(Reading& reading, JsonValue& value, T& part) {
    read_list(reading, value,
              [&part](Reading& inner, JsonValue& item) { (part.*member).push_back(inner.figure(item)); });
}

}  // namespace gasp
