// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"
#include "core/schedule/cue_spans.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

Finding about(const CheckInput& input, const Cue& cue, Severity severity) {
    Finding finding{"pattern", severity, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.place.time = std::clamp(start_of(input.sequence, cue), Micros{0}, input.sequence.length);
    finding.place.cue = cue.id;
    finding.place.channel = cue.channel;
    return finding;
}

/// The shorter of the on and the off part of one flash.
double shorter_part_us(const Flashes& flashes) {
    const double duty = flashes.duty_percent / 100.0;
    return 1e6 / flashes.rate_hz * std::min(duty, 1.0 - duty);
}

Finding too_fast(const CheckInput& input, const Cue& cue, Micros tick) {
    Finding finding = about(input, cue, Severity::warn);
    const double part = shorter_part_us(*cue.flashes);
    finding.what = capital(named(cue)) + " flashes too fast for the tick of its board";
    finding.figure = print_duration(Micros{std::llround(part)}) + " on or off";
    finding.limit = at_least(tick);
    finding.remedy = "Lower its rate to " +
                     rounded_down_hertz(cue.flashes->rate_hz * part / static_cast<double>(tick.count()));
    return finding;
}

Finding too_short(const CheckInput& input, const Cue& cue, Micros tick) {
    Finding finding = about(input, cue, Severity::warn);
    finding.what = capital(named(cue)) + " is too short for the tick of its board and is not played";
    finding.figure = print_duration(cue.length);
    finding.limit = at_least(tick);
    finding.remedy = "Lengthen the cue by " + print_duration(tick - cue.length);
    return finding;
}

Finding too_many(const CheckInput& input, const Cue& cue, std::size_t wanted, std::size_t allowed) {
    Finding finding = about(input, cue, Severity::stop);
    finding.what =
        capital(named(cue)) + " has more flashes than can be played; it rests after the last of them";
    finding.figure = std::to_string(wanted) + " flashes";
    finding.limit = "at most " + std::to_string(allowed);
    const double length = static_cast<double>(allowed) / cue.flashes->rate_hz * 1e6;
    finding.remedy =
        "Shorten the cue to " + print_duration(Micros{static_cast<Micros::rep>(std::floor(length))});
    return finding;
}

}  // namespace

std::vector<Finding> check_pattern(const CheckInput& input) {
    std::size_t flashes = 0;
    std::size_t flashing = 0;
    for (const Cue& cue : input.sequence.cues) {
        const std::size_t wanted = flashes_wanted(cue);
        flashes += wanted;
        flashing += wanted > 0 ? 1U : 0U;
    }
    const std::size_t allowed = flash_allowance(flashes, flashing);
    if (flashes == 0 && input.schedule.lost_in_tick == 0) {
        return {};
    }
    std::unordered_map<ChannelId, Micros> ticks;
    for (const ScheduledChannel& channel : input.schedule.channels) {
        ticks.insert({channel.id, channel.tick});
    }
    std::vector<Finding> findings;
    for (const Cue& cue : input.sequence.cues) {
        const auto tick = ticks.find(cue.channel);
        if (tick == ticks.end()) {
            continue;
        }
        const std::size_t wanted = flashes_wanted(cue);
        if (wanted > 0 && shorter_part_us(*cue.flashes) < static_cast<double>(tick->second.count())) {
            findings.push_back(too_fast(input, cue, tick->second));
        } else if (wanted == 0 && cue.length < tick->second) {
            const Micros start = start_of(input.sequence, cue);
            if (on_tick(start, tick->second) == on_tick(start + cue.length, tick->second)) {
                findings.push_back(too_short(input, cue, tick->second));
            }
        }
        if (wanted > allowed) {
            findings.push_back(too_many(input, cue, wanted, allowed));
        }
    }
    return findings;
}

}  // namespace gasp
