// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
//
// The onsets found in recorded prompts of Debian's alsa-utils against times found by eye. They were read off
// a list of each prompt's level in steps of 10 ms (root mean square, dB below full scale): an onset is the
// first step that is at least 12 dB above the one before, or the first of a rise of 20 dB within 30 ms out of
// what was below -50 dB, with the sound of it named beside; one within 80 ms of another, the least gap of
// onsets, is one with it. In the first 100 ms of a file one may be missed. Found onsets count as right within
// 50 ms, each for one time, as MIREX scores them: F = 2PR / (P + R).
#include "core/sound/listening.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <string>
#include <vector>

using namespace gasp;

namespace {

constexpr Micros window{50'000};

struct Prompt {
    const char* file;
    std::vector<int> onsets_ms;
};

const std::vector<Prompt>& prompts() {
    static const std::vector<Prompt> all{
        // "fr-o-nt c-e-nt-er": o, the burst of t, the hiss of c, e, the burst of t with er
        {"Front_Center.wav", {100, 400, 800, 930, 1140}},
        // "fr-o-nt l-e-ft": f with o, the burst of t, l, the burst of t
        {"Front_Left.wav", {20, 380, 750, 1230}},
        // "r-ear r-igh-t": r, r, the burst of t
        {"Rear_Right.wav", {50, 930, 1370}},
        // "s-i-de l-e-ft": s, i, l, t's closing, the burst of t
        {"Side_Left.wav", {50, 200, 820, 1090, 1270}},
    };
    return all;
}

/// How many of the times have an onset of their own within the window.
std::size_t matched(const std::vector<int>& times_ms, std::vector<Micros> onsets) {
    std::size_t right = 0;
    for (const int time_ms : times_ms) {
        const auto near = std::ranges::find_if(
            onsets, [&](Micros onset) { return std::chrono::abs(onset - Micros{time_ms * 1000}) <= window; });
        if (near != onsets.end()) {
            onsets.erase(near);
            ++right;
        }
    }
    return right;
}

}  // namespace

TEST_CASE("Onsets in recorded prompts are where they were found by eye", "[reference]") {
    std::size_t right = 0;
    std::size_t found = 0;
    std::size_t wanted = 0;
    for (const Prompt& prompt : prompts()) {
        const Result<Heard> heard =
            listen(std::filesystem::path("/usr/share/sounds/alsa") / prompt.file, {}, test::never, {});
        REQUIRE(heard);
        std::string list;
        for (const Micros onset : heard->onsets) {
            list += " " + std::to_string(onset.count() / 1000);
        }
        INFO(prompt.file << " ms:" << list);
        const std::size_t here = matched(prompt.onsets_ms, heard->onsets);
        CHECK(here + 1 >= prompt.onsets_ms.size());
        right += here;
        found += heard->onsets.size();
        wanted += prompt.onsets_ms.size();
    }
    const double precision = static_cast<double>(right) / static_cast<double>(found);
    const double recall = static_cast<double>(right) / static_cast<double>(wanted);
    INFO("precision " << precision << ", recall " << recall);
    CHECK(2.0 * precision * recall / (precision + recall) >= 0.75);
}
