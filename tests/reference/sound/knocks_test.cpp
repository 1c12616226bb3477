// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
//
// Knocks against real ones: recorded key presses of Debian's bucklespring-data (a switch that snaps, 44.1
// kHz), twice at a known distance, so that their true start need not be known. Behind them recorded voices of
// Debian's asterisk-core-sounds-en-wav, brought to that rate by Debian's sox.
#include "core/sound/knocks.hpp"

#include "core/sound/sound_file.hpp"
#include "tests/core/sound/impacts.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>

using namespace gasp;
using namespace gasp::test;

namespace {

constexpr int rate = 44100;

std::vector<float> sound_of(const std::filesystem::path& path) {
    SoundFile file = SoundFile::open(path).value();
    REQUIRE(file.info().rate == rate);
    std::vector<float> mixed;
    std::vector<float> frame(static_cast<std::size_t>(file.info().channels));
    while (file.read(frame) == 1) {
        mixed.push_back(frame[0]);
    }
    return mixed;
}

double peak_of(const std::vector<float>& sound) {
    double peak = 0.0;
    for (const float sample : sound) {
        peak = std::max(peak, std::abs(static_cast<double>(sample)));
    }
    return peak;
}

std::vector<std::filesystem::path> key_presses() {
    std::vector<std::filesystem::path> found;
    for (const auto& entry : std::filesystem::directory_iterator("/usr/share/buckle/wav")) {
        if (entry.path().string().ends_with("-1.wav")) {
            found.push_back(entry.path());
        }
    }
    std::ranges::sort(found);
    REQUIRE(found.size() > 50);
    return found;
}

constexpr double distance_s = 0.6127;

/// The surest pair of knocks about the known distance apart, as ms off it.
std::optional<double> error_ms(const std::vector<Knock>& knocks) {
    double best = 0.0;
    std::optional<double> error;
    for (const Knock& first : knocks) {
        for (const Knock& second : knocks) {
            const double off = (second.time_s - first.time_s - distance_s) * 1000.0;
            const double sure = std::min(first.confidence, second.confidence);
            if (std::abs(off) < 60.0 && sure > best) {
                best = sure;
                error = off;
            }
        }
    }
    return error;
}

/// How many of the presses are timed within 2 ms, their peak so much above that of the background.
double share_timed(const std::vector<float>& background, double db, const Folder& folder) {
    int good = 0;
    int all = 0;
    for (const auto& press : key_presses()) {
        const std::vector<float> sound = sound_of(press);
        Recording recording(2.0, rate, static_cast<unsigned>(all + 1));
        recording.add(sound, 0.4, 0.5 / peak_of(sound));
        recording.add(sound, 0.4 + distance_s, 0.5 / peak_of(sound));
        recording.add(background, 0.0, 0.5 / std::pow(10.0, db / 20.0) / peak_of(background));
        recording.add_pink(0.0005);
        write_sound(folder / "take.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, rate, 1, recording.samples());
        const std::optional<double> error = error_ms(find_knocks(folder / "take.wav").value());
        good += error && std::abs(*error) < 2.0 ? 1 : 0;
        ++all;
    }
    std::printf("knocks over a background %.0f dB below: %d of %d within 2 ms\n", db, good, all);
    return static_cast<double>(good) / all;
}

}  // namespace

TEST_CASE("recorded switches are timed over silence, and over recorded voices", "[reference]") {
    const Folder folder;
    CHECK(share_timed({1e-6F}, 60.0, folder) > 0.95);
    const std::filesystem::path voice = recorded_prompts().at(20);
    shell("sox " + quoted(voice) + " -r 44100 " + quoted(folder / "voice.wav") + " repeat 20 trim 0 2");
    const std::vector<float> background = sound_of(folder / "voice.wav");
    CHECK(share_timed(background, 20.0, folder) > 0.85);
    CHECK(share_timed(background, 10.0, folder) > 0.5);
}
