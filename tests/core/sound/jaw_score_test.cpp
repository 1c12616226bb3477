// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/jaw_score.hpp"

#include "core/sound/jaw.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <array>
#include <cmath>
#include <vector>

using namespace gasp;
using namespace std::chrono_literals;

namespace {
/// The opening of a mouth that is open where it is driven, so many steps late.
std::vector<float> opening_of(std::span<const JawStretch> driven, std::size_t steps, std::ptrdiff_t late) {
    std::vector<float> opening(steps, 0.0F);
    for (std::size_t i = 0; i < steps; ++i) {
        const Micros time = Envelope::step * (static_cast<std::ptrdiff_t>(i) - late);
        opening[i] = std::ranges::any_of(driven, [time](const JawStretch& stretch) {
            return time >= stretch.begin && time < stretch.end;
        });
    }
    return opening;
}

}  // namespace

TEST_CASE(
    "On recorded voices the lag of a mouth is what it was shifted by, and cues made of them have none") {
    const auto prompts = test::recorded_prompts();
    int tried = 0;
    for (std::size_t i = 0; i < prompts.size() && tried < 6; i += 25) {
        const Result<Heard> heard = listen(prompts[i], {}, test::never, {});
        REQUIRE(heard);
        if (heard->envelope.length() < 1500ms) {
            continue;
        }
        ++tried;
        INFO(prompts[i].string());
        const auto driven = jaw_stretches(heard->envelope, {}).value();
        const std::size_t steps = heard->envelope.dbfs.size();
        const JawScore prompt =
            jaw_score(heard->envelope, opening_of(driven, steps, 0), JawOptions{}.open_db);
        CHECK(prompt.open_share > 0.95);
        REQUIRE(prompt.lag_ms);
        CHECK(std::abs(*prompt.lag_ms) <= 45.0);
        for (const std::ptrdiff_t late : {-12, 8, 30}) {
            const JawScore shifted =
                jaw_score(heard->envelope, opening_of(driven, steps, late), JawOptions{}.open_db);
            REQUIRE(shifted.lag_ms);
            CHECK(*shifted.lag_ms - *prompt.lag_ms == Approx(5.0 * static_cast<double>(late)).margin(12.0));
            CHECK(shifted.open_share < prompt.open_share);
        }
    }
    CHECK(tried == 6);
}

TEST_CASE("What is heard along a sequence is where the clips are, with their gain, and adds up by power") {
    Envelope tone;
    tone.dbfs.assign(200, -20.0F);
    Sequence sequence;
    sequence.length = 2s;
    SoundClip clip;
    clip.start = 500ms;
    clip.length = 500ms;
    clip.gain_db = -6.0;
    sequence.clips = {clip, clip};
    const std::array both{static_cast<const Envelope*>(&tone), static_cast<const Envelope*>(&tone)};
    const Envelope heard = heard_along(sequence, both);
    CHECK(heard.dbfs.size() == 401);
    CHECK(heard.dbfs[99] == Envelope::silence);
    CHECK(heard.dbfs[100] == Approx(-26.0 + 3.01).margin(0.01));
    CHECK(heard.dbfs[199] == Approx(-26.0 + 3.01).margin(0.01));
    CHECK(heard.dbfs[200] == Envelope::silence);
    const std::array one{static_cast<const Envelope*>(&tone), static_cast<const Envelope*>(nullptr)};
    CHECK(heard_along(sequence, one).dbfs[150] == Approx(-26.0).margin(0.01));
}

TEST_CASE("Silence, and a mouth that never moves, have no lag") {
    Envelope silent;
    silent.dbfs.assign(100, Envelope::silence);
    CHECK_FALSE(jaw_score(silent, std::vector<float>(100, 1.0F), 18.0).lag_ms);
    Envelope tone;
    tone.dbfs.assign(100, -20.0F);
    const JawScore still = jaw_score(tone, std::vector<float>(100, 1.0F), 18.0);
    CHECK_FALSE(still.lag_ms);
    CHECK(still.open_share == 1.0);
}
