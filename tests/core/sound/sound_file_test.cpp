// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/sound_file.hpp"

#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

using namespace gasp;

namespace {

std::vector<std::int16_t> read_all(SoundFile& file, std::int64_t frames) {
    std::vector<std::int16_t> samples(static_cast<std::size_t>(frames * file.info().channels));
    REQUIRE(file.read(samples) == frames);
    return samples;
}

struct Kind {
    const char* name;
    const char* text;
    int format;
    bool sixteen_bit;
    bool compressed;
    bool seeks_exactly;
};

const std::vector<Kind> lossless_kinds{
    {"a.wav", "WAV, 16-bit PCM", SF_FORMAT_WAV | SF_FORMAT_PCM_16, true, false, true},
    {"b.wav", "WAV, 24-bit PCM", SF_FORMAT_WAV | SF_FORMAT_PCM_24, false, false, true},
    {"c.wav", "WAV, 32-bit PCM", SF_FORMAT_WAV | SF_FORMAT_PCM_32, false, false, true},
    {"d.wav", "WAV, 32-bit float", SF_FORMAT_WAV | SF_FORMAT_FLOAT, false, false, true},
    {"e.wav", "WAV, 64-bit float", SF_FORMAT_WAV | SF_FORMAT_DOUBLE, false, false, true},
    {"f.wav", "WAV, 16-bit PCM", SF_FORMAT_WAVEX | SF_FORMAT_PCM_16, true, false, true},
    {"g.aiff", "AIFF, 16-bit PCM", SF_FORMAT_AIFF | SF_FORMAT_PCM_16, true, false, true},
    {"h.au", "AU, 24-bit PCM", SF_FORMAT_AU | SF_FORMAT_PCM_24, false, false, true},
    {"i.caf", "CAF, 16-bit PCM", SF_FORMAT_CAF | SF_FORMAT_PCM_16, true, false, true},
    {"j.caf", "CAF, 16-bit ALAC", SF_FORMAT_CAF | SF_FORMAT_ALAC_16, true, true, false},
    {"k.flac", "FLAC, 16-bit PCM", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, true, true, true},
    {"l.flac", "FLAC, 24-bit PCM", SF_FORMAT_FLAC | SF_FORMAT_PCM_24, false, true, true},
    {"m.w64", "W64, 16-bit PCM", SF_FORMAT_W64 | SF_FORMAT_PCM_16, true, false, true},
    {"n.rf64", "RF64, 16-bit PCM", SF_FORMAT_RF64 | SF_FORMAT_PCM_16, true, false, true},
};

const std::vector<Kind> lossy_kinds{
    {"o.ogg", "Ogg, Vorbis", SF_FORMAT_OGG | SF_FORMAT_VORBIS, false, true, true},
    {"p.opus", "Ogg, Opus", SF_FORMAT_OGG | SF_FORMAT_OPUS, false, true, false},
    {"q.mp3", "MPEG, Layer III", SF_FORMAT_MPEG | SF_FORMAT_MPEG_LAYER_III, false, true, false},
    {"r.wav", "WAV, mu-law", SF_FORMAT_WAV | SF_FORMAT_ULAW, true, false, true},
    {"s.wav", "WAV, A-law", SF_FORMAT_WAV | SF_FORMAT_ALAW, true, false, true},
    {"t.wav", "WAV, 8-bit PCM", SF_FORMAT_WAV | SF_FORMAT_PCM_U8, true, false, true},
};

void check_info(const SoundInfo& info, const Kind& kind) {
    CHECK(info.format == kind.text);
    CHECK(info.sixteen_bit == kind.sixteen_bit);
    CHECK(info.compressed == kind.compressed);
    CHECK(info.seeks_exactly == kind.seeks_exactly);
    CHECK(info.rate == 48000);
    CHECK(info.channels == 2);
}

}  // namespace

TEST_CASE("Lossless formats give back the very samples, and from any frame on") {
    const test::Folder folder;
    const std::int64_t frames = 30'011;
    const auto samples = test::random_samples(frames, 2, 3);
    for (const Kind& kind : lossless_kinds) {
        INFO(kind.name);
        const auto path = folder / kind.name;
        test::write_sound(path, kind.format, 48000, 2, samples);
        Result<SoundFile> file = SoundFile::open(path);
        REQUIRE(file);
        check_info(file->info(), kind);
        REQUIRE(file->info().frames == frames);
        CHECK((read_all(*file, frames) == samples));
        std::vector<std::int16_t> more(2);
        CHECK(file->read(more) == 0);
        for (const std::int64_t frame : {std::int64_t{0}, std::int64_t{12'345}, frames - 1}) {
            REQUIRE(file->seek(frame));
            const auto rest = read_all(*file, frames - frame);
            CHECK(std::equal(rest.begin(), rest.end(), samples.begin() + 2 * frame));
        }
    }
}

TEST_CASE("Lossy formats are read to their length") {
    const test::Folder folder;
    const std::int64_t frames = 48'000;
    std::vector<float> sine(2 * static_cast<std::size_t>(frames));
    for (std::size_t i = 0; i < sine.size(); ++i) {
        sine[i] = 0.5F * std::sin(static_cast<float>(i / 2) * 0.05F);
    }
    for (const Kind& kind : lossy_kinds) {
        INFO(kind.name);
        const auto path = folder / kind.name;
        test::write_sound(path, kind.format, 48000, 2, sine);
        Result<SoundFile> file = SoundFile::open(path);
        REQUIRE(file);
        check_info(file->info(), kind);
        const std::int64_t padding =
            kind.format == (SF_FORMAT_MPEG | SF_FORMAT_MPEG_LAYER_III) ? 3 * 1152 : 0;
        CHECK(file->info().frames >= frames);
        CHECK(file->info().frames <= frames + padding);
        std::vector<float> out(sine.size());
        REQUIRE(file->read(out) == frames);
        const float loudest = *std::max_element(out.begin(), out.end());
        CHECK(loudest == Approx(0.5F).margin(0.03));
    }
}

TEST_CASE("More than 16 bits are rounded, not cut off") {
    const test::Folder folder;
    const auto path = folder / "fine.wav";
    const std::vector<float> samples{0.6F / 32768, -0.6F / 32768, 99.4F / 32768, 0.9999999F, -1.0F};
    test::write_sound(path, SF_FORMAT_WAV | SF_FORMAT_PCM_24, 48000, 1, samples);
    Result<SoundFile> file = SoundFile::open(path);
    REQUIRE(file);
    CHECK(read_all(*file, 5) == std::vector<std::int16_t>{1, -1, 99, 32767, -32768});
}

TEST_CASE("Samples that are no numbers read as silence") {
    const test::Folder folder;
    const auto path = folder / "nan.wav";
    constexpr float infinity = std::numeric_limits<float>::infinity();
    constexpr float nan = std::numeric_limits<float>::quiet_NaN();
    const std::vector<float> samples{nan, 0.25F, infinity, -infinity, -0.25F, 3.0F};
    test::write_sound(path, SF_FORMAT_WAV | SF_FORMAT_FLOAT, 8000, 1, samples);
    Result<SoundFile> file = SoundFile::open(path);
    REQUIRE(file);
    std::vector<float> out(6);
    REQUIRE(file->read(out) == 6);
    CHECK(out == std::vector<float>{0.0F, 0.25F, 0.0F, 0.0F, -0.25F, 3.0F});
    REQUIRE(file->seek(0));
    CHECK(read_all(*file, 6) == std::vector<std::int16_t>{0, 8192, 0, 0, -8192, 32767});
}

TEST_CASE("A file that does not say its length is counted") {
    const test::Folder folder;
    const auto wav = folder / "a.wav";
    const auto piped = folder / "piped.flac";
    const auto samples = test::random_samples(70'001, 1, 5);
    test::write_sound(wav, SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 1, samples);
    // Encoding raw samples into a pipe, flac cannot go back to write the length into the header.
    test::shell("sox " + test::quoted(wav) +
                " -t raw - | flac -s --force-raw-format --endian=little --sign=signed " +
                "--channels=1 --bps=16 --sample-rate=48000 -c - 2>/dev/null | cat > " + test::quoted(piped));
    Result<SoundFile> file = SoundFile::open(piped);
    REQUIRE(file);
    CHECK(file->info().frames == 70'001);
    CHECK((read_all(*file, 70'001) == samples));
}

TEST_CASE("Channels are placed as the file tells, or in the order of its format") {
    using enum SpeakerPosition;
    const test::Folder folder;
    const auto samples = test::random_samples(600, 6, 5);
    const auto speakers = [&](const char* name, int format) {
        test::write_sound(folder / name, format, 48000, 6, samples);
        const Result<SoundFile> file = SoundFile::open(folder / name);
        REQUIRE(file);
        return file->info().speakers;
    };
    const std::vector wave_order{left, right, centre, low_frequency, left_surround, right_surround};
    const std::vector vorbis_order{left, centre, right, left_surround, right_surround, low_frequency};
    CHECK(speakers("a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16) == wave_order);
    CHECK(speakers("a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16) == wave_order);
    CHECK(speakers("a.ogg", SF_FORMAT_OGG | SF_FORMAT_VORBIS) == vorbis_order);
}

TEST_CASE("A seek in an Ogg Vorbis file lands on the very frame") {
    const test::Folder folder;
    const std::int64_t frames = 300'000;
    // Loud and quiet stretches make the encoder change its block size all the time, which is where seeks go
    // wrong.
    test::write_sound(folder / "a.ogg", SF_FORMAT_OGG | SF_FORMAT_VORBIS, 44100, 2,
                      test::random_samples(frames, 2, 1));
    Result<SoundFile> file = SoundFile::open(folder / "a.ogg");
    REQUIRE(file);
    const auto straight = read_all(*file, frames);
    std::mt19937 random(3);
    for (int round = 0; round < 100; ++round) {
        const auto frame = static_cast<std::int64_t>(random() % static_cast<unsigned>(frames - 3000));
        INFO("frame " << frame);
        REQUIRE(file->seek(frame));
        const auto there = read_all(*file, 3000);
        REQUIRE(std::equal(there.begin(), there.end(), straight.begin() + 2 * frame));
    }
    REQUIRE(file->seek_near(100'000));
    REQUIRE(file->seek(frames - 1));
    CHECK(read_all(*file, 1).size() == 2);
}

TEST_CASE("Opus is decoded as Debian's opus-tools decodes it") {
    const test::Folder folder;
    const auto prompts = test::speaker_test_prompts();
    REQUIRE_FALSE(prompts.empty());
    const auto coded = folder / "a.opus";
    const auto decoded = folder / "a.wav";
    test::shell("opusenc --quiet --bitrate 64 " + test::quoted(prompts.front()) + " " + test::quoted(coded));
    test::shell("opusdec --quiet --no-dither --rate 48000 " + test::quoted(coded) + " " +
                test::quoted(decoded));
    Result<SoundFile> ours = SoundFile::open(coded);
    Result<SoundFile> theirs = SoundFile::open(decoded);
    REQUIRE(ours);
    REQUIRE(theirs);
    REQUIRE(ours->info().frames == theirs->info().frames);
    REQUIRE(ours->info().channels == theirs->info().channels);
    const std::int64_t frames = ours->info().frames;
    const auto one = read_all(*ours, frames);
    const auto other = read_all(*theirs, frames);
    REQUIRE(one.size() == other.size());
    int largest = 0;
    for (std::size_t i = 0; i < one.size(); ++i) {
        largest = std::max(largest, std::abs(one[i] - other[i]));
    }
    CHECK(largest <= 1);
}
