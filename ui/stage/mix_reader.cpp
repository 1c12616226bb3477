// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/mix_reader.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

namespace gasp {

namespace {

constexpr std::int64_t chunk_frames = 1024;

std::int16_t sixteen_bit(float sample) {
    return static_cast<std::int16_t>(std::lround(std::clamp(sample * 32768.0F, -32768.0F, 32767.0F)));
}

}  // namespace

MixReader::MixReader(SoundFeed& feed, std::function<void(std::string)> told)
    : feed_(feed),
      told_(std::move(told)),
      mixed_(chunk_frames * sound_channels),
      samples_(chunk_frames * sound_channels),
      thread_([this](const std::stop_token& stop) { run(stop); }) {}

MixReader::~MixReader() = default;

void MixReader::start(std::shared_ptr<const Programme> programme, std::int64_t start,
                      std::optional<FrameSpan> loop, std::uint32_t tag) {
    post({std::move(programme), start, loop, tag, true, false});
}

void MixReader::exchange(std::shared_ptr<const Programme> programme) {
    post({std::move(programme), 0, std::nullopt, 0, false, false});
}

void MixReader::rest() {
    post({nullptr, 0, std::nullopt, 0, false, true});
}

void MixReader::post(Command command) {
    {
        const std::lock_guard lock(mutex_);
        if (command_ && command_->restart && !command.restart && !command.rest) {
            command_->programme = std::move(command.programme);  // a start still waiting, of the newer sounds
        } else {
            command_ = std::move(command);
        }
    }
    wake_.notify_one();
}

std::optional<PieceMap::Value> MixReader::place_of(std::int64_t written) const {
    const std::lock_guard lock(mutex_);
    return places_.at(written);
}

float MixReader::level_of(std::int64_t written) const {
    const auto block = static_cast<std::size_t>(std::max(std::int64_t{0}, written) / level_frames);
    return levels_[block % levels_.size()].load(std::memory_order_relaxed);
}

void MixReader::run(const std::stop_token& stop) {
    while (!stop.stop_requested()) {
        std::optional<Command> command;
        {
            std::unique_lock lock(mutex_);
            const auto waiting = [this] { return command_.has_value(); };
            if (path_) {
                // Half of the shortest time in which a device empties a chunk.
                wake_.wait_for(lock, stop, std::chrono::milliseconds(10), waiting);
            } else {
                wake_.wait(lock, stop, waiting);
            }
            command.swap(command_);
        }
        if (command) {
            obey(*command);
        }
        while (path_ && fill() && !stop.stop_requested()) {
            const std::lock_guard lock(mutex_);
            if (command_) {
                break;
            }
        }
    }
}

void MixReader::obey(const Command& command) {
    if (command.rest) {
        path_.reset();
        mix_.reset();
        before_.clear();
    } else if (command.restart) {
        begin(command);
    } else if (path_) {
        change_mix(*command.programme);
    }
}

void MixReader::begin(const Command& command) {
    feed_.restart();
    mix_.emplace(open(*command.programme));
    path_.emplace(command.start, mix_->frames(), command.loop);
    tag_ = command.tag;
    fade_left_ = 0;
    mix_->seek(path_->frame());
    const std::lock_guard lock(mutex_);
    places_.forget_before(feed_.written() - 4 * sound_rate);
    places_.add({feed_.written(), path_->frame(), true, tag_});
}

void MixReader::change_mix(const Programme& programme) {
    Mix fresh = open(programme);
    before_.assign(static_cast<std::size_t>(SoundFeed::ramp_frames * sound_channels), 0.0F);
    mix_->read(before_);
    fade_left_ = SoundFeed::ramp_frames;
    fresh.seek(path_->frame());
    mix_.emplace(std::move(fresh));
}

Mix MixReader::open(const Programme& programme) {
    Mix mix = Mix::open(programme.sequence, programme.folder, sound_rate);
    std::vector<std::string> problems;
    for (const Error& problem : mix.problems()) {
        problems.push_back(problem.text());
    }
    for (const std::string& problem : problems) {
        if (std::find(problems_.begin(), problems_.end(), problem) == problems_.end()) {
            told_(problem);
        }
    }
    problems_ = std::move(problems);
    return mix;
}

/// Reads one chunk; false when there is no room, or no more to read.
bool MixReader::fill() {
    if (feed_.free_frames() < chunk_frames) {
        return false;
    }
    const FrameSpan span = path_->next(chunk_frames);
    if (span.begin == span.end) {
        feed_.finish();
        path_.reset();
        return false;
    }
    read_mix(span.end - span.begin);
    if (path_->frame() != span.end) {
        mix_->seek(path_->frame());
        const std::lock_guard lock(mutex_);
        places_.forget_before(feed_.written() - 4 * sound_rate);
        places_.add({feed_.written(), path_->frame(), true, tag_});
    }
    return true;
}

void MixReader::read_mix(std::int64_t frames) {
    const std::span mixed(mixed_.data(), static_cast<std::size_t>(frames * sound_channels));
    mix_->read(mixed);
    for (std::size_t i = 0; i < mixed.size() && fade_left_ > 0; i += sound_channels, --fade_left_) {
        const auto old = before_.size() - static_cast<std::size_t>(fade_left_ * sound_channels);
        const float share = static_cast<float>(fade_left_) / static_cast<float>(SoundFeed::ramp_frames);
        mixed[i] += share * (before_[old] - mixed[i]);
        mixed[i + 1] += share * (before_[old + 1] - mixed[i + 1]);
    }
    note_levels(mixed, feed_.written());
    const std::span samples(samples_.data(), mixed.size());
    std::transform(mixed.begin(), mixed.end(), samples.begin(), sixteen_bit);
    feed_.write(samples);
}

void MixReader::note_levels(std::span<const float> frames, std::int64_t written) {
    for (std::size_t i = 0; i + 1 < frames.size(); i += sound_channels, ++written) {
        std::atomic<float>& level =
            levels_[static_cast<std::size_t>(written / level_frames) % levels_.size()];
        const float peak = std::min(1.0F, std::max(std::abs(frames[i]), std::abs(frames[i + 1])));
        const float before = written % level_frames == 0 ? 0.0F : level.load(std::memory_order_relaxed);
        level.store(std::max(before, peak), std::memory_order_relaxed);
    }
}

}  // namespace gasp
