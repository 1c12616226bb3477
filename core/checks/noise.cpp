// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/sound_shelf.hpp"
#include "core/checks/wording.hpp"
#include "core/sound/ear_level.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numeric>

namespace gasp {
namespace {

/// The loudest that table G-16 of 29 CFR 1910.95 has a time for.
constexpr double loudest_dba = 115.0;
/// Where 29 CFR 1910.95 (c) asks for a hearing conservation program: half the dose.
constexpr double action_dose = 0.5;

/// A loudspeaker alone, in the open, at the visitor's place: what more there is, nobody has said.
constexpr std::string_view unknown =
    " (one loudspeaker in the open; the room, other sources and scenes are not known)";

Finding about(const CheckInput& input, Severity severity) {
    Finding finding{"noise", severity, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    return finding;
}

std::string dba(double level) {
    return fmt::format("about {:.0f} dBA", level);
}

std::string lower_by(double db) {
    return fmt::format("Lower the mix or the amplifier by {:.0f} dB, or put the loudspeaker further away",
                       std::max(std::ceil(db), 1.0));
}

/// How often the sequence is heard in a night; empty where the plan is blank.
std::optional<double> runs_a_night(const NightPlan& night) {
    if (!night.arrivals_s.empty()) {
        return static_cast<double>(night.arrivals_s.size());
    }
    if (!night.groups_by_hour.empty()) {
        return std::accumulate(night.groups_by_hour.begin(), night.groups_by_hour.end(), 0.0);
    }
    return night.hours && night.groups_per_h ? std::optional(*night.hours * *night.groups_per_h)
                                             : std::nullopt;
}

void add_visitor(const CheckInput& input, double level, double hours, std::vector<Finding>& findings) {
    if (level > loudest_dba) {
        Finding finding = about(input, Severity::stop);
        finding.what = "Visitors of " + gasp::quoted(input.sequence.name) +
                       " hear it louder than any limit has a time for" + std::string(unknown);
        finding.figure = dba(level);
        finding.limit = fmt::format("at most {:.0f} dBA (29 CFR 1910.95, table G-16)", loudest_dba);
        finding.remedy = lower_by(level - loudest_dba);
        findings.push_back(std::move(finding));
    } else if (const double dose = noise_dose(NoiseLimit::niosh, level, hours); dose > 1.0) {
        Finding finding = about(input, Severity::warn);
        finding.what = "One run of " + gasp::quoted(input.sequence.name) +
                       " is more than a day's noise for a visitor" + std::string(unknown);
        finding.figure = fmt::format("{}, {:.0f} % of a day", dba(level), dose * 100.0);
        finding.limit = "at most 100 % (NIOSH 98-126, made for workers)";
        finding.remedy = lower_by(3.0 * std::log2(dose));
        findings.push_back(std::move(finding));
    }
}

void add_staff(const CheckInput& input, double level, double hours, std::vector<Finding>& findings) {
    const std::optional<double> runs = runs_a_night(input.show.night);
    if (!runs) {
        Place place;
        place.field = "night.groups_per_h";
        findings.push_back(not_checked(
            "noise", "hours of the night and groups an hour, for the noise of staff", std::move(place)));
        return;
    }
    const double law = noise_dose(NoiseLimit::osha, level, hours * *runs);
    const double recommended = noise_dose(NoiseLimit::niosh, level, hours * *runs);
    if (law <= action_dose && recommended <= 1.0) {
        return;
    }
    Finding finding = about(input, law > 1.0 ? Severity::stop : Severity::warn);
    finding.what = "A night of " + gasp::quoted(input.sequence.name) +
                   " is too much noise for staff who stand where visitors do" + std::string(unknown);
    const bool by_law = law > action_dose;
    const double dose = by_law ? law : recommended;
    finding.figure = fmt::format("{}, {:.0f} % of a day", dba(level), dose * 100.0);
    finding.limit = !by_law     ? "at most 100 % (NIOSH 98-126)"
                    : law > 1.0 ? "at most 100 % (29 CFR 1910.95, table G-16)"
                                : "at most 50 % without a hearing conservation program (29 CFR 1910.95)";
    finding.remedy =
        lower_by(by_law ? 5.0 * std::log2(dose / (law > 1.0 ? 1.0 : action_dose)) : 3.0 * std::log2(dose)) +
        "; give staff hearing protection meanwhile";
    findings.push_back(std::move(finding));
}

/// The first blank of what the level at the ear is made of.
std::optional<Finding> blank_of(const Speaker& speaker) {
    struct Input {
        Figure Speaker::*member;
        std::string_view field;
        std::string_view label;
    };
    static constexpr std::array inputs{
        Input{&Speaker::power_w, "speaker.power_w", "power of the loudspeaker's amplifier"},
        Input{&Speaker::sensitivity_db, "speaker.sensitivity_db", "sensitivity of the loudspeaker"},
        Input{&Speaker::distance_m, "speaker.distance_m",
              "distance from the loudspeaker to the visitor's ear"}};
    for (const Input& each : inputs) {
        if (!(speaker.*each.member)) {
            Place place;
            place.field = each.field;
            return not_checked("noise", each.label, std::move(place));
        }
    }
    return std::nullopt;
}

}  // namespace

std::vector<Finding> check_noise(const CheckInput& input) {
    if (input.sequence.clips.empty()) {
        return {};
    }
    if (std::optional<Finding> blank = blank_of(input.show.rig.speaker)) {
        return {std::move(*blank)};
    }
    if (input.sounds == nullptr) {
        return {};
    }
    const MixReport& mix = input.sounds->mix(input.sequence, input.stopped);
    if (!mix.loudness_lufs) {
        return {};
    }
    std::vector<Finding> findings;
    const double level = *level_at_ear(input.show.rig.speaker, *mix.loudness_lufs);
    const double hours = static_cast<double>(mix.frames) / mix.rate / 3600.0;
    add_visitor(input, level, hours, findings);
    add_staff(input, level, hours, findings);
    return findings;
}

}  // namespace gasp
