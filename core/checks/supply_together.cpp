// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/supply_together.hpp"

#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"
#include "core/schedule/circuit_advice.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

MicroAmps most_of(std::span<const RunPeaks> runs, std::vector<MicroAmps> RunPeaks::*kind,
                  std::size_t supply) {
    MicroAmps most = 0;
    for (const RunPeaks& run : runs) {
        most = std::max(most, (run.*kind)[supply]);
    }
    return most;
}

std::string names_of(const Show& show, const std::vector<SequenceId>& sequences) {
    std::vector<std::string> names;
    for (const SequenceId id : sequences) {
        names.push_back(quoted(find(show, id)->name));
    }
    return listed(names);
}

/// Steady currents first, then with surges: what is too much together, and was not for any of them alone.
void check_one(const Show& show, std::span<const RunPeaks> runs, const PowerTogether& together,
               std::size_t place, std::vector<Finding>& findings) {
    const Supply& supply = show.rig.supplies[place];
    const double planned = *supply.rated_a * planned_share(supply);
    const double steady = amps(together.steady[place]);
    const double peak = amps(together.peak[place]);
    const bool over = steady > *supply.rated_a;
    Finding finding = about(supply, "supply", over ? Severity::stop : Severity::warn, "rated_a");
    double least = steady / planned_share(supply);
    if (steady > planned) {
        const double limit = over ? *supply.rated_a : planned;
        if (amps(most_of(runs, &RunPeaks::steady, place)) > limit) {
            return;
        }
        finding.what = std::string(over ? "gives more than its rating"
                                        : "gives more than the share of its rating to plan with");
        set_currents(finding, steady, "at most", limit);
    } else if (peak > *supply.rated_a && amps(most_of(runs, &RunPeaks::peak, place)) <= *supply.rated_a) {
        finding.what = "gives more than its rating while loads start";
        set_currents(finding, peak, "at most", *supply.rated_a);
        least = peak;
    } else {
        return;
    }
    finding.what = "Supply " + quoted(supply.name) + " " + finding.what + " when " +
                   names_of(show, together.sequences) + " run at once";
    finding.remedy = "Take a supply of at least " + current_text(std::ceil(least)) +
                     ", or let one trigger play them in turn";
    findings.push_back(std::move(finding));
}

}  // namespace

std::vector<Finding> check_supply_together(const Show& show, std::span<const RunPeaks> runs) {
    std::vector<Finding> findings;
    if (const auto together = power_together(show, runs)) {
        for (std::size_t place = 0; place < show.rig.supplies.size(); ++place) {
            if (show.rig.supplies[place].rated_a) {
                check_one(show, runs, *together, place, findings);
            }
        }
    }
    return findings;
}

}  // namespace gasp
