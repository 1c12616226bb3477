// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/blanks.hpp"

#include "core/checks/wording.hpp"

namespace gasp {

void Blanks::add(const Channel& channel) {
    if (names_.empty()) {
        first_.channel = channel.id;
    }
    names_.push_back(quoted(channel.name));
}

void Blanks::add(const Supply& supply) {
    if (names_.empty()) {
        first_.supply = supply.id;
    }
    names_.push_back("supply " + quoted(supply.name));
}

void Blanks::put(std::vector<Finding>& findings) const {
    if (names_.empty()) {
        return;
    }
    Place place = first_;
    place.field = field_;
    findings.push_back(not_checked(check_, label_ + " of " + listed(names_), place));
}

}  // namespace gasp
