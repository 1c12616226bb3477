// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/fields.hpp"

// What the tables of fields are made with. Nobody outside core/show includes this.

namespace gasp {

template <class T, class E, E T::*member>
std::size_t get_choice(const T& part) {
    return static_cast<std::size_t>(part.*member);
}

template <class T, class E, E T::*member>
void set_choice(T& part, std::size_t value) {
    part.*member = static_cast<E>(value);
}

template <class T, class E, E T::*member>
constexpr ChoiceField<T> choice(std::string_view key, std::string_view label,
                                std::span<const std::string_view> keys,
                                std::span<const std::string_view> labels, std::string_view help) {
    return {key, label, keys, labels, &get_choice<T, E, member>, &set_choice<T, E, member>, help};
}

}  // namespace gasp
