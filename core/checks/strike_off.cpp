// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/band_wording.hpp"
#include "core/checks/wording.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace gasp {
namespace {

constexpr std::string_view name = "strike_off";
/// How far a strike may be from its moment. An assumption of ours: sound and sight that belong together are
/// noticed apart from about this on (ITU-R BT.1359, from memory: 45 ms where the sound comes first).
constexpr double tolerance_s = 0.045;

/// By how much a stroke arrives early and late, both from 0 up.
struct Off {
    double early_s = 0.0;
    double late_s = 0.0;
    [[nodiscard]] double worst() const { return std::max(early_s, late_s); }
};

Off off_by(const Band& strike, double wanted_s) {
    return {std::max(wanted_s - strike.low, 0.0), std::max(strike.high - wanted_s, 0.0)};
}

const Stroke* same_stroke(const std::optional<AirRun>& run, const Stroke& stroke) {
    if (!run) {
        return nullptr;
    }
    const auto found = std::ranges::find(run->strokes, stroke.command, &Stroke::command);
    return found != run->strokes.end() ? &*found : nullptr;
}

Finding off(const CheckInput& input, const PlacedStrike& strike, const Stroke& stroke, const StrokeBand& band,
            const Off& by, const std::string& when) {
    const bool nominal =
        std::abs(band.strike_s()->nominal + to_s(stroke.command.time - strike.wanted)) > tolerance_s;
    Finding finding = about_stroke(input, stroke, name, nominal ? Severity::warn : Severity::note);
    finding.place.cue = strike.cue;
    finding.place.time = strike.wanted;
    const bool late = by.late_s >= by.early_s;
    finding.what = quoted(find(input.show, strike.actuator)->name) +
                   (late ? " may strike late " : " may strike early ") + when;
    finding.figure = std::isfinite(by.worst()) ? print_duration(from_ms(std::round(by.worst() * 1e3)))
                                               : std::string("it may not get there");
    if (!band.measured) {
        finding.figure += ", not measured";
    }
    finding.limit = "at most " + print_duration(from_ms(tolerance_s * 1e3));
    if (!band.measured) {
        finding.remedy = "Time the real stroke and fit the model to it";
    } else if (input.facts.lowest_receiver_kpa_gauge < input.facts.regulator_kpa_gauge) {
        finding.remedy = "Keep the receiver above the regulator: raise the cut-in, or take a larger receiver";
    } else {
        finding.remedy = "Time more strokes for the fit, or make the stroke quicker: it is off by less then";
    }
    return finding;
}

}  // namespace

std::vector<Finding> check_strike_off(const CheckInput& input) {
    std::vector<Finding> findings;
    for_each_stroke(input, [&](const Stroke& stroke, const StrokeBand& band, const Actuator&) {
        for (const PlacedStrike& strike : input.run.strikes) {
            if (strike.actuator != stroke.command.actuator || strike.way != stroke.command.way ||
                std::chrono::abs(strike.start - stroke.command.time) > from_ms(50.0) ||
                strike.fault != StrikeFault::none || !band.strike_s()) {
                continue;
            }
            const double wanted = to_s(strike.wanted - stroke.command.time);
            const Off worst = off_by(*band.strike_s(), wanted);
            Off best;
            if (const Stroke* full = same_stroke(input.facts.at_cut_out, stroke); full && full->strike_s()) {
                const double shift = *full->strike_s() - band.strike_s()->nominal;
                best = off_by(
                    {band.strike_s()->low + shift, *full->strike_s(), band.strike_s()->high + shift}, wanted);
            }
            if (worst.worst() > tolerance_s && worst.worst() >= best.worst()) {
                findings.push_back(off(input, strike, stroke, band, worst, "with the receiver at cut-in"));
            } else if (best.worst() > tolerance_s) {
                findings.push_back(off(input, strike, stroke, band, best, "with the receiver full"));
            }
        }
    });
    return findings;
}

}  // namespace gasp
