// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/slow_sound.hpp"

#include <rubberband/RubberBandStretcher.h>

#include <algorithm>
#include <array>

namespace gasp {

namespace {

using Stretcher = RubberBand::RubberBandStretcher;

constexpr int channels = 2;
constexpr std::size_t most_at_once = 1024;
constexpr std::size_t end_pad = 8192;  ///< frames, more than the longest window

}  // namespace

SlowSound::SlowSound(int rate, int times)
    : stretcher_(std::make_unique<Stretcher>(static_cast<std::size_t>(rate), channels,
                                             Stretcher::OptionProcessRealTime | Stretcher::OptionEngineFiner |
                                                 Stretcher::OptionChannelsTogether |
                                                 Stretcher::OptionThreadingNever,
                                             times)),
      times_(times),
      delay_(static_cast<std::int64_t>(stretcher_->getStartDelay())),
      left_(most_at_once),
      right_(most_at_once) {
    stretcher_->setMaxProcessSize(most_at_once);
    const std::vector<float> silence(channels * stretcher_->getPreferredStartPad());
    feed(silence, false);
}

SlowSound::SlowSound(SlowSound&&) noexcept = default;
SlowSound& SlowSound::operator=(SlowSound&&) noexcept = default;
SlowSound::~SlowSound() = default;

void SlowSound::put(std::span<const float> stereo) {
    taken_in_ += static_cast<std::int64_t>(stereo.size() / channels);
    feed(stereo, false);
}

/// The library holds back what its window has not passed yet, also at its end (128 ms at half the speed):
/// silence behind the sound brings it out.
void SlowSound::end() {
    if (!ended_) {
        feed(std::vector<float>(channels * end_pad), true);
        ended_ = true;
    }
}

void SlowSound::feed(std::span<const float> stereo, bool last) {
    do {
        const std::size_t frames = std::min(most_at_once, stereo.size() / channels);
        for (std::size_t i = 0; i < frames; ++i) {
            left_[i] = stereo[2 * i];
            right_[i] = stereo[2 * i + 1];
        }
        const std::array<const float*, channels> in{left_.data(), right_.data()};
        stereo = stereo.subspan(channels * frames);
        stretcher_->process(in.data(), frames, last && stereo.empty());
        drop_delay();
    } while (!stereo.empty());
}

void SlowSound::drop_delay() {
    while (delay_ > 0 && stretcher_->available() > 0) {
        const std::array<float*, channels> out{left_.data(), right_.data()};
        const auto frames = std::min({delay_, static_cast<std::int64_t>(stretcher_->available()),
                                      static_cast<std::int64_t>(most_at_once)});
        delay_ -=
            static_cast<std::int64_t>(stretcher_->retrieve(out.data(), static_cast<std::size_t>(frames)));
    }
}

std::int64_t SlowSound::ready() const {
    const std::int64_t whole = taken_in_ * times_ - given_;
    // What the library lacks or has too much at the end is made up with silence, or left out.
    return ended_ ? whole : std::min<std::int64_t>(whole, std::max(0, stretcher_->available()));
}

void SlowSound::take(std::span<float> stereo) {
    given_ += static_cast<std::int64_t>(stereo.size() / channels);
    while (!stereo.empty()) {
        const std::size_t wanted = std::min(most_at_once, stereo.size() / channels);
        std::size_t got = 0;
        if (stretcher_->available() > 0) {
            const std::array<float*, channels> out{left_.data(), right_.data()};
            got = stretcher_->retrieve(out.data(), wanted);
        }
        if (got == 0) {
            std::ranges::fill(stereo, 0.0F);
            return;
        }
        for (std::size_t i = 0; i < got; ++i) {
            stereo[2 * i] = left_[i];
            stereo[2 * i + 1] = right_[i];
        }
        stereo = stereo.subspan(channels * got);
    }
}

}  // namespace gasp
