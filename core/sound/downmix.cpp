// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/downmix.hpp"

#include <algorithm>
#include <numbers>

namespace gasp {

namespace {

constexpr float minus_3_db = std::numbers::sqrt2_v<float> / 2.0F;

StereoGain gain_of(SpeakerPosition speaker) {
    switch (speaker) {
        case SpeakerPosition::left:
            return {1.0F, 0.0F};
        case SpeakerPosition::right:
            return {0.0F, 1.0F};
        case SpeakerPosition::left_surround:
            return {minus_3_db, 0.0F};
        case SpeakerPosition::right_surround:
            return {0.0F, minus_3_db};
        case SpeakerPosition::low_frequency:
            return {0.0F, 0.0F};
        case SpeakerPosition::centre_surround:
            return {0.5F, 0.5F};
        case SpeakerPosition::centre:
        case SpeakerPosition::other:
            break;
    }
    return {minus_3_db, minus_3_db};
}

}  // namespace

std::vector<StereoGain> stereo_gains(std::span<const SpeakerPosition> speakers) {
    if (speakers.size() == 1) {
        return {{1.0F, 1.0F}};
    }
    std::vector<StereoGain> gains(speakers.size());
    std::transform(speakers.begin(), speakers.end(), gains.begin(), gain_of);
    return gains;
}

void to_stereo(std::span<const float> frames, std::span<const StereoGain> gains, std::span<float> stereo) {
    for (std::size_t frame = 0; frame < stereo.size() / 2; ++frame) {
        float left = 0.0F;
        float right = 0.0F;
        for (std::size_t channel = 0; channel < gains.size(); ++channel) {
            const float sample = frames[frame * gains.size() + channel];
            left += gains[channel].left * sample;
            right += gains[channel].right * sample;
        }
        stereo[2 * frame] = left;
        stereo[2 * frame + 1] = right;
    }
}

}  // namespace gasp
