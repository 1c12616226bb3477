// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/sound_file.hpp"

#include <span>
#include <vector>

namespace gasp {

/// What a channel adds to the left and the right side.
struct StereoGain {
    float left = 0.0F;
    float right = 0.0F;
    bool operator==(const StereoGain&) const = default;
};

/// One sound for two sides. A single channel goes to both at full level. Otherwise left and right stay, the
/// centre goes to both and each surround to its side at 1/sqrt(2), low frequency effects are left out (ITU-R
/// BS.775, table 2, the 2/0 downmix). A centre surround goes to both sides at 1/2, any other channel at
/// 1/sqrt(2). Nothing is scaled down to prevent overload: a mix is to be listened to and turned down where it
/// clips.
[[nodiscard]] std::vector<StereoGain> stereo_gains(std::span<const SpeakerPosition> speakers);

/// Mixes interleaved frames of gains.size() channels to interleaved stereo, which has 2 samples a frame.
void to_stereo(std::span<const float> frames, std::span<const StereoGain> gains, std::span<float> stereo);

}  // namespace gasp
