// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/show/rig.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace gasp {

/// A blank input of many parts of one kind, said in one finding: "Not checked: no wire size of "lamp", "fan"
/// and 3 more". Its place is the first of them.
class Blanks {
  public:
    /// `label` as in "no wire size"; `field` the key path of the field.
    Blanks(std::string_view check, std::string_view label, std::string_view field)
        : check_(check), label_(label), field_(field) {}

    void add(const Channel& channel);
    void add(const Supply& supply);
    /// Appends the finding, if anything was added.
    void put(std::vector<Finding>& findings) const;

  private:
    std::string_view check_;
    std::string label_;
    std::string field_;
    std::vector<std::string> names_;
    Place first_;
};

}  // namespace gasp
