// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/at_once.hpp"

#include "core/checks/circuits.hpp"
#include "core/checks/drop_finding.hpp"
#include "core/checks/fuse_finding.hpp"
#include "core/checks/wording.hpp"
#include "core/schedule/circuit_advice.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace gasp {
namespace {

constexpr std::string_view in_turn = ", or let one trigger play them in turn";

std::string names_of(const Show& show, const std::vector<SequenceId>& sequences) {
    std::vector<std::string> names;
    for (const SequenceId id : sequences) {
        names.push_back(quoted(find(show, id)->name));
    }
    return listed(names);
}

/// What is too much together, and was not for any sequence alone.
class AtOnce {
  public:
    AtOnce(const Show& show, std::span<const PowerRun> runs, const PowerTogether& together, UnitSystem units)
        : show_(show),
          runs_(runs),
          together_(together),
          units_(units),
          when_(" when " + names_of(show, together.sequences) + " run at once") {}

    std::vector<Finding> findings() {
        for (std::size_t place = 0; place < show_.rig.supplies.size(); ++place) {
            check_rating(place);
            check_fuse(place);
            const Supply& supply = show_.rig.supplies[place];
            const std::string of = " of supply " + quoted(supply.name);
            check_wire(supply, "the feed" + of, supply.feed_mm2, "feed_mm2", PowerModel::feed_of(place));
            check_wire(supply, "the shared return" + of, supply.return_mm2, "return_mm2",
                       PowerModel::return_of(place));
        }
        for (std::size_t place = 0; place < show_.rig.channels.size(); ++place) {
            check_drop(place);
        }
        return std::move(findings_);
    }

  private:
    void put(Finding finding) {
        finding.what += when_;
        finding.remedy += in_turn;
        findings_.push_back(std::move(finding));
    }

    template <class Current>
    [[nodiscard]] double most(Current current) const {
        MicroAmps most = 0;
        for (const PowerRun& run : runs_) {
            most = std::max(most, current(*run.power));
        }
        return amps(most);
    }

    /// Steady currents first, then with surges.
    void check_rating(std::size_t place) {
        const Supply& supply = show_.rig.supplies[place];
        if (!supply.rated_a) {
            return;
        }
        const double rated = *supply.rated_a;
        const double planned = rated * planned_share(supply);
        const double steady = amps(together_.supplies[place].steady);
        const double peak = amps(together_.supplies[place].peak);
        const double alone = most([&](const SequencePower& power) { return power.curves[place].peak; });
        const double alone_steady =
            most([&](const SequencePower& power) { return power.curves[place].steady_peak; });
        const bool over = steady > rated;
        Finding finding = about(supply, "supply", over ? Severity::stop : Severity::warn, "rated_a");
        finding.what = "Supply " + quoted(supply.name) + " gives more than ";
        double least = steady / planned_share(supply);
        if (steady > planned) {
            if (alone_steady > (over ? rated : planned)) {
                return;
            }
            finding.what += over ? "its rating" : "the share of its rating to plan with";
            set_currents(finding, steady, "at most", over ? rated : planned);
        } else if (peak > rated && alone <= rated) {
            finding.what += "its rating while loads start";
            set_currents(finding, peak, "at most", rated);
            least = peak;
        } else {
            return;
        }
        finding.remedy = "Take a supply of at least " + current_text(std::ceil(least));
        put(std::move(finding));
    }

    void check_fuse(std::size_t place) {
        const Supply& supply = show_.rig.supplies[place];
        if (!supply.fuse_a) {
            return;
        }
        const std::uint32_t back = PowerModel::return_of(place);
        for (const PowerRun& run : runs_) {
            const double back_a = amps(run.power->wire_peaks[back]);
            if (!find_supply_fuse(supply, fuse_load(show_, run, place), back_a, units_).empty()) {
                return;
            }
        }
        const FuseLoad load = fuse_load(runs_, together_, place);
        for (Finding& finding : find_supply_fuse(supply, load, amps(together_.wire_peaks[back]), units_)) {
            put(std::move(finding));
        }
    }

    void check_wire(const Supply& supply, const std::string& wire, const Figure& mm2, std::string_view field,
                    std::uint32_t place) {
        const double carried = amps(together_.wire_peaks[place]);
        const double alone = most([&](const SequencePower& power) { return power.wire_peaks[place]; });
        if (too_much(carried, mm2) && !too_much(alone, mm2)) {
            Finding finding = about(supply, "wire_current", Severity::stop, field);
            set_too_much(finding, supply, wire, carried, *mm2, units_);
            put(std::move(finding));
        }
    }

    [[nodiscard]] std::optional<Finding> drop(const SequencePower& power, const CircuitUse& use,
                                              std::size_t place) const {
        const CircuitModel& model = power.model.circuits[place];
        if (!model.supply) {
            return std::nullopt;
        }
        return find_drop(show_.rig,
                         {show_.rig.channels[place], show_.rig.supplies[*model.supply], model, use}, units_);
    }

    void check_drop(std::size_t place) {
        for (const PowerRun& run : runs_) {
            if (drop(*run.power, run.power->circuits[place], place)) {
                return;
            }
        }
        const CircuitTogether& circuit = together_.circuits[place];
        if (std::optional<Finding> finding = drop(*runs_.front().power, circuit.use, place)) {
            finding->place.sequence = circuit.sequence;
            put(std::move(*finding));
        }
    }

    const Show& show_;
    std::span<const PowerRun> runs_;
    const PowerTogether& together_;
    UnitSystem units_;
    std::string when_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> check_at_once(const Show& show, std::span<const PowerRun> runs,
                                   const std::optional<PowerTogether>& together, UnitSystem units) {
    return together ? AtOnce(show, runs, *together, units).findings() : std::vector<Finding>{};
}

}  // namespace gasp
