// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/mix.hpp"

#include "core/show/edits.hpp"
#include "core/sound/clip_reader.hpp"
#include "core/sound/downmix.hpp"
#include "tests/core/sound/allocations.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

SoundClip clip_of(const char* file, Micros start, Micros from, Micros length, double gain_db = 0.0) {
    SoundClip clip;
    clip.file = file;
    clip.start = start;
    clip.from = from;
    clip.length = length;
    clip.gain_db = gain_db;
    return clip;
}

Sequence sequence_of(Micros length, std::vector<SoundClip> clips) {
    Sequence sequence;
    sequence.length = length;
    sequence.clips = std::move(clips);
    return sequence;
}

std::vector<float> read_frames(Mix& mix, std::int64_t frames, std::size_t block = 511) {
    std::vector<float> out(2 * static_cast<std::size_t>(frames), 9.0F);
    for (std::span<float> rest = out; !rest.empty();) {
        const std::span part = rest.first(std::min(2 * block, rest.size()));
        mix.read(part);
        rest = rest.subspan(part.size());
    }
    return out;
}

double largest_difference(std::span<const float> one, std::span<const float> other) {
    REQUIRE(one.size() == other.size());
    double largest = 0.0;
    for (std::size_t i = 0; i < one.size(); ++i) {
        largest = std::max(largest, std::fabs(static_cast<double>(one[i]) - static_cast<double>(other[i])));
    }
    return largest;
}

}  // namespace

TEST_CASE("A clip sounds from its start for its length, from its place in the file, with its gain") {
    const test::Folder folder;
    const auto samples = test::random_samples(8000, 1, 1);
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 8000, 1, samples);
    Mix mix = Mix::open(sequence_of(2s, {clip_of("a.wav", 250ms, 100ms, 500ms, -20.0)}), folder.path(), 8000);
    CHECK(mix.problems().empty());
    CHECK(mix.frames() == 16000);
    const auto out = read_frames(mix, 20'000);
    for (std::size_t frame = 0; frame < 20'000; ++frame) {
        const bool sounding = frame >= 2000 && frame < 6000;
        const double wanted = sounding ? samples[frame - 2000 + 800] / 32768.0 * 0.1 : 0.0;
        REQUIRE(out[2 * frame] == Approx(wanted).margin(1e-8));
        REQUIRE(out[2 * frame + 1] == out[2 * frame]);
    }
}

TEST_CASE("Clips add up, stop at the end of their file and of the sequence") {
    const test::Folder folder;
    const auto mono = test::random_samples(4000, 1, 1);
    const auto stereo = test::random_samples(9000, 2, 2);
    test::write_sound(folder / "mono.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 8000, 1, mono);
    test::write_sound(folder / "stereo.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 8000, 2, stereo);
    Mix mix = Mix::open(
        sequence_of(1s, {clip_of("mono.wav", 125ms, 0ms, 3s), clip_of("stereo.flac", 0ms, 0ms, 1125ms)}),
        folder.path(), 8000);
    const auto out = read_frames(mix, 9000);
    for (std::size_t frame = 0; frame < 9000; ++frame) {
        for (std::size_t side = 0; side < 2; ++side) {
            double wanted = frame < 8000 ? stereo[2 * frame + side] / 32768.0 : 0.0;
            wanted += frame >= 1000 && frame < 5000 ? mono[frame - 1000] / 32768.0 : 0.0;
            REQUIRE(out[2 * frame + side] == Approx(wanted).margin(1e-7));
        }
    }
}

TEST_CASE("After a seek the mix is what reading from the start gives there") {
    const test::Folder folder;
    const auto samples = test::random_samples(100'000, 2, 1);
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 44100, 2, samples);
    test::write_sound(folder / "a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_24, 44100, 2, samples);
    test::write_sound(folder / "a.ogg", SF_FORMAT_OGG | SF_FORMAT_VORBIS, 44100, 2, samples);
    const auto sequence =
        sequence_of(3s, {clip_of("a.wav", 0ms, 0ms, 2s), clip_of("a.flac", 301ms, 77ms, 1900ms, -6.0),
                         clip_of("a.ogg", 1s, 500ms, 1s, 3.0)});
    const int rate = GENERATE(44100, 48000, 8000, 96000, 44101);
    Mix mix = Mix::open(sequence, folder.path(), rate);
    REQUIRE(mix.problems().empty());
    const auto straight = read_frames(mix, mix.frames());
    std::mt19937 random(5);
    for (int round = 0; round < 25; ++round) {
        const auto frame = static_cast<std::int64_t>(random() % static_cast<unsigned>(mix.frames()));
        const std::int64_t size = std::min<std::int64_t>(3000, mix.frames() - frame);
        mix.seek(frame);
        const auto there = std::span(straight).subspan(2 * static_cast<std::size_t>(frame),
                                                       2 * static_cast<std::size_t>(size));
        INFO("frame " << frame << " at " << rate << " Hz");
        CHECK(largest_difference(read_frames(mix, size), there) <= (rate == 44100 ? 0.0 : 2e-6));
    }
}

TEST_CASE("Reading allocates nothing, seeking neither") {
    const test::Folder folder;
    const auto samples = test::random_samples(100'000, 2, 1);
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 44100, 2, samples);
    test::write_sound(folder / "a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 48000, 2, samples);
    Mix mix = Mix::open(sequence_of(2s, {clip_of("a.wav", 0ms, 0ms, 2s), clip_of("a.flac", 100ms, 0ms, 2s)}),
                        folder.path(), 48000);
    std::vector<float> out(2 * 4096);
    const std::int64_t before = test::allocations();
    for (int round = 0; round < 10; ++round) {
        mix.read(out);
        mix.seek(round * 7001);
    }
    CHECK(test::allocations() == before);
    CHECK(before > 0);
}

TEST_CASE("A tone keeps its pitch, level and place when its rate is changed") {
    const test::Folder folder;
    const int own_rate = GENERATE(8000, 16000, 44100, 48000, 96000);
    std::vector<float> tone(static_cast<std::size_t>(own_rate));
    const auto sine = [](double time) { return 0.5 * std::sin(2.0 * std::numbers::pi * 1000.0 * time); };
    for (std::size_t i = 0; i < tone.size(); ++i) {
        tone[i] = static_cast<float>(sine(static_cast<double>(i) / own_rate));
    }
    test::write_sound(folder / "tone.wav", SF_FORMAT_WAV | SF_FORMAT_FLOAT, own_rate, 1, tone);
    Mix mix = Mix::open(sequence_of(2s, {clip_of("tone.wav", 100ms, 0ms, 1s)}), folder.path(), 48000);
    const auto out = read_frames(mix, 2 * 48000);
    // The filter rings where the tone is cut off: the first and last 20 ms are left out.
    for (std::size_t frame = 4800 + 960; frame < 4800 + 48000 - 960; ++frame) {
        const double time = static_cast<double>(frame - 4800) / 48000.0;
        REQUIRE(out[2 * frame] == Approx(sine(time)).margin(1e-4));
    }
}

TEST_CASE("Clips that cannot be played are named, the others play") {
    const test::Folder folder;
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 8000, 1,
                      std::vector<std::int16_t>(8000, 16384));
    test::write_bytes(folder / "text.wav", "Fog.");
    const auto sequence =
        sequence_of(1s, {clip_of("missing.wav", 0ms, 0ms, 1s), clip_of("a.wav", 0ms, 0ms, 1s),
                         clip_of("text.wav", 0ms, 0ms, 1s), clip_of("../a.wav", 0ms, 0ms, 1s),
                         clip_of("/etc/passwd", 0ms, 0ms, 1s)});
    Mix mix = Mix::open(sequence, folder.path(), 8000);
    REQUIRE(mix.problems().size() == 4);
    for (const Error& problem : mix.problems()) {
        CHECK_FALSE(problem.where.empty());
        CHECK_FALSE(problem.remedy.empty());
    }
    CHECK(read_frames(mix, 1) == std::vector<float>{0.5F, 0.5F});
}

TEST_CASE("A rate too far away to convert is named") {
    const test::Folder folder;
    test::write_sound(folder / "slow.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 100, 1,
                      test::random_samples(100, 1, 1));
    Mix mix = Mix::open(sequence_of(1s, {clip_of("slow.wav", 0ms, 0ms, 1s)}), folder.path(), 48000);
    CHECK(mix.problems().size() == 1);
    CHECK(read_frames(mix, 1) == std::vector<float>{0.0F, 0.0F});
}

TEST_CASE("Channels come down to two by ITU-R BS.775, table 2") {
    using enum SpeakerPosition;
    const float root_half = std::sqrt(0.5F);
    CHECK(stereo_gains(std::vector{centre}) == std::vector<StereoGain>{{1, 1}});
    CHECK(stereo_gains(std::vector{left, right}) == std::vector<StereoGain>{{1, 0}, {0, 1}});
    CHECK(stereo_gains(std::vector{left, right, centre, low_frequency, left_surround, right_surround}) ==
          std::vector<StereoGain>{
              {1, 0}, {0, 1}, {root_half, root_half}, {0, 0}, {root_half, 0}, {0, root_half}});
}

TEST_CASE("A damaged file falls silent where it breaks and the mix goes on") {
    const test::Folder folder;
    test::write_sound(folder / "a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 8000, 1,
                      test::random_samples(40'000, 1, 1));
    const std::string bytes = test::read_bytes(folder / "a.flac");
    test::write_bytes(folder / "a.flac", bytes.substr(0, bytes.size() / 2));
    Mix mix = Mix::open(sequence_of(6s, {clip_of("a.flac", 0ms, 0ms, 5s)}), folder.path(), 8000);
    CHECK(mix.problems().empty());
    const auto out = read_frames(mix, mix.frames());
    CHECK(std::ranges::any_of(std::span(out).first(20'000), [](float sample) { return sample != 0.0F; }));
    CHECK(std::ranges::all_of(std::span(out).last(20'000), [](float sample) { return sample == 0.0F; }));
    mix.seek(35'000);
    CHECK(read_frames(mix, 100) == std::vector<float>(200, 0.0F));
    mix.seek(0);
    const auto again = read_frames(mix, 1000);
    CHECK(std::equal(again.begin(), again.end(), out.begin()));
}

TEST_CASE("The parts of a split clip join without a frame lost or doubled") {
    const test::Folder folder;
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 44100, 1,
                      test::random_samples(44100, 1, 7));
    Show show;
    Sequence whole = sequence_of(2s, {clip_of("a.wav", 100'007us, 3us, 800'011us, -3.0)});
    whole.id.value = 1;
    whole.name = "whole";
    whole.clips.front().id.value = 2;
    whole.clips.front().lane = 3;
    show.sequences = {whole};
    show.next_id = 3;
    Mix mix = Mix::open(whole, folder.path(), 44100);
    const auto wanted = read_frames(mix, 88200);
    for (int i = 1; i < 80; ++i) {
        const Micros at = whole.clips.front().start + Micros{i * 10'007};
        const Edit edit = split_clip(show, SequenceId{1}, show.sequences[0].clips.back().id, at);
        REQUIRE_FALSE(edit.empty());
        apply(edit, show);
    }
    Mix parts = Mix::open(show.sequences[0], folder.path(), 44100);
    CHECK(read_frames(parts, 88200) == wanted);
}

TEST_CASE("A fade-out over a fade-in of the same sound leaves it as it is") {
    const test::Folder folder;
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_FLOAT, 48000, 1,
                      std::vector<float>(48000, 0.5F));
    SoundClip out = clip_of("a.wav", 0ms, 0ms, 600ms);
    out.fade_out = 200ms;
    SoundClip in = clip_of("a.wav", 400ms, 400ms, 600ms);
    in.lane = 2;
    in.fade_in = 200ms;
    Mix mix = Mix::open(sequence_of(1s, {out, in}), folder.path(), 48000);
    for (const float sample : read_frames(mix, 48000)) {
        REQUIRE(sample == Approx(0.5F).margin(1e-7));
    }
    mix.seek(24000);
    CHECK(read_frames(mix, 1)[0] == Approx(0.5F).margin(1e-7));
}

TEST_CASE("A file deleted, replaced, cut or written over while it plays makes no burst") {
    enum class Fate { deleted, replaced, cut, written_over };
    const Fate fate = GENERATE(Fate::deleted, Fate::replaced, Fate::cut, Fate::written_over);
    const int format = GENERATE(SF_FORMAT_WAV | SF_FORMAT_PCM_16, SF_FORMAT_FLAC | SF_FORMAT_PCM_16,
                                SF_FORMAT_OGG | SF_FORMAT_VORBIS);
    CAPTURE(static_cast<int>(fate), format);
    const test::Folder folder;
    const std::filesystem::path path = folder / "a";
    std::vector<float> tone(10 * 48'000);
    for (std::size_t i = 0; i < tone.size(); ++i) {
        tone[i] = 0.25F * std::sin(static_cast<float>(i % 48'000) * 0.05F);
    }
    test::write_sound(path, format, 48'000, 1, tone);
    Mix mix = Mix::open(sequence_of(10s, {clip_of("a", 0s, 0s, 10s)}), folder.path(), 48'000);
    REQUIRE(mix.problems().empty());
    std::vector<float> heard = read_frames(mix, 48'000);
    switch (fate) {
        case Fate::deleted:
            std::filesystem::remove(path);
            break;
        case Fate::replaced:
            std::filesystem::rename(path, folder / "old");
            test::write_bytes(path, "not a sound at all");
            break;
        case Fate::cut:
            std::filesystem::resize_file(path, std::filesystem::file_size(path) / 4);
            break;
        case Fate::written_over:
            test::write_bytes(path, std::string(std::filesystem::file_size(path) / 2, '\0'));
            break;
    }
    const std::vector<float> rest = read_frames(mix, 9 * 48'000);
    heard.insert(heard.end(), rest.begin(), rest.end());
    mix.seek(2 * 48'000);  // may have to open the file again
    const std::vector<float> again = read_frames(mix, 48'000);
    heard.insert(heard.end(), again.begin(), again.end());
    // Of what was there, or silence: nothing is louder than the tone was.
    for (const float sample : heard) {
        REQUIRE(std::abs(sample) < 0.3F);
    }
    if (fate == Fate::deleted || fate == Fate::replaced) {  // held open: it plays to its end
        CHECK(std::abs(heard[2 * 9 * 48'000]) <= 0.26F);
        const std::span last = std::span(heard).subspan(2 * 9 * 48'000, 48'000);
        CHECK(std::ranges::max(last) > 0.2F);
    }
}
