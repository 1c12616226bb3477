// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/player_lag.hpp"

#include "core/sound/knocks.hpp"

#include <algorithm>

namespace gasp {

Result<HeardLag> lag_of(std::span<const Knock> knocks, Micros first_sound) {
    HeardLag heard;
    for (std::size_t i = 0; i + 1 < knocks.size(); ++i) {
        const double quiet_s = i == 0 ? quiet_before_start_s : knocks[i].time_s - knocks[i - 1].time_s;
        const double apart_s = knocks[i + 1].time_s - knocks[i].time_s;
        if (quiet_s >= quiet_before_start_s && apart_s < quiet_before_start_s) {
            heard.each_ms.push_back(apart_s * 1000.0 - to_ms(first_sound));
        }
    }
    if (heard.each_ms.empty()) {
        return fail(
            "No click with a sound within 2 s after it is heard", {},
            "Record some starts, the phone close to relay and speaker, with 2 s of quiet before each");
    }
    std::vector<double> sorted = heard.each_ms;
    std::ranges::sort(sorted);
    if (sorted.front() < 0.0) {
        return fail("A sound comes sooner after its click than the played file allows", {},
                    "Say how far into the played file its first sound is");
    }
    const std::size_t half = sorted.size() / 2;
    heard.lag_ms = sorted.size() % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2.0;
    heard.spread_ms = sorted.back() - sorted.front();
    return heard;
}

Result<HeardLag> lag_in(const std::filesystem::path& recording, Micros first_sound) {
    const Result<std::vector<Knock>> knocks = find_knocks(recording);
    if (!knocks) {
        return tl::unexpected(knocks.error());
    }
    return lag_of(*knocks, first_sound).map_error([&](Error error) {
        error.where = recording.string();
        return error;
    });
}

}  // namespace gasp
