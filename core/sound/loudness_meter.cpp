// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/loudness_meter.hpp"

#include <ebur128.h>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

/// How far apart the momentary and the short-term loudness are taken. What begins between two steps reads at
/// most 10 log10(395/400) = -0.06 dB low.
constexpr unsigned step_ms = 10;
constexpr double momentary_s = 0.4;
constexpr double short_term_s = 3.0;

/// ITU-R BS.1770, formula 2.
double lufs_of(double energy) {
    return 10.0 * std::log10(energy) - 0.691;
}
double energy_of(double lufs) {
    return std::pow(10.0, (lufs + 0.691) / 10.0);
}

std::size_t steps_in(double seconds, int rate, std::size_t step_frames) {
    return step_frames == 0
               ? 0
               : static_cast<std::size_t>(std::lround(seconds * rate / static_cast<double>(step_frames)));
}

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
    : meter_(std::make_unique<Meter>()),
      channels_(static_cast<unsigned>(speakers.size())),
      rate_(rate),
      step_frames_(static_cast<std::size_t>(rate) * step_ms / 1000),
      momentary_steps_(steps_in(momentary_s, rate, step_frames_)),
      short_term_steps_(steps_in(short_term_s, rate, step_frames_)),
      energy_up_to_(short_term_steps_ + 1) {
    ebur128_state* state =
        ebur128_init(channels_, static_cast<unsigned long>(rate), EBUR128_MODE_I | EBUR128_MODE_TRUE_PEAK);
    for (unsigned channel = 0; state != nullptr && channel < channels_; ++channel) {
        ebur128_set_channel(state, channel, place_of(speakers[channel]));
    }
    meter_->state.reset(state);
}

void LoudnessMeter::add(std::span<const float> frames) {
    while (meter_->state && !frames.empty()) {
        std::size_t count = frames.size() / channels_;
        if (step_frames_ > 0) {
            count = std::min(count, step_frames_ - step_filled_);
        }
        ebur128_add_frames_float(meter_->state.get(), frames.data(), count);
        frames = frames.subspan(count * channels_);
        step_filled_ += count;
        if (step_filled_ == step_frames_) {
            end_step();
        }
    }
}

/// The library sums a whole window anew at each call: of 3 s every 10 ms that would be most of the work. So
/// it is asked for the steps alone, and they are added up here.
void LoudnessMeter::end_step() {
    step_filled_ = 0;
    double lufs = 0.0;
    const bool heard = ebur128_loudness_window(meter_->state.get(), step_ms, &lufs) == EBUR128_SUCCESS &&
                       std::isfinite(lufs);
    const std::size_t places = energy_up_to_.size();
    const double before = energy_up_to_[steps_ % places];
    ++steps_;
    energy_up_to_[steps_ % places] = before + (heard ? energy_of(lufs) : 0.0);
    const double momentary = energy_of_last(momentary_steps_);
    if (momentary > momentary_) {
        momentary_ = momentary;
        loudest_end_ = steps_;
    }
    short_term_ = std::max(short_term_, energy_of_last(short_term_steps_));
}

double LoudnessMeter::energy_of_last(std::size_t steps) const {
    const std::size_t places = energy_up_to_.size();
    const double before = steps_ > steps ? energy_up_to_[(steps_ - steps) % places] : 0.0;
    return (energy_up_to_[steps_ % places] - before) / static_cast<double>(steps);
}

std::optional<LoudestMoment> LoudnessMeter::loudest() const {
    if (momentary_ <= 0.0) {
        return std::nullopt;
    }
    const double steps = static_cast<double>(loudest_end_) -
                         static_cast<double>(std::min(loudest_end_, momentary_steps_)) / 2.0;
    const double middle_us = steps * static_cast<double>(step_frames_) * 1e6 / rate_;
    return LoudestMoment{lufs_of(momentary_), lufs_of(short_term_), Micros{std::llround(middle_us)}};
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
