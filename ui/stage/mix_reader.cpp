// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/mix_reader.hpp"

#include "ui/editor/thread_priority.hpp"

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

void MixReader::start(std::shared_ptr<const Programme> programme, const Run& run) {
    post({std::move(programme), run, true, false});
}

void MixReader::exchange(std::shared_ptr<const Programme> programme) {
    post({std::move(programme), {}, false, false});
}

void MixReader::rest() {
    post({nullptr, {}, false, true});
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
    read_ahead();
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
        opened_.reset();
        slow_.reset();
        before_.clear();
    } else if (command.restart) {
        begin(command);
    } else if (path_) {
        change_mix(*command.programme);
        opened_ = command.programme;
    }
}

void MixReader::begin(const Command& command) {
    const Run& run = command.run;
    feed_.restart();
    if (!mix_ || opened_ != command.programme) {
        mix_.emplace(open(*command.programme));
        opened_ = command.programme;
    }
    const std::int64_t end = run.length ? std::min(mix_->frames(), run.start + *run.length) : mix_->frames();
    path_.emplace(run.start, end, run.loop);
    tag_ = run.tag;
    fade_left_ = 0;
    slow_.reset();
    if (run.times > 1) {
        slow_.emplace(sound_rate, run.times);
        slow_from_ = feed_.written();
    }
    mix_->seek(path_->frame());
    place_from(feed_.written());
}

/// What is read next is heard at a written frame.
void MixReader::place_from(std::int64_t written) {
    const std::lock_guard lock(mutex_);
    places_.forget_before(feed_.written() - 4 * sound_rate);
    places_.add({written, path_->frame(), true, tag_, slow_ ? slow_->times() : 1});
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
    if (slow_) {
        return fill_slowly();
    }
    const FrameSpan span = path_->next(chunk_frames);
    if (span.begin == span.end) {
        finish();
        return false;
    }
    give(read_mix(span.end - span.begin));
    if (path_->frame() != span.end) {
        mix_->seek(path_->frame());
        place_from(feed_.written());
    }
    return true;
}

bool MixReader::fill_slowly() {
    bool more = true;
    while (more && slow_->ready() < chunk_frames) {
        const FrameSpan span = path_->next(chunk_frames / slow_->times());
        more = span.begin != span.end;
        if (!more) {
            slow_->end();
            break;
        }
        slow_->put(read_mix(span.end - span.begin));
        if (path_->frame() != span.end) {
            mix_->seek(path_->frame());
            place_from(slow_from_ + slow_->taken_in() * slow_->times());
        }
    }
    while (slow_->ready() > 0 && feed_.free_frames() >= chunk_frames) {
        const auto frames = static_cast<std::size_t>(std::min(slow_->ready(), chunk_frames));
        const std::span slowed = std::span(mixed_).first(frames * sound_channels);
        slow_->take(slowed);
        give(slowed);
    }
    if (!more && slow_->ready() == 0) {
        finish();
    }
    return more;
}

void MixReader::finish() {
    feed_.finish();
    path_.reset();
    slow_.reset();
}

std::span<float> MixReader::read_mix(std::int64_t frames) {
    const std::span mixed(mixed_.data(), static_cast<std::size_t>(frames * sound_channels));
    mix_->read(mixed);
    for (std::size_t i = 0; i < mixed.size() && fade_left_ > 0; i += sound_channels, --fade_left_) {
        const auto old = before_.size() - static_cast<std::size_t>(fade_left_ * sound_channels);
        const float share = static_cast<float>(fade_left_) / static_cast<float>(SoundFeed::ramp_frames);
        mixed[i] += share * (before_[old] - mixed[i]);
        mixed[i + 1] += share * (before_[old + 1] - mixed[i + 1]);
    }
    return mixed;
}

void MixReader::give(std::span<const float> frames) {
    note_levels(frames, feed_.written());
    const std::span samples(samples_.data(), frames.size());
    std::transform(frames.begin(), frames.end(), samples.begin(), sixteen_bit);
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
