// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"
#include "core/units/time.hpp"

#include <simdjson.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

using JsonValue = simdjson::ondemand::value;

/// Thrown by Reading when the text cannot be a show, caught by read_show: it never leaves this folder.
struct Refused {
    Error error;
};

/// The text being read, and the place in it that is looked at: every error names its line and its key path.
class Reading {
  public:
    /// `name` is what errors call the text. Both must outlive the reading.
    Reading(std::string_view text, std::string_view name) : text_(text), name_(name), here_(text.data()) {}

    /// Where the reading stands: a key, or an item of a list.
    void stand_at(const char* place) { here_ = place; }
    [[nodiscard]] const char* place() const { return here_; }

    [[noreturn]] void refuse(std::string what, std::string remedy) const;
    /// A place as errors name it: "<name>:<line>: <key path>".
    [[nodiscard]] std::string where(const char* place, std::string_view keys) const;
    /// For a text that the JSON library stumbles over.
    [[noreturn]] void refuse_json() const;

    /// The value of what the library gave; refuses its errors.
    template <class T>
    T must(simdjson::simdjson_result<T> result) const {
        T value{};
        if (std::move(result).get(value) != simdjson::SUCCESS) {
            refuse_json();
        }
        return value;
    }

    // The value, or a refusal that says what it must be. What a show may hold is for breaches() to judge.
    double figure(JsonValue& value) const;
    std::int64_t integer(JsonValue& value, std::int64_t least, std::int64_t most) const;
    std::uint32_t id(JsonValue& value) const;
    Micros time(JsonValue& value) const;
    bool truth(JsonValue& value) const;
    std::string string(JsonValue& value) const;
    simdjson::ondemand::object object(JsonValue& value) const;
    simdjson::ondemand::array array(JsonValue& value) const;

    /// A step of the key path, for as long as it lives.
    class Step {
      public:
        explicit Step(Reading& reading) : reading_(reading) { reading_.path_.emplace_back(); }
        ~Step() { reading_.path_.pop_back(); }
        Step(const Step&) = delete;
        Step& operator=(const Step&) = delete;

        void at_key(std::string_view key) { reading_.path_.back() = {key, {}}; }
        void at_item(std::size_t index) { reading_.path_.back() = {{}, index}; }

      private:
        Reading& reading_;
    };

  private:
    struct PathStep {
        std::string_view key;
        std::optional<std::size_t> index;  ///< of an item of a list, instead of the key
    };

    [[noreturn]] void refuse_at(const char* place, std::string what, std::string remedy) const;
    [[noreturn]] void refuse_type(JsonValue& value, std::string_view wanted) const;
    /// The first character of the value, which tells its type.
    char first_of(JsonValue& value) const;
    bool is_number(JsonValue& value) const;

    std::string_view text_;
    std::string_view name_;
    const char* here_;
    std::vector<PathStep> path_;
};

}  // namespace gasp
