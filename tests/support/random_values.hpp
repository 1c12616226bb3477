// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edits.hpp"
#include "core/show/fields.hpp"
#include "core/show/limits.hpp"
#include "core/show/validity.hpp"
#include "tests/support/random_show.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <limits>

// What the random documents of random_show.cpp are made of.

namespace gasp::testing {

using std::string_view;

/// Whether what is made keeps to the rules of a valid document, or may be anything a caller could pass.
enum class Manner { valid, careless };

/// Each of 0 up to `end` as often as the other, whatever size RapidCheck has come to.
template <class T = int>
T below(T end) {
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange<T>(0, end));
}
inline bool chance() {
    return below(2) == 0;
}
inline bool one_in(int n) {
    return below(n) == 0;
}

template <class T>
const T& one_of(const std::vector<T>& things) {
    return things[static_cast<std::size_t>(below(static_cast<int>(things.size())))];
}

inline Micros random_time(Micros most = longest_sequence) {
    const std::int64_t end = std::min<std::int64_t>(most.count(), chance() ? 20'000'000 : most.count());
    return one_in(20) ? most : Micros{below<std::int64_t>(end + 1)};
}

/// Any moment, far beyond a day at times.
inline Micros careless_time() {
    switch (below(4)) {
        case 0:
            return Micros{*rc::gen::elementOf(
                std::vector<std::int64_t>{std::numeric_limits<std::int64_t>::max(),
                                          std::numeric_limits<std::int64_t>::min(), -1, 0, 1})};
        case 1:
            return -random_time();
        default:
            return random_time();
    }
}

inline double random_double(double least, double most) {
    constexpr int steps = 1 << 30;
    const double share = static_cast<double>(below(steps + 1)) / steps;
    return std::clamp(least + (most - least) * share, least, most);
}

inline double careless_double() {
    return *rc::gen::elementOf(std::vector<double>{-1e300, -1.0, -0.0, 1e9,
                                                   std::numeric_limits<double>::infinity(),
                                                   std::numeric_limits<double>::quiet_NaN()});
}

inline Figure random_figure(double least, double most, Manner manner) {
    switch (below(manner == Manner::careless ? 5 : 4)) {
        case 0:
            return std::nullopt;
        case 1:
            return *rc::gen::element(least, most);
        case 4:
            return careless_double();
        default:
            return random_double(least, most);
    }
}

inline std::string random_extra() {
    return one_in(4)
               ? *rc::gen::element<std::string>(R"("later": 1)", R"("later": "a \"b\" \u00e9")",
                                                R"("later": {"a": [1, 2.5, null], "b": {}}, "more": [])")
               : std::string();
}

/// Whatever fields.hpp says of T, and its `extra`.
template <class T>
void fill(T& part, Manner manner) {
    for (const ChoiceField<T>& field : fields<T>().choices) {
        field.set(part, static_cast<std::size_t>(below(static_cast<int>(field.keys.size()))));
    }
    for (const FigureField<T>& field : fields<T>().figures) {
        part.*field.member = random_figure(field.least, field.most, manner);
    }
    for (const TextField<T>& field : fields<T>().texts) {
        const std::string text = *random_text();
        part.*field.member = manner == Manner::careless || text_allowed(text) ? text : "grey";
    }
    part.extra = random_extra();
}

template <class T>
T random_part(Manner manner) {
    T part;
    fill(part, manner);
    return part;
}

template <class T>
inline std::string random_name(const std::vector<T>& things, Manner manner) {
    std::string wanted = *random_text();
    if (manner == Manner::careless) {
        return !things.empty() && one_in(3) ? one_of(things).name : wanted;
    }
    std::vector<std::string> taken;
    for (const T& thing : things) {
        taken.push_back(thing.name);
    }
    return free_name(wanted.find_first_not_of(" \t\r\n") == std::string::npos ? "thing" : wanted, taken);
}

/// The id of one of the things; of nothing at times when careless.
template <class T>
auto random_id(const std::vector<T>& things, Manner manner) {
    using IdOf = decltype(T{}.id);
    if (things.empty() || (manner == Manner::careless && one_in(5))) {
        return IdOf{*rc::gen::element<std::uint32_t>(0, 1, 4'000'000'000U)};
    }
    return one_of(things).id;
}

template <class T>
auto random_ids(const std::vector<T>& things) {
    std::vector<decltype(T{}.id)> ids;
    for (int count = below(6); count > 0; --count) {
        ids.push_back(random_id(things, Manner::careless));
    }
    return ids;
}

template <class T>
auto maybe_id(const std::vector<T>& things, Manner manner) -> std::optional<decltype(T{}.id)> {
    return chance() && (manner == Manner::careless || !things.empty())
               ? std::optional(random_id(things, manner))
               : std::nullopt;
}

}  // namespace gasp::testing
