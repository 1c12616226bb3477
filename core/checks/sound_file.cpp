// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// The name of this file is the check's; what opens sounds is core/sound/sound_file.hpp.
#include "core/checks/all_checks.hpp"
#include "core/checks/sound_shelf.hpp"
#include "core/checks/wording.hpp"

#include <algorithm>

namespace gasp {
namespace {

/// Headers count in frames, clips in microseconds; less than this between them is rounding.
constexpr Micros slack{1000};

Finding about(const CheckInput& input, const SoundClip& clip, Severity severity) {
    Finding finding{"sound_file", severity, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.place.time = std::clamp(clip.start, Micros{0}, input.sequence.length);
    return finding;
}

Finding not_playable(const CheckInput& input, const SoundClip& clip, const Error& error) {
    Finding finding = about(input, clip, Severity::stop);
    finding.what = "Sound " + gasp::quoted(clip.file) + " cannot be played: " + error.what;
    finding.remedy = error.remedy;
    return finding;
}

Finding too_short(const CheckInput& input, const SoundClip& clip, Micros there) {
    const Micros wanted = clip.from + clip.length;
    Finding finding = about(input, clip, Severity::warn);
    finding.what = "Sound " + gasp::quoted(clip.file) + " ends before its clip does";
    finding.figure = print_duration(there);
    finding.limit = at_least(wanted);
    finding.remedy = "Put the whole file back, or shorten its clip by " + print_duration(wanted - there);
    return finding;
}

}  // namespace

std::vector<Finding> check_sound_file(const CheckInput& input) {
    std::vector<Finding> findings;
    if (input.sounds == nullptr) {
        return findings;
    }
    for (const SoundClip& clip : input.sequence.clips) {
        const Result<Micros>& there = input.sounds->length(clip.file);
        if (!there) {
            findings.push_back(not_playable(input, clip, there.error()));
        } else if (clip.from + clip.length > *there + slack) {
            findings.push_back(too_short(input, clip, *there));
        }
    }
    return findings;
}

}  // namespace gasp
