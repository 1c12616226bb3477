// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/sound_feed.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gasp {

namespace {

constexpr std::int64_t never = std::numeric_limits<std::int64_t>::max();
constexpr float ramp_step = 1.0F / static_cast<float>(SoundFeed::ramp_frames);

std::int16_t scaled(std::int16_t sample, float gain) {
    // At full volume the sample goes through untouched.
    return gain == 1.0F ? sample : static_cast<std::int16_t>(std::lround(static_cast<float>(sample) * gain));
}

}  // namespace

struct SoundFeed::Pass {
    std::int64_t written;
    std::int64_t restart_at;
    std::int64_t end_at;
    std::int64_t read;
    std::int64_t given;
    bool held;
    float volume;
};

SoundFeed::SoundFeed(std::size_t frames)
    : mask_(static_cast<std::int64_t>(frames) - 1), ring_(frames * sound_channels), end_at_(never) {}

std::int64_t SoundFeed::free_frames() const {
    return mask_ + 1 - (written_.load(std::memory_order_relaxed) - read_.load(std::memory_order_acquire));
}

void SoundFeed::write(std::span<const std::int16_t> interleaved) {
    std::int64_t frame = written_.load(std::memory_order_relaxed);
    for (std::size_t i = 0; i + 1 < interleaved.size(); i += sound_channels, ++frame) {
        const auto slot = static_cast<std::size_t>(frame & mask_) * sound_channels;
        ring_[slot] = interleaved[i];
        ring_[slot + 1] = interleaved[i + 1];
    }
    written_.store(frame, std::memory_order_release);
}

void SoundFeed::restart() {
    restart_at_.store(written_.load(std::memory_order_relaxed), std::memory_order_release);
    end_at_.store(never, std::memory_order_release);
}

void SoundFeed::finish() {
    end_at_.store(written_.load(std::memory_order_relaxed), std::memory_order_release);
}

void SoundFeed::read(std::span<std::int16_t> interleaved) {
    // The restart is read before the count of what is written, so that what follows it is seen with it.
    Pass pass{};
    pass.end_at = end_at_.load(std::memory_order_acquire);
    pass.restart_at = restart_at_.load(std::memory_order_acquire);
    pass.written = written_.load(std::memory_order_acquire);
    pass.read = read_.load(std::memory_order_relaxed);
    pass.given = given_.load(std::memory_order_relaxed);
    pass.held = held_.load(std::memory_order_relaxed);
    pass.volume = volume_.load(std::memory_order_relaxed);
    for (std::size_t i = 0; i + 1 < interleaved.size(); i += sound_channels) {
        give_frame(pass, &interleaved[i]);
    }
    if (turn_owed_) {
        put_turn(pass);
    }
    read_.store(pass.read, std::memory_order_release);
    given_.store(pass.given, std::memory_order_release);
    ended_.store(pass.read >= pass.end_at, std::memory_order_relaxed);
    quiet_.store(pass.held && gain_ == 0.0F, std::memory_order_relaxed);
}

void SoundFeed::give_frame(Pass& pass, std::int16_t* out) {
    if (pass.read < pass.restart_at && (gain_ == 0.0F || pass.read >= pass.end_at)) {
        pass.read = pass.restart_at;
        set_moving(pass, false);
    }
    const bool fading = pass.read < pass.restart_at || pass.held;
    const bool ended = pass.read >= pass.end_at;
    const bool empty = pass.read >= pass.written;
    if (empty || ended || (pass.held && gain_ == 0.0F)) {
        if (moving_ && empty && !ended && !fading) {
            underruns_.fetch_add(1, std::memory_order_relaxed);
        }
        out[0] = out[1] = 0;
        set_moving(pass, false);
    } else {
        set_moving(pass, true);
        float target = fading ? 0.0F : pass.volume;
        if (pass.end_at != never) {
            target = std::min(target, static_cast<float>(pass.end_at - pass.read) * ramp_step);
        }
        gain_ += std::clamp(target - gain_, -ramp_step, ramp_step);
        const auto slot = static_cast<std::size_t>(pass.read & mask_) * sound_channels;
        out[0] = scaled(ring_[slot], gain_);
        out[1] = scaled(ring_[slot + 1], gain_);
        ++pass.read;
    }
    ++pass.given;
}

void SoundFeed::set_moving(const Pass& pass, bool moving) {
    if (moving != moving_) {
        moving_ = moving;
        gain_ = 0.0F;
        put_turn(pass);
    }
}

void SoundFeed::put_turn(const Pass& pass) {
    const std::uint32_t put = turns_put_.load(std::memory_order_relaxed);
    // While the window is too busy to take its turns, only the last one counts.
    turn_owed_ = put - turns_taken_.load(std::memory_order_acquire) == turns_.size();
    if (!turn_owed_) {
        turns_[put % turns_.size()] = Piece{pass.given, pass.read, moving_};
        turns_put_.store(put + 1, std::memory_order_release);
    }
}

std::optional<Piece> SoundFeed::take_turn() {
    const std::uint32_t taken = turns_taken_.load(std::memory_order_relaxed);
    if (taken == turns_put_.load(std::memory_order_acquire)) {
        return std::nullopt;
    }
    const Piece piece = turns_[taken % turns_.size()];
    turns_taken_.store(taken + 1, std::memory_order_release);
    return piece;
}

}  // namespace gasp
