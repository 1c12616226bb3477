// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
//
// Lengths, levels, mixing and change of rate against sox of Debian 12, on recorded voices of Debian's
// asterisk-core-sounds-en-wav and alsa-utils.
#include "core/sound/mix.hpp"
#include "core/sound/peaks.hpp"
#include "core/sound/report.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>
#include <string>
#include <vector>

using namespace gasp;
using namespace std::chrono_literals;

namespace {
/// The rows of `sox FILE -n stats`: for several channels the first figure is the overall one.
std::map<std::string, std::vector<double>> sox_stats(const std::filesystem::path& path) {
    std::istringstream lines(test::shell("sox " + test::quoted(path) + " -n stats"));
    std::map<std::string, std::vector<double>> rows;
    for (std::string text; std::getline(lines, text);) {
        for (const char* name : {"Min level", "Max level", "Pk lev dB", "RMS lev dB"}) {
            if (text.starts_with(name)) {
                std::istringstream figures(text.substr(std::string(name).size()));
                for (double figure = 0; figures >> figure;) {
                    rows[name].push_back(figure);
                }
            }
        }
    }
    REQUIRE(rows.size() == 4);
    return rows;
}

/// Compares the report and the peaks of a whole file with sox. `margin` is that of samples at full scale 1.
void check_against_sox(const std::filesystem::path& path, double margin) {
    INFO(path.string());
    const Result<SoundReport> report = sound_report(path, test::never, {});
    REQUIRE(report);
    CHECK(report->frames == std::stoll(test::shell("soxi -s " + test::quoted(path))));
    CHECK(report->info.rate == std::stoi(test::shell("soxi -r " + test::quoted(path))));
    CHECK(report->info.channels == std::stoi(test::shell("soxi -c " + test::quoted(path))));

    Result<PeakBuilder> builder = PeakBuilder::open(path, {2});
    REQUIRE(builder);
    REQUIRE(builder->build(test::never, {}));
    const auto stats = sox_stats(path);
    const std::size_t skip = report->channels.size() > 1 ? 1 : 0;
    for (std::size_t channel = 0; channel < report->channels.size(); ++channel) {
        std::vector<Peak> whole(1);
        builder->pyramid()->columns(static_cast<int>(channel), 0.0, static_cast<double>(report->frames),
                                    whole);
        CHECK(whole[0].min / 32768.0 == Approx(stats.at("Min level").at(channel + skip)).margin(margin));
        CHECK(whole[0].max / 32768.0 == Approx(stats.at("Max level").at(channel + skip)).margin(margin));
        const double rms = std::pow(10.0, stats.at("RMS lev dB").at(channel + skip) / 20.0);
        CHECK(whole[0].rms / 32768.0 == Approx(rms).margin(margin).epsilon(0.002));
        const ChannelLevel& level = report->channels[channel];
        CHECK(*level.rms_dbfs == Approx(stats.at("RMS lev dB").at(channel + skip)).margin(0.011));
        CHECK(*level.peak_dbfs == Approx(stats.at("Pk lev dB").at(channel + skip)).margin(0.011));
    }
}

SoundClip clip_of(const char* file, Micros start, Micros from, Micros length, double gain_db) {
    SoundClip clip;
    clip.file = file;
    clip.start = start;
    clip.from = from;
    clip.length = length;
    clip.gain_db = gain_db;
    return clip;
}

std::vector<float> rendered(const Sequence& sequence, const std::filesystem::path& folder, int rate) {
    Mix mix = Mix::open(sequence, folder, rate);
    REQUIRE(mix.problems().empty());
    std::vector<float> out(2 * static_cast<std::size_t>(mix.frames()));
    mix.read(out);
    return out;
}

std::vector<float> samples_of(const std::filesystem::path& path) {
    Result<SoundFile> file = SoundFile::open(path);
    REQUIRE(file);
    std::vector<float> out(static_cast<std::size_t>(file->info().frames * file->info().channels));
    REQUIRE(file->read(out) == file->info().frames);
    return out;
}

double rms(std::span<const float> samples) {
    double squares = 0.0;
    for (const float sample : samples) {
        squares += static_cast<double>(sample) * sample;
    }
    return std::sqrt(squares / static_cast<double>(samples.size()));
}

}  // namespace

TEST_CASE("Every recorded prompt has the length sox finds") {
    auto prompts = test::recorded_prompts();
    const auto more = test::speaker_test_prompts();
    prompts.insert(prompts.end(), more.begin(), more.end());
    std::string command = "soxi -s";
    for (const auto& path : prompts) {
        command += " " + test::quoted(path);
    }
    std::istringstream lengths(test::shell(command));
    for (const auto& path : prompts) {
        std::int64_t wanted = 0;
        lengths >> wanted;
        const Result<SoundFile> file = SoundFile::open(path);
        INFO(path.string());
        REQUIRE(file);
        CHECK(file->info().frames == wanted);
    }
}

TEST_CASE("Recorded prompts have the levels sox finds") {
    const auto prompts = test::recorded_prompts();
    for (std::size_t i = 0; i < prompts.size(); i += 30) {
        check_against_sox(prompts[i], 2e-6);
    }
    for (const auto& path : test::speaker_test_prompts()) {
        check_against_sox(path, 2e-6);
    }
}

TEST_CASE("A voice in every format, rate and channel count has the length and levels sox finds") {
    const test::Folder folder;
    const auto prompts = test::recorded_prompts();
    std::string command = "sox";
    for (std::size_t i = 0; i < 8; ++i) {
        command += " " + test::quoted(prompts[i * 40]);
    }
    test::shell(command + " " + test::quoted(folder / "voice.wav"));
    struct Kind {
        const char* name;
        const char* made;
        double margin;  ///< half a 16-bit step where the file has more bits, and what sox prints to
    };
    constexpr double exact = 2e-6;
    constexpr double finer = 0.51 / 32768 + 2e-6;
    for (const Kind& kind :
         {Kind{"u8.wav", "sox voice.wav -b 8 u8.wav", exact},
          Kind{"s16.wav", "sox voice.wav -r 22050 s16.wav", exact},
          Kind{"s24.wav", "sox voice.wav -r 44100 -b 24 s24.wav remix 1 1", finer},
          Kind{"s32.wav", "sox voice.wav -r 48000 -b 32 s32.wav", finer},
          Kind{"f32.wav", "sox voice.wav -r 48000 -e float -b 32 f32.wav remix 1 1v0.5", finer},
          Kind{"six.wav", "sox voice.wav -r 96000 -b 24 six.wav remix 1 1 1v0.5 1v0.1 1 1v0.3", finer},
          Kind{"a.aiff", "sox voice.wav -r 32000 a.aiff", exact},
          Kind{"a.au", "sox voice.wav -r 16000 a.au", exact},
          Kind{"a.flac", "sox voice.wav -r 48000 x.wav && flac -s x.wav -o a.flac", exact},
          Kind{"a24.flac", "flac -s s24.wav -o a24.flac", finer},
          Kind{"six.flac", "sox six.wav six.flac", finer}, Kind{"a.ogg", "oggenc -Q s16.wav -o a.ogg", finer},
          Kind{"six.ogg", "sox six.wav -r 48000 six.ogg", finer},
          Kind{"mu.wav", "sox voice.wav -e mu-law mu.wav", exact}}) {
        INFO(kind.made);
        test::shell("cd " + test::quoted(folder.path()) + " && " + kind.made);
        check_against_sox(folder / kind.name, kind.margin);
    }
}

TEST_CASE("An MP3 has the level sox finds; decoders differ in the padding they leave on") {
    const test::Folder folder;
    const auto samples = samples_of(test::speaker_test_prompts().front());
    test::write_sound(folder / "a.mp3", SF_FORMAT_MPEG | SF_FORMAT_MPEG_LAYER_III, 48000, 1, samples);
    const Result<SoundReport> report = sound_report(folder / "a.mp3", test::never, {});
    REQUIRE(report);
    const auto frames =
        std::stoll(test::shell("sox " + test::quoted(folder / "a.mp3") + " -t s16 - | wc -c")) / 2;
    CHECK(std::llabs(report->frames - frames) <= 3 * 1152);
    CHECK(*report->channels[0].peak_dbfs ==
          Approx(sox_stats(folder / "a.mp3").at("Pk lev dB").at(0)).margin(0.1));
}

TEST_CASE("the length of an MP3 that sox writes is what decodes, whatever its blocks claim") {
    const test::Folder folder;
    const std::filesystem::path file = folder / "noise.mp3";
    for (const char* of : {"-r 44100 -c 2", "-r 22050 -c 1", "-r 48000 -c 1"}) {
        test::shell("sox -R -n " + std::string(of) + " " + test::quoted(file) +
                    " synth 3.9 pinknoise gain -10");
        const Result<SoundReport> report = sound_report(file, test::never, {});
        REQUIRE(report);
        CHECK(report->frames == report->info.frames);
    }
}

TEST_CASE("A mix is to the sample what sox mixes, pads and trims") {
    const test::Folder folder;
    const auto voices = test::speaker_test_prompts();
    std::filesystem::copy(voices[0], folder / "one.wav");
    std::filesystem::copy(voices[1], folder / "two.wav");
    Sequence sequence;
    sequence.length = 3s;
    sequence.clips = {clip_of("one.wav", 250ms, 100ms, 900ms, 0.0),
                      clip_of("two.wav", 700ms, 0ms, 1200ms, 0.0)};
    const auto out = rendered(sequence, folder.path(), 48000);
    test::shell("cd " + test::quoted(folder.path()) +
                " && sox one.wav a.wav trim 4800s 43200s pad 12000s"
                " && sox two.wav b.wav trim 0s 57600s pad 33600s"
                " && sox -D -m -v 1 a.wav -v 1 b.wav -c 2 m.wav pad 0 3 trim 0 144000s");
    const auto wanted = samples_of(folder / "m.wav");
    REQUIRE(wanted.size() == out.size());
    for (std::size_t i = 0; i < out.size(); ++i) {
        const float clamped = std::clamp(out[i] * 32768.0F, -32768.0F, 32767.0F);
        INFO("sample " << i);
        REQUIRE(std::lrint(clamped) == std::lrint(wanted[i] * 32768.0F));
    }
}

TEST_CASE("A voice at another rate is within -45 dB of what sox makes of it") {
    // The two filters differ most close to half the lower rate, where a voice has next to nothing.
    const test::Folder folder;
    std::filesystem::copy(test::speaker_test_prompts().front(), folder / "voice.wav");
    for (const int rate : {44100, 96000, 32000}) {
        test::shell("cd " + test::quoted(folder.path()) +
                    " && sox voice.wav -e float -b 32 -c 2 r.wav rate -v " + std::to_string(rate));
        const auto wanted = samples_of(folder / "r.wav");
        Sequence sequence;
        sequence.length = 10s;
        sequence.clips = {clip_of("voice.wav", 0ms, 0ms, 10s, 0.0)};
        auto out = rendered(sequence, folder.path(), rate);
        REQUIRE(out.size() > wanted.size());
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            out[i] -= wanted[i];
        }
        const double difference_db =
            20.0 * std::log10(rms(std::span(out).first(wanted.size())) / rms(wanted));
        INFO(rate << " Hz: " << difference_db << " dB");
        CHECK(difference_db < -45.0);
    }
}

TEST_CASE("Fades are to the sample those of sox, which calls them linear") {
    const test::Folder folder;
    std::filesystem::copy(test::speaker_test_prompts().front(), folder / "voice.wav");
    test::shell("cd " + test::quoted(folder.path()) +
                " && sox -D voice.wav -e float -b 32 -c 2 f.wav trim 0 48000s fade t 12000s 48000s 24000s");
    const auto wanted = samples_of(folder / "f.wav");
    Sequence sequence;
    sequence.length = 1s;
    sequence.clips = {clip_of("voice.wav", 0ms, 0ms, 1s, 0.0)};
    sequence.clips.front().fade_in = 250ms;
    sequence.clips.front().fade_out = 500ms;
    const auto out = rendered(sequence, folder.path(), 48000);
    REQUIRE(wanted.size() == out.size());
    for (std::size_t i = 0; i < out.size(); ++i) {
        INFO("sample " << i);
        REQUIRE(out[i] == Approx(wanted[i]).margin(1e-7));
    }
}
