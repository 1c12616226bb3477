// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/knocks.hpp"

#include "core/sound/sound_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

namespace gasp {

namespace {

// Power is kept in bins of 1/8 ms, and looked at in steps of 1 ms.
constexpr int bins_per_s = 8000;
constexpr std::size_t bins_per_step = 8;
constexpr double step_s = static_cast<double>(bins_per_step) / bins_per_s;

constexpr double low_cut_hz = 300.0;  // hum, wind and the shaking of the floor stay below
constexpr double silence = 1e-11;     // of full scale squared: beneath a quiet 16-bit recording's own noise
constexpr std::size_t heard_before = 150;  // steps of background
constexpr std::size_t just_before = 12;    // steps that hold the hiss or the echo of a knock before
constexpr std::size_t attack = 2;          // steps in which a knock is at its loudest
constexpr double least_rise_db = 8.0;
constexpr double unrests = 4.0;          // times the background's own unrest
constexpr double most_needed_db = 14.0;  // speech and the tail of a knock before are no unrest to go by
constexpr double gone_db = 3.0;
constexpr double most_rise_db = 60.0;
constexpr std::size_t least_gap = 15;  // steps from one knock to the next

/// One of the two halves of a fourth-order high-pass after Butterworth, which differ in q (R.
/// Bristow-Johnson, Cookbook formulae for audio EQ biquad filter coefficients).
class HalfHighPass {
  public:
    HalfHighPass(int rate, double q) {
        const double w = 2.0 * std::numbers::pi * low_cut_hz / rate;
        const double alpha = std::sin(w) / (2.0 * q);
        const double a0 = 1.0 + alpha;
        b0_ = (1.0 + std::cos(w)) / 2.0 / a0;
        a1_ = -2.0 * std::cos(w) / a0;
        a2_ = (1.0 - alpha) / a0;
    }

    double operator()(double in) {
        const double out = b0_ * (in - 2.0 * in1_ + in2_) - a1_ * out1_ - a2_ * out2_;
        in2_ = in1_;
        in1_ = in;
        out2_ = out1_;
        out1_ = out;
        return out;
    }

  private:
    double b0_ = 0.0, a1_ = 0.0, a2_ = 0.0;
    double in1_ = 0.0, in2_ = 0.0, out1_ = 0.0, out2_ = 0.0;
};

class HighPass {
  public:
    explicit HighPass(int rate) : first_(rate, 0.54119610), second_(rate, 1.3065630) {}
    double operator()(double in) { return second_(first_(in)); }

  private:
    HalfHighPass first_;
    HalfHighPass second_;
};

/// Mean power of the bins of a recording, its channels added.
class Bins {
  public:
    Bins(int rate, int channels)
        : rate_(rate), filters_(static_cast<std::size_t>(channels), HighPass(rate)) {}

    void add(std::span<const float> samples) {
        for (std::size_t i = 0; i < samples.size(); i += filters_.size()) {
            for (std::size_t channel = 0; channel < filters_.size(); ++channel) {
                const double out = filters_[channel](static_cast<double>(samples[i + channel]));
                sum_ += out * out;
            }
            ++count_;
            ++frames_;
            if (frames_ * bins_per_s >= static_cast<std::int64_t>(power_.size() + 1) * rate_) {
                power_.push_back(static_cast<float>(sum_ / static_cast<double>(count_) + silence));
                sum_ = 0.0;
                count_ = 0;
            }
        }
    }

    [[nodiscard]] std::int64_t frames() const { return frames_; }
    [[nodiscard]] std::vector<float> take() { return std::move(power_); }

  private:
    std::int64_t rate_;
    std::vector<HighPass> filters_;
    std::vector<float> power_;
    double sum_ = 0.0;
    std::int64_t count_ = 0;
    std::int64_t frames_ = 0;
};

Result<std::vector<float>> power_of(const std::filesystem::path& recording) {
    Result<SoundFile> file = SoundFile::open(recording);
    if (!file) {
        return tl::unexpected(file.error());
    }
    const int rate = file->info().rate;
    if (rate < bins_per_s) {
        return fail(fmt::format("{} frames a second are too few to place a knock", rate), recording.string(),
                    "Record it with 44100 or 48000");
    }
    Bins bins(rate, file->info().channels);
    std::vector<float> block(4096 * static_cast<std::size_t>(file->info().channels));
    while (const std::int64_t got = file->read(block)) {
        bins.add(std::span(block).first(static_cast<std::size_t>(got * file->info().channels)));
        if (static_cast<double>(bins.frames()) > longest_recording_s * rate) {
            return fail(fmt::format("the recording is longer than {:.0f} min", longest_recording_s / 60.0),
                        recording.string(), "Cut it to the strokes");
        }
    }
    return bins.take();
}

double decibels(double ratio) {
    return 10.0 * std::log10(ratio);
}

/// How loud each step is against what comes before it.
class Rises {
  public:
    explicit Rises(std::span<const float> bins)
        : power_(bins.size() / bins_per_step), jumps_(power_.size(), 0.0) {
        for (std::size_t step = 0; step < power_.size(); ++step) {
            double sum = 0.0;
            for (std::size_t bin = 0; bin < bins_per_step; ++bin) {
                sum += static_cast<double>(bins[step * bins_per_step + bin]);
            }
            power_[step] = sum / bins_per_step;
            if (step > 0) {
                jumps_[step] = std::abs(decibels(power_[step] / power_[step - 1]));
            }
        }
    }

    [[nodiscard]] std::size_t size() const { return power_.size() < attack ? 0 : power_.size() - attack + 1; }

    struct Rise {
        double db = 0.0;
        double needed_db = 0.0;
    };
    [[nodiscard]] Rise at(std::size_t step) {
        // Nothing is known of what was before the recording: its start is no knock.
        if (step < just_before) {
            return {0.0, least_rise_db};
        }
        const std::size_t from = step > heard_before ? step - heard_before : 0;
        const double background =
            std::max(middle_of(power_, from, step - 1), mean(step - just_before, step - 1));
        // The median of what two normal values differ by is 0.954 of their standard deviation; steps and
        // slow changes hardly move it.
        const double unrest = middle_of(jumps_, from + 1, step - 1) / 0.954;
        return {std::min(decibels(mean(step, step + attack) / background), most_rise_db),
                std::clamp(unrests * unrest, least_rise_db, most_needed_db)};
    }

  private:
    [[nodiscard]] static std::ptrdiff_t offset(std::size_t step) { return static_cast<std::ptrdiff_t>(step); }

    double middle_of(const std::vector<double>& values, std::size_t from, std::size_t to) {
        before_.assign(values.begin() + offset(from), values.begin() + offset(to));
        const auto middle = before_.begin() + offset(before_.size() / 2);
        std::nth_element(before_.begin(), middle, before_.end());
        return *middle;
    }

    [[nodiscard]] double mean(std::size_t from, std::size_t to) const {
        double sum = 0.0;
        for (std::size_t step = from; step < to; ++step) {
            sum += power_[step];
        }
        return sum / static_cast<double>(to - from);
    }

    std::vector<double> power_;
    std::vector<double> jumps_;   ///< dB from the step before, either way
    std::vector<double> before_;  ///< scratch
};

/// Where a quiet stretch turns into a loud one: AIC(k) = k log(power before k) + (n - k) log(power from k on)
/// is least.
std::size_t turn(std::span<const float> bins) {
    std::vector<double> sums(bins.size() + 1, 0.0);
    for (std::size_t i = 0; i < bins.size(); ++i) {
        sums[i + 1] = sums[i] + static_cast<double>(bins[i]);
    }
    std::size_t best = 0;
    double least = 0.0;
    for (std::size_t k = 1; k < bins.size(); ++k) {
        const auto before = static_cast<double>(k);
        const auto after = static_cast<double>(bins.size() - k);
        const double criterion =
            before * std::log(sums[k] / before) + after * std::log((sums.back() - sums[k]) / after);
        if (best == 0 || criterion < least) {
            best = k;
            least = criterion;
        }
    }
    return best;
}

/// The time of a knock whose rise crosses the threshold at one step and is highest at another.
double start_of(std::span<const float> bins, std::size_t crossed, std::size_t highest) {
    constexpr std::size_t before = 8;  // steps
    const std::size_t from = (crossed > before ? crossed - before : 0) * bins_per_step;
    const std::size_t to = std::min(bins.size(), (highest + attack) * bins_per_step);
    return static_cast<double>(from + turn(bins.subspan(from, to - from))) / bins_per_s;
}

std::vector<Knock> knocks_in(std::span<const float> bins) {
    Rises rises(bins);
    std::vector<Knock> knocks;
    std::size_t armed_from = 0;
    bool armed = true;
    for (std::size_t step = 0; step < rises.size(); ++step) {
        const Rises::Rise rise = rises.at(step);
        armed = armed || (step >= armed_from && rise.db < gone_db);
        if (!armed || rise.db < rise.needed_db) {
            continue;
        }
        std::size_t highest = step;
        double most = rise.db;
        for (std::size_t next = step + 1; next < std::min(step + 4, rises.size()); ++next) {
            if (const double db = rises.at(next).db; db > most) {
                highest = next;
                most = db;
            }
        }
        knocks.push_back({start_of(bins, step, highest), most, 1.0 - rise.needed_db / most});
        armed = false;
        armed_from = step + least_gap;
    }
    return knocks;
}

}  // namespace

Result<std::vector<Knock>> find_knocks(const std::filesystem::path& recording) {
    const Result<std::vector<float>> power = power_of(recording);
    if (!power) {
        return tl::unexpected(power.error());
    }
    return knocks_in(*power);
}

}  // namespace gasp
