// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/peaks.hpp"
#include "core/sound/report.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <random>
#include <string>
#include <vector>

using namespace gasp;

namespace {
/// The error of a file that cannot be opened, which must name the file and a remedy.
std::string refusal(const std::filesystem::path& path) {
    const Result<SoundFile> file = SoundFile::open(path);
    REQUIRE_FALSE(file);
    CHECK(file.error().where == path.string());
    CHECK_FALSE(file.error().remedy.empty());
    CHECK_FALSE(PeakBuilder::open(path, {}));
    CHECK_FALSE(sound_report(path, test::never, {}));
    return file.error().what;
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// A WAV file of 100 frames with a 44-byte header.
std::string small_wav(const test::Folder& folder) {
    const auto samples = test::random_samples(100, 1, 1);
    test::write_sound(folder / "small.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 8000, 1, samples);
    return test::read_bytes(folder / "small.wav");
}

std::filesystem::path with_bytes(const test::Folder& folder, const std::string& name,
                                 const std::string& bytes) {
    test::write_bytes(folder / name, bytes);
    return folder / name;
}

/// The checksum of an Ogg page (RFC 3533, 6): polynomial 0x04c11db7, not reflected, its own field as zeros.
std::uint32_t ogg_checksum(const std::string& page) {
    std::uint32_t sum = 0;
    for (std::size_t i = 0; i < page.size(); ++i) {
        const auto byte = i >= 22 && i < 26 ? 0U : static_cast<unsigned char>(page[i]);
        sum ^= static_cast<std::uint32_t>(byte) << 24;
        for (int bit = 0; bit < 8; ++bit) {
            sum = (sum << 1) ^ ((sum & 0x80000000U) != 0 ? 0x04c11db7U : 0U);
        }
    }
    return sum;
}

/// Opens and builds whatever opens: to be run over broken files by the hundred. Returns whether it opened.
bool survives(const std::filesystem::path& path) {
    Result<PeakBuilder> builder = PeakBuilder::open(path, {2});
    if (!builder) {
        return false;
    }
    const auto pyramid = builder->pyramid();
    const Result<void> done = builder->build(test::never, {});
    CHECK(pyramid->true_frames() <= pyramid->frames());
    CHECK((pyramid->true_frames() == pyramid->frames()) == done.has_value());
    std::vector<Peak> out(16);
    pyramid->columns(0, 0.0, static_cast<double>(pyramid->frames()) / 16.0, out);
    return true;
}

}  // namespace

TEST_CASE("What is no sound file is refused with the reason and a remedy") {
    const test::Folder folder;
    CHECK(holds(refusal(folder / "none.wav"), "no such"));
    CHECK(holds(refusal(folder.path()), "folder or device"));
    CHECK(holds(refusal("/dev/zero"), "folder or device"));
    CHECK(holds(refusal(with_bytes(folder, "empty.wav", "")), "empty"));
    CHECK(holds(refusal(with_bytes(folder, "text.wav", "The tide is out.\n")), "cannot be read as sound"));
    CHECK(
        holds(refusal(with_bytes(folder, "zeros.flac", std::string(5000, '\0'))), "cannot be read as sound"));
}

TEST_CASE("Headers that cannot be are refused") {
    const test::Folder folder;
    const std::string wav = small_wav(folder);
    std::string bytes = wav;
    bytes[22] = 0;  // channels
    refusal(with_bytes(folder, "no channels.wav", bytes));
    bytes = wav;
    bytes[22] = 65;
    refusal(with_bytes(folder, "65 channels.wav", bytes));
    bytes = wav;
    bytes.replace(24, 4, 4, '\0');  // rate
    refusal(with_bytes(folder, "no rate.wav", bytes));
    bytes = wav;
    bytes.replace(24, 4, "\xff\xff\xff\x7f");
    refusal(with_bytes(folder, "rate.wav", bytes));
    CHECK(holds(refusal(with_bytes(folder, "no data.wav", wav.substr(0, 44))), "no sound"));
}

TEST_CASE("A WAV header that promises more than the file holds is not believed") {
    const test::Folder folder;
    std::string bytes = small_wav(folder);
    bytes.replace(40, 4, "\xf0\xff\xff\xff");
    const Result<SoundFile> file = SoundFile::open(with_bytes(folder, "more.wav", bytes));
    REQUIRE(file);
    CHECK(file->info().frames == 100);
}

TEST_CASE("A FLAC header that promises months takes no memory, and the truth is told") {
    const test::Folder folder;
    const auto samples = test::random_samples(50'000, 2, 1);
    test::write_sound(folder / "a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 48000, 2, samples);
    std::string bytes = test::read_bytes(folder / "a.flac");
    bytes[21] = static_cast<char>(static_cast<unsigned char>(bytes[21]) | 0x0f);  // 36 bits of total samples
    bytes.replace(22, 4, 4, '\xff');
    const auto path = with_bytes(folder, "months.flac", bytes);
    Result<PeakBuilder> builder = PeakBuilder::open(path, {2});
    REQUIRE(builder);
    const Result<void> done = builder->build(test::never, {});
    REQUIRE_FALSE(done);
    CHECK(done.error().where == path.string());
    CHECK(builder->pyramid()->true_frames() == 50'000);
    CHECK(builder->pyramid()->built_frames() == 50'000);
    CHECK(builder->pyramid()->complete());
    CHECK(builder->pyramid()->bytes() < 1'000'000);
    const Result<SoundReport> report = sound_report(path, test::never, {});
    REQUIRE(report);
    CHECK(report->frames == 50'000);
}

TEST_CASE("An Ogg file whose last page promises years is held to what its size makes plausible") {
    const test::Folder folder;
    const auto samples = test::random_samples(50'000, 1, 1);
    test::write_sound(folder / "a.ogg", SF_FORMAT_OGG | SF_FORMAT_VORBIS, 48000, 1, samples);
    std::string bytes = test::read_bytes(folder / "a.ogg");
    const std::size_t last = bytes.rfind("OggS");
    std::string page = bytes.substr(last);
    page.replace(6, 8, std::string("\0\0\0\0\0\0\x10\0", 8));  // granule position 2^52
    const std::uint32_t sum = ogg_checksum(page);
    for (std::size_t i = 0; i < 4; ++i) {
        page[22 + i] = static_cast<char>(sum >> (8 * i));
    }
    bytes.replace(last, page.size(), page);
    const auto path = with_bytes(folder, "years.ogg", bytes);
    Result<PeakBuilder> builder = PeakBuilder::open(path, {2});
    REQUIRE(builder);
    CHECK(builder->pyramid()->frames() <= static_cast<std::int64_t>(bytes.size()) * 8192);
    CHECK_FALSE(builder->build(test::never, {}));
    CHECK(builder->pyramid()->true_frames() < 100'000);
    CHECK(builder->pyramid()->bytes() < 1'000'000);
}

TEST_CASE("Files cut at any byte and files with any byte changed do no harm") {
    const test::Folder folder;
    struct Kind {
        const char* name;
        int format;
    };
    const auto kind = GENERATE(
        Kind{"a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16}, Kind{"a.aiff", SF_FORMAT_AIFF | SF_FORMAT_PCM_24},
        Kind{"a.caf", SF_FORMAT_CAF | SF_FORMAT_ALAC_16}, Kind{"a.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16},
        Kind{"a.ogg", SF_FORMAT_OGG | SF_FORMAT_VORBIS}, Kind{"a.opus", SF_FORMAT_OGG | SF_FORMAT_OPUS},
        Kind{"a.mp3", SF_FORMAT_MPEG | SF_FORMAT_MPEG_LAYER_III});
    test::write_sound(folder / kind.name, kind.format, 48000, 2, test::random_samples(3000, 2, 9));
    const std::string whole = test::read_bytes(folder / kind.name);
    CHECK(survives(folder / kind.name));
    int refused = 0;
    for (std::size_t size = 1; size < whole.size(); size += 1 + whole.size() / 80) {
        refused += survives(with_bytes(folder, kind.name, whole.substr(0, size))) ? 0 : 1;
    }
    CHECK(refused > 0);
    std::mt19937 random(11);
    for (int round = 0; round < 100; ++round) {
        std::string bytes = whole;
        for (int change = 0; change < 3; ++change) {
            const std::size_t reach = change == 0 ? std::min<std::size_t>(200, whole.size()) : whole.size();
            bytes[random() % reach] = static_cast<char>(random());
        }
        survives(with_bytes(folder, kind.name, bytes));
    }
}
