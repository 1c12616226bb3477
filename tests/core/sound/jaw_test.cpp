// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/jaw.hpp"

#include "core/sound/jaw_score.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <limits>

using namespace gasp;
using namespace gasp::test;
using namespace std::chrono_literals;

namespace {

/// Levels that hold for so many steps of 5 ms each.
Envelope levels(const std::vector<std::pair<int, float>>& stretches) {
    Envelope envelope;
    for (const auto& [steps, dbfs] : stretches) {
        envelope.dbfs.insert(envelope.dbfs.end(), static_cast<std::size_t>(steps), dbfs);
    }
    return envelope;
}

JawOptions plain() {
    JawOptions options;
    options.release_ms = 0.0;
    options.shortest_open_ms = 0.0;
    options.shortest_shut_ms = 0.0;
    return options;
}

/// The share of the voice in which a mouth is open that is driven so.
double voiced_share(const Envelope& envelope, std::span<const JawStretch> driven, const JawOptions& options) {
    std::vector<float> opening(envelope.dbfs.size(), 0.0F);
    for (std::size_t i = 0; i < opening.size(); ++i) {
        const Micros time = Envelope::step * static_cast<Micros::rep>(i);
        opening[i] = std::ranges::any_of(driven, [&](const JawStretch& stretch) {
            return time >= stretch.begin + from_ms(options.open_lead_ms) &&
                   time < stretch.end + from_ms(options.close_lead_ms);
        });
    }
    return jaw_score(envelope, opening, options.open_db).open_share;
}

}  // namespace

TEST_CASE("A jaw opens above one level and shuts below a lower one") {
    // The loudest moment is -10: it opens at -28 and shuts below -34.
    const Envelope envelope = levels(
        {{100, -60.0F}, {40, -10.0F}, {20, -33.0F}, {40, -60.0F}, {10, -33.0F}, {20, -28.0F}, {50, -90.0F}});
    const std::vector<JawStretch> stretches = jaw_stretches(envelope, plain()).value();
    CHECK(stretches == std::vector<JawStretch>{{500ms, 800ms}, {1050ms, 1150ms}});
    CHECK(voiced_share(envelope, stretches, plain()) == 1.0);
}

TEST_CASE("It is driven ahead of the voice by what the jaw takes to open and to shut") {
    const Envelope envelope = levels({{100, -60.0F}, {40, -10.0F}, {60, -60.0F}});
    JawOptions options = plain();
    options.open_lead_ms = 60.0;
    options.close_lead_ms = 90.0;
    const std::vector<JawStretch> stretches = jaw_stretches(envelope, options).value();
    CHECK(stretches == std::vector<JawStretch>{{440ms, 610ms}});
    CHECK(voiced_share(envelope, stretches, options) == 1.0);
    CHECK(voiced_share(envelope, {}, options) == 0.0);
}

TEST_CASE("The release bridges a dip: 8.69 dB in its time") {
    // 40 ms of release fall by 8.69 dB, so 30 dB of room last 138 ms.
    JawOptions options = plain();
    options.close_db = 30.0;
    options.release_ms = 40.0;
    const auto stretches =
        jaw_stretches(levels({{40, -10.0F}, {26, -90.0F}, {40, -10.0F}, {100, -90.0F}}), options);
    REQUIRE(stretches.value().size() == 1);
    CHECK(std::chrono::abs(stretches.value()[0].end - (530ms + 138ms)) <= 5ms);
    CHECK(jaw_stretches(levels({{40, -10.0F}, {30, -90.0F}, {40, -10.0F}}), options).value().size() == 2);
}

TEST_CASE("No stretch and no gap is shorter than its channel bears, on recorded voices") {
    for (const std::filesystem::path& prompt : speaker_test_prompts()) {
        const Envelope envelope = listen(prompt, {}, test::never, {}).value().envelope;
        JawOptions options;
        options.shortest_open_ms = 120.0;
        options.shortest_shut_ms = 90.0;
        options.open_lead_ms = 35.0;
        options.close_lead_ms = 50.0;
        const std::vector<JawStretch> stretches = jaw_stretches(envelope, options).value();
        INFO(prompt);
        REQUIRE_FALSE(stretches.empty());
        for (std::size_t i = 0; i < stretches.size(); ++i) {
            CHECK(stretches[i].end - stretches[i].begin >= 120ms);
            CHECK((i == 0 || stretches[i].begin - stretches[i - 1].end >= 90ms));
        }
        CHECK(voiced_share(envelope, stretches, options) > 0.9);
    }
}

TEST_CASE("Silence opens no jaw, and options that make no sense are refused") {
    CHECK(jaw_stretches(levels({{100, Envelope::silence}}), {}).value().empty());
    CHECK(jaw_stretches({}, {}).value().empty());
    JawOptions options;
    options.close_db = options.open_db - 1.0;
    CHECK(jaw_stretches({}, options).error().where == "jaw");
    options = {};
    options.open_lead_ms = std::numeric_limits<double>::quiet_NaN();
    CHECK_FALSE(jaw_stretches({}, options).has_value());
}
