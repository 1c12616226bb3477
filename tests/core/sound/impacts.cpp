// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/sound/impacts.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gasp::test {

namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;

std::size_t frame(double time_s, int rate) {
    return static_cast<std::size_t>(std::lround(time_s * rate));
}

/// Of a sound to a wanted RMS.
void scale(std::vector<double>& sound, double rms) {
    double sum = 0.0;
    for (const double value : sound) {
        sum += value * value;
    }
    const double factor = rms / std::sqrt(sum / static_cast<double>(sound.size()));
    for (double& value : sound) {
        value *= factor;
    }
}

}  // namespace

Impact click() {
    return {{{2700.0, 0.0025, 1.0}, {4300.0, 0.0015, 0.7}, {7100.0, 0.001, 0.4}}, 0.5};
}

Impact thump() {
    return {{{140.0, 0.04, 1.0}, {410.0, 0.02, 0.6}, {950.0, 0.008, 0.4}, {2300.0, 0.003, 0.2}}, 0.3};
}

Recording::Recording(double length_s, int rate, unsigned seed)
    : samples_(frame(length_s, rate), 0.0F), rate_(rate), state_(seed * 2654435761ULL + 1) {}

double Recording::normal() {
    // Twelve uniform values less their mean: normal enough, and the same with every compiler.
    double sum = -6.0;
    for (int i = 0; i < 12; ++i) {
        state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
        sum += static_cast<double>(state_ >> 40) * 0x1p-24;
    }
    return sum;
}

void Recording::strike(const Impact& impact, double time_s, double peak) {
    std::vector<double> sound(frame(0.4, rate_));
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double t = static_cast<double>(i) / rate_;
        for (const Mode& mode : impact.modes) {
            sound[i] += mode.level * std::exp(-t / mode.ring_s) * std::sin(two_pi * mode.hz * t);
        }
        if (t < 0.001) {
            sound[i] += impact.burst * normal();
        }
    }
    double most = 0.0;
    for (const double value : sound) {
        most = std::max(most, std::abs(value));
    }
    add({sound.begin(), sound.end()}, time_s, peak / most);
}

void Recording::add(const std::vector<float>& sound, double time_s, double gain) {
    const std::size_t from = frame(time_s, rate_);
    for (std::size_t i = 0; i < sound.size() && from + i < samples_.size(); ++i) {
        samples_[from + i] += static_cast<float>(gain) * sound[i];
    }
}

void Recording::add_white(double rms) {
    add_hiss(0.0, static_cast<double>(samples_.size()) / rate_, rms);
}

void Recording::add_hiss(double from_s, double to_s, double rms) {
    const std::size_t to = std::min(samples_.size(), frame(to_s, rate_));
    for (std::size_t i = frame(from_s, rate_); i < to; ++i) {
        samples_[i] += static_cast<float>(rms * normal());
    }
}

void Recording::add_pink(double rms) {
    std::vector<double> sound(samples_.size());
    double b0 = 0.0;
    double b1 = 0.0;
    double b2 = 0.0;
    for (double& value : sound) {
        const double white = normal();
        b0 = 0.99765 * b0 + white * 0.0990460;
        b1 = 0.96300 * b1 + white * 0.2965164;
        b2 = 0.57000 * b2 + white * 1.0526913;
        value = b0 + b1 + b2 + white * 0.1848;
    }
    scale(sound, rms);
    add({sound.begin(), sound.end()}, 0.0, 1.0);
}

void Recording::add_hum(double hz, double rms) {
    for (std::size_t i = 0; i < samples_.size(); ++i) {
        const double t = static_cast<double>(i) / rate_;
        samples_[i] +=
            static_cast<float>(rms * std::numbers::sqrt2 *
                               (0.9 * std::sin(two_pi * hz * t) + 0.4 * std::sin(two_pi * 3 * hz * t)));
    }
}

}  // namespace gasp::test
