// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/knocks.hpp"

#include "tests/core/sound/impacts.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <algorithm>
#include <cmath>

using namespace gasp;
using namespace gasp::test;

namespace {

constexpr int wav = SF_FORMAT_WAV | SF_FORMAT_PCM_16;
constexpr int rate = 48000;
constexpr double loudest = 0.3;

double below(double peak, double db) {
    return peak / std::pow(10.0, db / 20.0);
}

std::vector<Knock> knocks_of(const Recording& recording, const Folder& folder) {
    write_sound(folder / "take.wav", wav, recording.rate(), 1, recording.samples());
    return find_knocks(folder / "take.wav").value();
}

Error refusal(const std::filesystem::path& recording) {
    const Result<std::vector<Knock>> knocks = find_knocks(recording);
    REQUIRE_FALSE(knocks.has_value());
    return knocks.error();
}

struct Take {
    Recording recording;
    std::vector<double> times;  ///< of its knocks
};

/// Two strokes out and two back, the clicks 10 dB below the thumps, with air flowing in between.
Take strokes(unsigned seed, double hiss_rms) {
    Take take{Recording(9.0, rate, seed), {}};
    const auto stroke = [&](double at, double length, double flow) {
        take.recording.strike(click(), at, below(loudest, 10.0));
        take.recording.strike(thump(), at + length, loudest);
        take.recording.add_hiss(at, at + flow, hiss_rms);
        take.times.push_back(at);
        take.times.push_back(at + length);
    };
    for (const double from : {0.51237, 4.52911}) {
        stroke(from, 0.2871, 0.5);
        stroke(from + 2.0, 0.9153, 1.1);
    }
    return take;
}

/// Each knock is found once, within so many ms, and nothing else is.
void check_found(const std::vector<Knock>& knocks, const std::vector<double>& times, double within_ms) {
    REQUIRE(knocks.size() == times.size());
    for (std::size_t i = 0; i < times.size(); ++i) {
        CHECK(std::abs(knocks[i].time_s - times[i]) * 1000.0 < within_ms);
    }
}

}  // namespace

TEST_CASE("clicks and thumps are placed within a quarter of a millisecond, in noise and hiss") {
    const Folder folder;
    // Peak of the thumps over the RMS of the noise.
    for (const double db : {60.0, 46.0, 40.0, 34.0}) {
        for (const bool pink : {false, true}) {
            INFO(db << (pink ? " dB, pink" : " dB, white"));
            Take take = strokes(7, below(loudest, db - 6.0));
            pink ? take.recording.add_pink(below(loudest, db)) : take.recording.add_white(below(loudest, db));
            take.recording.add_hum(50.0, 0.02);
            const std::vector<Knock> knocks = knocks_of(take.recording, folder);
            check_found(knocks, take.times, 0.25);
            for (const Knock& knock : knocks) {
                CHECK(knock.confidence > 0.2);
            }
        }
    }
}

TEST_CASE("in too much noise a knock is missed, none is made up") {
    const Folder folder;
    for (const double db : {22.0, 16.0, 10.0}) {
        Take take = strokes(11, below(loudest, db - 6.0));
        take.recording.add_pink(below(loudest, db));
        const std::vector<Knock> knocks = knocks_of(take.recording, folder);
        CHECK(knocks.size() < take.times.size());
        for (const Knock& knock : knocks) {
            CHECK(std::ranges::any_of(take.times,
                                      [&](double time) { return std::abs(time - knock.time_s) < 0.002; }));
        }
    }
}

TEST_CASE("confidence grows with the distance from the noise") {
    const Folder folder;
    double before = 1.0;
    for (const double db : {60.0, 50.0, 40.0, 34.0}) {
        Take take = strokes(3, 0.0);
        take.recording.add_white(below(loudest, db));
        double least = 1.0;
        for (const Knock& knock : knocks_of(take.recording, folder)) {
            least = std::min(least, knock.confidence);
        }
        CHECK(least < before);
        before = least;
    }
}

TEST_CASE("silence, noise and hum hold no knocks") {
    const Folder folder;
    Recording recording(10.0, rate, 5);
    CHECK(knocks_of(recording, folder).empty());
    recording.add_hum(50.0, 0.2);
    CHECK(knocks_of(recording, folder).empty());
    recording.add_pink(0.05);
    recording.add_white(0.01);
    CHECK(knocks_of(recording, folder).empty());
}

TEST_CASE("any rate, number of channels and format gives the same knocks") {
    const Folder folder;
    for (const int other : {8000, 16000, 44100, 96000}) {
        Recording recording(2.0, other, 1);
        recording.strike(click(), 0.5, 0.1);
        recording.strike(thump(), 0.8, 0.3);
        recording.add_white(0.0005);
        INFO(other);
        check_found(knocks_of(recording, folder), {0.5, 0.8}, 0.3);
    }
    const Take take = strokes(1, 0.001);
    std::vector<float> stereo;
    for (const float sample : take.recording.samples()) {
        stereo.push_back(sample);
        stereo.push_back(-sample);  // against each other: a sum of channels would be silent
    }
    write_sound(folder / "take.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_24, rate, 2, stereo);
    check_found(find_knocks(folder / "take.flac").value(), take.times, 0.25);
    write_sound(folder / "take.ogg", SF_FORMAT_OGG | SF_FORMAT_VORBIS, rate, 1, take.recording.samples());
    const std::vector<Knock> lossy = find_knocks(folder / "take.ogg").value();
    for (const double time : take.times) {  // its echoes ahead of a sound blur the start by some ms
        CHECK(std::ranges::any_of(lossy,
                                  [&](const Knock& knock) { return std::abs(time - knock.time_s) < 0.008; }));
    }
}

TEST_CASE("a recording that cannot be used is named with a remedy") {
    const Folder folder;
    CHECK(refusal(folder / "none.wav").where.find("none.wav") != std::string::npos);
    write_sound(folder / "slow.wav", wav, 4000, 1, std::vector<float>(4000));
    const Error slow = refusal(folder / "slow.wav");
    CHECK(slow.text().find("4000 frames a second") != std::string::npos);
    CHECK_FALSE(slow.remedy.empty());
    write_sound(folder / "long.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_U8, 8000, 1,
                std::vector<float>(8000 * 901));
    const Error longer = refusal(folder / "long.wav");
    CHECK(longer.what == "the recording is longer than 15 min");
    CHECK_FALSE(longer.remedy.empty());
    write_sound(folder / "short.wav", wav, 8000, 1, std::vector<float>(5, 0.5F));
    CHECK(find_knocks(folder / "short.wav").value().empty());
}
