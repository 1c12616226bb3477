// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"

namespace gasp {
namespace {

constexpr std::string_view name = "supply_loop";

}  // namespace

std::vector<Finding> check_supply_loop(const CheckInput& input) {
    std::vector<Finding> findings;
    for (std::size_t place = 0; place < input.show.rig.supplies.size(); ++place) {
        const Supply& supply = input.show.rig.supplies[place];
        if (input.run.power.model.supplies[place].in_loop) {
            findings.push_back(about(supply, name, Severity::stop, "fed_from"));
            findings.back().what = "Supply " + quoted(supply.name) +
                                   " is fed from itself, or from supplies that feed each other in a ring";
            findings.back().remedy = "Choose what feeds it anew, or leave that blank";
        }
    }
    return findings;
}

}  // namespace gasp
