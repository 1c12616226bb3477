// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"

#include <algorithm>

namespace gasp {
namespace {

Finding about(const CheckInput& input, const Cue& cue, Micros start, Severity severity) {
    Finding finding{"outside", severity, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.place.time = std::clamp(start, Micros{0}, input.sequence.length);
    finding.place.cue = cue.id;
    finding.place.channel = cue.channel;
    return finding;
}

Finding before_the_start(const CheckInput& input, const Cue& cue, Micros start) {
    Finding finding = about(input, cue, start, Severity::warn);
    finding.what = capital(named(cue)) + " begins before its sequence and is cut";
    finding.figure = "begins " + print_duration(-start) + " too early";
    finding.limit = "from " + print_time(Micros{0});
    finding.remedy = "Move the cue " + print_duration(-start) + " later";
    return finding;
}

Finding after_the_end(const CheckInput& input, const Cue& cue, Micros start) {
    const Micros over = start + cue.length - input.sequence.length;
    Finding finding = about(input, cue, start, Severity::warn);
    finding.what =
        capital(named(cue)) + (start >= input.sequence.length ? " lies after the end of its sequence"
                                                              : " is cut by the end of its sequence");
    finding.figure = "ends at " + print_time(start + cue.length);
    finding.limit = "up to " + print_time(input.sequence.length);
    finding.remedy = "Lengthen the sequence by " + print_duration(over);
    return finding;
}

Finding past_the_sound(const CheckInput& input, const Cue& cue, Micros start, Micros sound) {
    Finding finding = about(input, cue, start, Severity::note);
    finding.what = capital(named(cue)) + " begins when the sound is over";
    finding.figure = "begins at " + print_time(start);
    finding.limit = "before " + print_time(sound);
    finding.remedy =
        "Move the cue " + print_duration(start - sound + cue.length) + " earlier if the sound is to end last";
    return finding;
}

}  // namespace

std::vector<Finding> check_outside(const CheckInput& input) {
    std::vector<Finding> findings;
    const Micros sound = end_of_sound(input.sequence);
    for (const Cue& cue : input.sequence.cues) {
        const Micros start = start_of(input.sequence, cue);
        if (start < Micros{0}) {
            findings.push_back(before_the_start(input, cue, start));
        }
        if (start + cue.length > input.sequence.length) {
            findings.push_back(after_the_end(input, cue, start));
        } else if (sound > Micros{0} && start >= sound) {
            findings.push_back(past_the_sound(input, cue, start, sound));
        }
    }
    return findings;
}

}  // namespace gasp
