// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/loudness_meter.hpp"

#include <ebur128.h>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

int place_of(SpeakerPosition position) {
    switch (position) {
        case SpeakerPosition::left:
            return EBUR128_LEFT;
        case SpeakerPosition::right:
            return EBUR128_RIGHT;
        case SpeakerPosition::low_frequency:
            return EBUR128_UNUSED;
        case SpeakerPosition::left_surround:
            return EBUR128_LEFT_SURROUND;
        case SpeakerPosition::right_surround:
            return EBUR128_RIGHT_SURROUND;
        case SpeakerPosition::centre:
        case SpeakerPosition::centre_surround:
        case SpeakerPosition::other:
            break;
    }
    return EBUR128_CENTER;
}

}  // namespace

std::optional<double> decibels(double ratio) {
    return ratio > 0.0 ? std::optional(20.0 * std::log10(ratio)) : std::nullopt;
}

struct LoudnessMeter::Meter {
    struct Destroy {
        void operator()(ebur128_state* state) const { ebur128_destroy(&state); }
    };
    std::unique_ptr<ebur128_state, Destroy> state;  ///< null at rates the library does not take
};

LoudnessMeter::LoudnessMeter(LoudnessMeter&&) noexcept = default;
LoudnessMeter::~LoudnessMeter() = default;

LoudnessMeter::LoudnessMeter(int rate, std::span<const SpeakerPosition> speakers)
    : meter_(std::make_unique<Meter>()), channels_(static_cast<unsigned>(speakers.size())) {
    ebur128_state* state =
        ebur128_init(channels_, static_cast<unsigned long>(rate), EBUR128_MODE_I | EBUR128_MODE_TRUE_PEAK);
    for (unsigned channel = 0; state != nullptr && channel < channels_; ++channel) {
        ebur128_set_channel(state, channel, place_of(speakers[channel]));
    }
    meter_->state.reset(state);
}

void LoudnessMeter::add(std::span<const float> frames) {
    if (meter_->state) {
        ebur128_add_frames_float(meter_->state.get(), frames.data(), frames.size() / channels_);
    }
}

std::optional<double> LoudnessMeter::lufs() const {
    double loudness = 0.0;
    if (!meter_->state || ebur128_loudness_global(meter_->state.get(), &loudness) != EBUR128_SUCCESS ||
        !std::isfinite(loudness)) {
        return std::nullopt;
    }
    return loudness;
}

std::optional<double> LoudnessMeter::true_peak_dbtp() const {
    double highest = 0.0;
    for (unsigned channel = 0; meter_->state && channel < channels_; ++channel) {
        double peak = 0.0;
        if (ebur128_true_peak(meter_->state.get(), channel, &peak) == EBUR128_SUCCESS) {
            highest = std::max(highest, peak);
        }
    }
    return decibels(highest);
}

}  // namespace gasp
