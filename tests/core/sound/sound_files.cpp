// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/sound/sound_files.hpp"

#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <random>
#include <stdexcept>

namespace gasp::test {

namespace {

SNDFILE* create(const std::filesystem::path& path, int format, int rate, int channels) {
    SF_INFO info{};
    info.samplerate = rate;
    info.channels = channels;
    info.format = format;
    SNDFILE* file = sf_open(path.c_str(), SFM_WRITE, &info);
    REQUIRE(file != nullptr);
    return file;
}

std::vector<std::filesystem::path> wav_files_in(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> found;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() == ".wav") {
            found.push_back(entry.path());
        }
    }
    std::sort(found.begin(), found.end());
    REQUIRE_FALSE(found.empty());
    return found;
}

}  // namespace

Folder::Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "sound tést XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path_ = name;
}

Folder::~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

std::vector<std::int16_t> random_samples(std::int64_t frames, int channels, unsigned seed) {
    std::mt19937 random(seed);
    std::vector<std::int16_t> samples(static_cast<std::size_t>(frames * channels));
    int level = 1;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (random() % 701 == 0) {
            level = 1 << (random() % 16);
        }
        samples[i] = static_cast<std::int16_t>(std::uniform_int_distribution<int>(-level, level - 1)(random));
    }
    return samples;
}

void write_sound(const std::filesystem::path& path, int format, int rate, int channels,
                 std::span<const std::int16_t> samples) {
    SNDFILE* file = create(path, format, rate, channels);
    sf_command(file, SFC_SET_SCALE_INT_FLOAT_WRITE, nullptr, SF_TRUE);
    const auto frames = static_cast<sf_count_t>(samples.size()) / channels;
    CHECK(sf_writef_short(file, samples.data(), frames) == frames);
    sf_close(file);
}

void write_sound(const std::filesystem::path& path, int format, int rate, int channels,
                 std::span<const float> samples) {
    SNDFILE* file = create(path, format, rate, channels);
    const auto frames = static_cast<sf_count_t>(samples.size()) / channels;
    CHECK(sf_writef_float(file, samples.data(), frames) == frames);
    sf_close(file);
}

std::string read_bytes(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

void write_bytes(const std::filesystem::path& path, const std::string& bytes) {
    std::ofstream file(path, std::ios::binary);
    file << bytes;
}

std::string shell(const std::string& command) {
    std::FILE* pipe = popen(("{ " + command + "; } 2>&1").c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string output;
    std::array<char, 4096> block{};
    std::size_t got = 0;
    while ((got = std::fread(block.data(), 1, block.size(), pipe)) > 0) {
        output.append(block.data(), got);
    }
    INFO(command << "\n" << output);
    REQUIRE(pclose(pipe) == 0);
    return output;
}

std::string quoted(const std::filesystem::path& path) {
    return "'" + path.string() + "'";
}

std::vector<std::filesystem::path> recorded_prompts() {
    return wav_files_in("/usr/share/asterisk/sounds/en_US_f_Allison");
}

std::vector<std::filesystem::path> speaker_test_prompts() {
    return wav_files_in("/usr/share/sounds/alsa");
}

}  // namespace gasp::test
