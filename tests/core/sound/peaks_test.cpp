// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/peaks.hpp"

#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <random>
#include <thread>
#include <vector>

using namespace gasp;

namespace {
std::shared_ptr<const PeakPyramid> built(const std::filesystem::path& path, int threads = 2) {
    Result<PeakBuilder> builder = PeakBuilder::open(path, {threads});
    REQUIRE(builder);
    const Result<void> done = builder->build(test::never, {});
    INFO((done ? "" : done.error().text()));
    REQUIRE(done);
    return builder->pyramid();
}

/// What a column must be, from the samples themselves: every bin of 256 frames it touches, whole.
Peak brute_force(std::span<const std::int16_t> samples, int channels, int channel, double from, double to) {
    const std::int64_t frames = static_cast<std::int64_t>(samples.size()) / channels;
    if (to <= 0 || from >= static_cast<double>(frames)) {
        return {};
    }
    const auto first = static_cast<std::int64_t>(std::max(0.0, from)) / 256 * 256;
    const auto last = std::min(frames, static_cast<std::int64_t>(std::ceil(std::min(to, 1e12) / 256)) * 256);
    Peak peak{INT16_MAX, INT16_MIN, 0};
    double squares = 0;
    for (std::int64_t i = first; i < last; ++i) {
        const std::int16_t value = samples[static_cast<std::size_t>(i * channels + channel)];
        peak.min = std::min(peak.min, value);
        peak.max = std::max(peak.max, value);
        squares += static_cast<double>(value) * value;
    }
    peak.rms =
        static_cast<std::uint16_t>(std::lround(std::sqrt(squares / static_cast<double>(last - first))));
    return peak;
}

void check_random_columns(const PeakPyramid& pyramid, std::span<const std::int16_t> samples, unsigned seed,
                          int rounds = 40) {
    std::mt19937 random(seed);
    const double frames = static_cast<double>(pyramid.frames());
    for (int round = 0; round < rounds; ++round) {
        const double step = std::exp(std::uniform_real_distribution<>(0.0, std::log(frames * 1.5))(random));
        const double first = std::uniform_real_distribution<>(-2.0 * step, frames)(random);
        const int channel = static_cast<int>(random() % static_cast<unsigned>(pyramid.channels()));
        std::vector<Peak> out(8);
        std::vector<std::uint8_t> provisional(8, 9);
        pyramid.columns(channel, first, step, out, provisional);
        for (std::size_t i = 0; i < out.size(); ++i) {
            const double from = first + static_cast<double>(i) * step;
            const double to = first + static_cast<double>(i + 1) * step;
            const Peak wanted = brute_force(samples, pyramid.channels(), channel, from, to);
            INFO("channel " << channel << ", frames " << from << " to " << to);
            REQUIRE(out[i].min == wanted.min);
            REQUIRE(out[i].max == wanted.max);
            REQUIRE(std::abs(out[i].rms - wanted.rms) <= 1);
            REQUIRE(provisional[i] == 0);
        }
    }
}

}  // namespace

TEST_CASE("Columns at random zooms are those of the samples") {
    const test::Folder folder;
    const auto path = folder / "random.wav";
    // Shorter than a bin, one bin, odd lengths, and more than two segments.
    const std::int64_t frames = GENERATE(1, 255, 256, 257, 100'003, 2'300'001);
    const int channels = GENERATE(1, 2, 3);
    const auto samples = test::random_samples(frames, channels, static_cast<unsigned>(frames));
    test::write_sound(path, SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, channels, samples);
    const auto pyramid = built(path);
    CHECK(pyramid->frames() == frames);
    CHECK(pyramid->built_frames() == frames);
    CHECK(pyramid->true_frames() == frames);
    CHECK(pyramid->complete());
    CHECK(pyramid->rate() == 48000);
    CHECK(pyramid->channels() == channels);
    check_random_columns(*pyramid, samples, static_cast<unsigned>(frames + channels));
}

namespace {

/// Every bin and some coarser columns of all channels.
std::vector<Peak> everything(const PeakPyramid& pyramid) {
    std::vector<Peak> all;
    for (int channel = 0; channel < pyramid.channels(); ++channel) {
        for (const double step : {256.0, 1024.0, 65536.0, 777'777.0}) {
            std::vector<Peak> out(
                static_cast<std::size_t>(std::ceil(static_cast<double>(pyramid.frames()) / step)));
            pyramid.columns(channel, 0.0, step, out);
            all.insert(all.end(), out.begin(), out.end());
        }
    }
    return all;
}

/// About a minute and a half of recorded voices at 48 kHz in stereo, the right channel late.
void record_voices(const std::filesystem::path& path) {
    std::string command = "sox";
    const auto prompts = test::recorded_prompts();
    for (std::size_t i = 0; i < 45; ++i) {
        command += " " + prompts[i].string();
    }
    test::shell(command + " -r 48000 " + test::quoted(path) + " remix 1 1 delay 0 0.01");
}

}  // namespace

TEST_CASE("One thread and several find the same, and what decoding straight through finds") {
    const test::Folder folder;
    record_voices(folder / "voices.wav");
    test::shell("cd " + test::quoted(folder.path()) + " && flac -s voices.wav && oggenc -Q voices.wav");
    for (const char* name : {"voices.wav", "voices.flac", "voices.ogg"}) {
        INFO(name);
        const auto one = built(folder / name, 1);
        REQUIRE(one->frames() > 3 * PeakPyramid::segment_frames);
        const auto found = everything(*one);
        CHECK(found == everything(*built(folder / name, 2)));
        CHECK(found == everything(*built(folder / name, 5)));
        Result<SoundFile> file = SoundFile::open(folder / name);
        REQUIRE(file);
        std::vector<std::int16_t> samples(static_cast<std::size_t>(one->frames()) * 2);
        REQUIRE(file->read(samples) == one->frames());
        check_random_columns(*one, samples, 4, 5);
    }
}

TEST_CASE("A pyramid takes at most a fiftieth of the 16-bit samples") {
    const test::Folder folder;
    const auto samples = test::random_samples(5'000'000, 1, 2);
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 1, samples);
    const auto pyramid = built(folder / "a.wav");
    CHECK(pyramid->bytes() > 0);
    CHECK(static_cast<double>(pyramid->bytes()) <= 0.02 * 2.0 * 5'000'000);
}

TEST_CASE("Progress never falls and ends at 1") {
    const test::Folder folder;
    const auto samples = test::random_samples(5'000'000, 1, 2);
    test::write_sound(folder / "a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 48000, 1, samples);
    for (const int threads : {1, 2}) {
        Result<PeakBuilder> builder = PeakBuilder::open(folder / "a.flac", {threads});
        REQUIRE(builder);
        std::vector<double> told;
        REQUIRE(builder->build(test::never, [&](double share) { told.push_back(share); }));
        CHECK(told.size() > 20);
        CHECK(std::is_sorted(told.begin(), told.end()));
        CHECK(told.front() > 0.0);
        CHECK(told.back() == 1.0);
    }
}

TEST_CASE("Cancelling stops the work and leaves an incomplete pyramid that can be read") {
    const test::Folder folder;
    const auto samples = test::random_samples(6'000'000, 1, 2);
    test::write_sound(folder / "a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 48000, 1, samples);
    for (const int threads : {1, 2}) {
        Result<PeakBuilder> builder = PeakBuilder::open(folder / "a.flac", {threads});
        REQUIRE(builder);
        std::atomic<bool> cancel{false};
        double last = 0.0;
        REQUIRE(builder->build(cancel, [&](double share) {
            last = share;
            cancel = share > 0.4;
        }));
        CHECK(last < 0.6);
        const auto pyramid = builder->pyramid();
        CHECK_FALSE(pyramid->complete());
        CHECK(pyramid->built_frames() < pyramid->frames());
        if (threads > 1) {
            continue;  // which segments are whole by then depends on how the threads were scheduled
        }
        CHECK(pyramid->built_frames() == 2 * PeakPyramid::segment_frames);
        std::vector<Peak> out(2);
        std::vector<std::uint8_t> provisional(2);
        pyramid->columns(0, 0.0, static_cast<double>(pyramid->frames() - 1), out, provisional);
        CHECK(provisional == std::vector<std::uint8_t>{1, 1});
        pyramid->columns(0, 0.0, 256.0, out, provisional);
        CHECK(provisional == std::vector<std::uint8_t>{0, 0});
        CHECK(out[0] == brute_force(samples, 1, 0, 0.0, 256.0));
    }
}

TEST_CASE("Cancelled beforehand nothing is built") {
    const test::Folder folder;
    test::write_sound(folder / "a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 48000, 1,
                      test::random_samples(4'000'000, 1, 2));
    Result<PeakBuilder> builder = PeakBuilder::open(folder / "a.flac", {2});
    REQUIRE(builder);
    const std::atomic<bool> cancel{true};
    REQUIRE(builder->build(cancel, {}));
    CHECK(builder->pyramid()->built_frames() == 0);
}

TEST_CASE("A cut FLAC file keeps what can be read and tells where it ends") {
    const test::Folder folder;
    const auto samples = test::random_samples(4'000'000, 1, 2);
    test::write_sound(folder / "whole.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 48000, 1, samples);
    const std::string bytes = test::read_bytes(folder / "whole.flac");
    test::write_bytes(folder / "cut.flac", bytes.substr(0, bytes.size() * 6 / 10));
    for (const int threads : {1, 2}) {
        Result<PeakBuilder> builder = PeakBuilder::open(folder / "cut.flac", {threads});
        REQUIRE(builder);
        double last = 0.0;
        const Result<void> done = builder->build(test::never, [&](double share) { last = share; });
        REQUIRE_FALSE(done);
        CHECK(done.error().where == (folder / "cut.flac").string());
        CHECK(last == 1.0);
        const auto pyramid = builder->pyramid();
        CHECK(pyramid->complete());
        CHECK(pyramid->frames() == 4'000'000);
        CHECK(pyramid->true_frames() > 2'000'000);
        CHECK(pyramid->true_frames() < 2'800'000);
        CHECK(pyramid->built_frames() == pyramid->true_frames());
        const auto end = static_cast<std::size_t>(pyramid->true_frames());
        check_random_columns(*pyramid, std::span(samples).first(end), 4, 10);
    }
}

TEST_CASE("The first overview is drawn from the file's own samples and marked provisional") {
    const test::Folder folder;
    const auto samples = test::random_samples(6'000'000, 1, 2);
    test::write_sound(folder / "a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 48000, 1, samples);
    Result<PeakBuilder> builder = PeakBuilder::open(folder / "a.flac", {2});
    REQUIRE(builder);
    std::vector<Peak> sparse(100);
    std::vector<std::uint8_t> provisional(100, 0);
    builder->pyramid()->columns(0, 0.0, 60'000.0, sparse, provisional);
    CHECK(std::count(provisional.begin(), provisional.end(), 1) == 100);
    CHECK(std::count(sparse.begin(), sparse.end(), Peak{}) == 100);

    builder->overview(100, test::never);
    builder->pyramid()->columns(0, 0.0, 60'000.0, sparse, provisional);
    CHECK(std::count(provisional.begin(), provisional.end(), 1) == 100);
    REQUIRE(builder->build(test::never, {}));
    std::vector<Peak> full(100);
    builder->pyramid()->columns(0, 0.0, 60'000.0, full, provisional);
    CHECK(std::count(provisional.begin(), provisional.end(), 0) == 100);
    for (std::size_t i = 0; i < full.size(); ++i) {
        INFO("column " << i);
        CHECK(sparse[i].rms > 0);
        CHECK(sparse[i].min >= full[i].min);
        CHECK(sparse[i].max <= full[i].max);
    }
}

TEST_CASE("Reading while it is built gives the final value or says it is provisional") {
    const test::Folder folder;
    const auto samples = test::random_samples(8'000'000, 1, 2);
    test::write_sound(folder / "a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 48000, 1, samples);
    const auto final = built(folder / "a.flac");
    std::vector<Peak> wanted(200);
    final->columns(0, 0.0, 40'000.0, wanted);

    Result<PeakBuilder> builder = PeakBuilder::open(folder / "a.flac", {2});
    REQUIRE(builder);
    const auto pyramid = builder->pyramid();
    std::atomic<bool> wrong{false};
    std::atomic<int> reads{0};
    std::jthread reader([&] {
        std::vector<Peak> out(200);
        std::vector<std::uint8_t> provisional(200);
        bool complete = false;
        while (!complete) {
            complete = pyramid->complete();
            const std::int64_t in_order = pyramid->built_frames();
            pyramid->columns(0, 0.0, 40'000.0, out, provisional);
            for (std::size_t i = 0; i < out.size(); ++i) {
                const bool due = static_cast<std::int64_t>(i + 1) * 40'000 + 256 <= in_order;
                wrong = wrong || (provisional[i] == 0 && out[i] != wanted[i]) || (due && provisional[i] != 0);
            }
            ++reads;
        }
    });
    REQUIRE(builder->build(test::never, {}));
    reader.join();
    CHECK_FALSE(wrong);
    CHECK(reads > 0);
}

TEST_CASE("A file that is gone before it is decoded is an error") {
    const test::Folder folder;
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 1,
                      test::random_samples(1000, 1, 2));
    Result<PeakBuilder> builder = PeakBuilder::open(folder / "a.wav", {2});
    REQUIRE(builder);
    std::filesystem::remove(folder / "a.wav");
    const Result<void> done = builder->build(test::never, {});
    REQUIRE_FALSE(done);
    CHECK_FALSE(builder->pyramid()->complete());
}

TEST_CASE("Columns far outside, minute and enormous are answered") {
    const test::Folder folder;
    const auto samples = test::random_samples(10'000, 1, 2);
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 1, samples);
    const auto pyramid = built(folder / "a.wav");
    std::vector<Peak> out(3);
    for (const double first : {-1e300, -1e12, 10'000.0, 1e12, 1e300}) {
        pyramid->columns(0, first, 1.0, out);
        CHECK(out == std::vector<Peak>(3));
    }
    pyramid->columns(0, -1e12, 2e12, out);
    CHECK(out[0] == brute_force(samples, 1, 0, 0.0, 10'000.0));
    CHECK(out[1] == Peak{});
    pyramid->columns(0, 5000.0, 1e-9, out);
    CHECK(out == std::vector<Peak>(3, brute_force(samples, 1, 0, 5000.0, 5000.5)));
}

TEST_CASE("A file of four hours is drawn, read in its last second and costs little memory") {
    // Silence but for the end, as a file with a hole: 230 MB that take no room on the disk.
    const test::Folder folder;
    const auto path = folder / "long.wav";
    constexpr std::int64_t rate = 8000;
    constexpr std::int64_t frames = 4 * 3600 * rate;
    const auto last = test::random_samples(rate, 1, 11);
    test::write_sound(path, SF_FORMAT_WAV | SF_FORMAT_PCM_16, static_cast<int>(rate), 1, last);
    std::string bytes = test::read_bytes(path);
    const std::string samples = bytes.substr(bytes.size() - 2 * last.size());
    bytes.resize(bytes.size() - samples.size());
    const auto put = [&bytes](std::size_t at, std::uint64_t number) {
        for (std::size_t i = 0; i < 4; ++i) {
            bytes[at + i] = static_cast<char>(number >> (8 * i) & 0xff);
        }
    };
    put(4, bytes.size() - 8 + 2 * frames);
    put(bytes.size() - 4, 2 * frames);
    test::write_bytes(path, bytes);
    std::filesystem::resize_file(path, bytes.size() + 2 * (frames - rate));
    std::ofstream(path, std::ios::binary | std::ios::app) << samples;

    const auto pyramid = built(path);
    CHECK(pyramid->frames() == frames);
    CHECK(pyramid->true_frames() == frames);
    CHECK(pyramid->bytes() <= 2 * frames / 50);
    std::vector<Peak> peaks(2);
    pyramid->columns(0, 0.0, static_cast<double>(frames - rate), peaks);
    CHECK(peaks[0].max <= *std::ranges::max_element(last));
    CHECK(peaks[1].max == *std::ranges::max_element(last));
    CHECK(peaks[1].min == *std::ranges::min_element(last));
    Result<SoundFile> file = SoundFile::open(path);
    REQUIRE(file);
    REQUIRE(file->seek(frames - rate));
    std::vector<std::int16_t> read(last.size());
    CHECK(file->read(read) == rate);
    CHECK((read == last));
}
