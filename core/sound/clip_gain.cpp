// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/clip_gain.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

std::int64_t frames_at(Micros time, int rate) {
    const std::int64_t scaled = time.count() * rate;
    return (scaled + (scaled < 0 ? -500'000 : 500'000)) / 1'000'000;
}

ClipGain::ClipGain(const SoundClip& clip, int rate)
    : start_(frames_at(clip.start, rate)),
      end_(frames_at(clip.start + clip.length, rate)),
      in_(frames_at(clip.fade_in, rate)),
      out_(frames_at(clip.fade_out, rate)),
      gain_(std::pow(10.0, clip.gain_db / 20.0)) {}

float ClipGain::at(std::int64_t frame) const {
    double factor = gain_;
    if (frame - start_ < in_) {
        factor *= static_cast<double>(std::max<std::int64_t>(frame - start_, 0)) / static_cast<double>(in_);
    }
    if (end_ - frame < out_) {
        factor *= static_cast<double>(std::max<std::int64_t>(end_ - frame, 0)) / static_cast<double>(out_);
    }
    return static_cast<float>(factor);
}

}  // namespace gasp
