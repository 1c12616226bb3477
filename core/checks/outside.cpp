// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace gasp {
namespace {

/// The cues that begin when the sound is over.
struct PastSound {
    const Cue* first = nullptr;
    Micros start{0};  ///< of the first
    std::size_t count = 0;
};

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

/// One note for all of them, at the first: a long tail without sound is one thing to look at.
Finding past_the_sound(const CheckInput& input, const PastSound& past, Micros sound) {
    Finding finding = about(input, *past.first, past.start, Severity::note);
    const bool alone = past.count == 1;
    finding.what = capital(named(*past.first)) +
                   (alone ? std::string(" begins") : fmt::format(" and {} more begin", past.count - 1)) +
                   " when the sound is over";
    finding.figure = (alone ? "begins at " : "the first at ") + print_time(past.start);
    finding.limit = "before " + print_time(sound);
    finding.remedy = alone ? "Move the cue " + print_duration(past.start - sound + past.first->length) +
                                 " earlier if the sound is to end last"
                           : "Move them before " + print_time(sound) + " if the sound is to end last";
    return finding;
}

}  // namespace

std::vector<Finding> check_outside(const CheckInput& input) {
    std::vector<Finding> findings;
    const Micros sound = end_of_sound(input.sequence);
    PastSound past;
    for (const Cue& cue : input.sequence.cues) {
        const Micros start = start_of(input.sequence, cue);
        if (start < Micros{0}) {
            findings.push_back(before_the_start(input, cue, start));
        }
        if (start + cue.length > input.sequence.length) {
            findings.push_back(after_the_end(input, cue, start));
        } else if (sound > Micros{0} && start >= sound) {
            if (past.first == nullptr || start < past.start) {
                past.first = &cue;
                past.start = start;
            }
            ++past.count;
        }
    }
    if (past.first != nullptr) {
        findings.push_back(past_the_sound(input, past, sound));
    }
    return findings;
}

}  // namespace gasp
