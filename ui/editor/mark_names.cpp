// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/mark_names.hpp"

namespace gasp {

MarkNames::MarkNames(const Sequence& sequence) {
    for (const Mark& mark : sequence.marks) {
        taken_.insert(mark.name);
    }
}

std::string MarkNames::next(const std::string& stem) {
    for (std::size_t number = 1;; ++number) {
        std::string name = stem + " " + std::to_string(number);
        if (taken_.insert(name).second) {
            return name;
        }
    }
}

std::string next_mark_name(const Sequence& sequence) {
    return MarkNames(sequence).next("Mark");
}

}  // namespace gasp
