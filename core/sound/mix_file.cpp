// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/mix_file.hpp"

#include "core/sound/clip_gain.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sndfile.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <system_error>

namespace gasp {

namespace {

constexpr std::size_t longest_word = 40;             // characters of a name
constexpr std::int64_t most_wav_bytes = 0xFFFF0000;  // its sizes are 32 bits, the head among them
constexpr int frame_bytes = 4;

struct CloseSound {
    void operator()(SNDFILE* file) const { sf_close(file); }
};
using SoundToWrite = std::unique_ptr<SNDFILE, CloseSound>;

std::string_view suffix_of(MixForm form) {
    return form == MixForm::flac ? ".flac" : ".wav";
}

std::int16_t rounded_sample(float sample) {
    return static_cast<std::int16_t>(std::clamp(std::lrintf(sample * 32768.0F), -32768L, 32767L));
}

/// A file that is taken away again unless it was kept.
class Part {
  public:
    explicit Part(const std::filesystem::path& whole)
        : whole_(whole), path_(whole.parent_path() / fmt::format(".gaspworks-{}.part", ::getpid())) {}
    Part(const Part&) = delete;
    Part& operator=(const Part&) = delete;
    ~Part() {
        std::error_code error;
        std::filesystem::remove(path_, error);
    }

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    /// Lets it take the place of the whole, once the disk has it.
    [[nodiscard]] Result<void> keep() {
        const int file = ::open(path_.c_str(), O_RDONLY | O_CLOEXEC);
        const bool synced = file >= 0 && ::fsync(file) == 0;
        if (file >= 0) {
            ::close(file);
        }
        std::error_code error;
        if (synced) {
            std::filesystem::rename(path_, whole_, error);
        }
        if (!synced || error) {
            return fail("The mix could not be put in its place", whole_.string(),
                        "Choose a folder that can be written to, with room left");
        }
        return {};
    }

  private:
    std::filesystem::path whole_;
    std::filesystem::path path_;
};

SoundToWrite open_to_write(const std::filesystem::path& path, const MixDelivery& delivery) {
    SF_INFO info{};
    info.samplerate = delivery.rate;
    info.channels = 2;
    info.format = SF_FORMAT_PCM_16 | (delivery.form == MixForm::flac ? SF_FORMAT_FLAC : SF_FORMAT_WAV);
    return SoundToWrite(sf_open(path.c_str(), SFM_WRITE, &info));
}

}  // namespace

Micros player_lag(const Speaker& speaker) {
    return speaker.player_lag_ms ? Micros{std::llround(*speaker.player_lag_ms * 1000.0)} : Micros{0};
}

Micros lost_to_lag(const MixReport& whole, Micros lag) {
    return whole.first_sound ? std::max(lag - *whole.first_sound, Micros{0}) : Micros{0};
}

std::string mix_file_name(std::size_t place, std::string_view sequence, MixForm form) {
    std::string word;
    for (const char each : sequence) {
        const bool capital = each >= 'A' && each <= 'Z';
        const bool plain = capital || (each >= 'a' && each <= 'z') || (each >= '0' && each <= '9');
        if (plain && word.size() < longest_word) {
            word += capital ? static_cast<char>(each - 'A' + 'a') : each;
        } else if (!plain && each != '\'' && !word.empty() && word.back() != '-') {
            word += '-';
        }
    }
    while (!word.empty() && word.back() == '-') {
        word.pop_back();
    }
    return fmt::format("{:03}-{}{}", place, word.empty() ? "sequence" : word, suffix_of(form));
}

Result<MixReport> write_mix(const Sequence& sequence, const std::filesystem::path& show_folder,
                            const MixDelivery& delivery, const std::filesystem::path& path,
                            const std::atomic<bool>& cancel, const std::function<void(double)>& progress) {
    const std::int64_t from = frames_at(delivery.lag, delivery.rate);
    const std::int64_t frames = frames_at(sequence.length, delivery.rate) - from;
    if (delivery.form == MixForm::wav && frames > most_wav_bytes / frame_bytes) {
        return fail("The mix is longer than a WAV file can be", path.string(), "Take FLAC");
    }
    Part part(path);
    SoundToWrite file = open_to_write(part.path(), delivery);
    if (!file) {
        return fail(fmt::format("The mix cannot be written: {}", sf_strerror(nullptr)), path.string(),
                    "Choose a folder that can be written to");
    }
    std::vector<std::int16_t> samples;
    bool taken = true;
    const auto sink = [&](std::span<const float> stereo) {
        samples.resize(stereo.size());
        std::ranges::transform(stereo, samples.begin(), rounded_sample);
        const auto count = static_cast<sf_count_t>(stereo.size() / 2);
        taken = sf_writef_short(file.get(), samples.data(), count) == count;
        return taken;
    };
    MixReport report = run_mix(sequence, show_folder, delivery.rate, from, sink, cancel, progress);
    if (!report.problems.empty()) {
        return tl::unexpected(report.problems.front());
    }
    if (cancel) {
        return fail("The mix was given up before it was whole", path.string(), "Start it again");
    }
    taken = taken && sf_error(file.get()) == SF_ERR_NO_ERROR;
    taken = sf_close(file.release()) == 0 && taken;
    if (!taken) {
        return fail("The disk did not take the whole mix", path.string(), "Make room on it");
    }
    return part.keep().map([&] { return std::move(report); });
}

}  // namespace gasp
