// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/jaw_score.hpp"

#include "core/sound/clip_gain.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace gasp {

namespace {

constexpr double level_range_db = 40.0;
constexpr std::ptrdiff_t most_steps = Micros{400'000} / Envelope::step;

std::size_t steps_to(Micros time) {
    return static_cast<std::size_t>(std::max<Micros::rep>(time / Envelope::step, 0));
}

/// The correlation of one series with another of its size that is taken so many steps later; both are 0
/// before their beginning and after their end, as a voice and its mouth are.
double correlation(std::span<const float> one, std::span<const float> other, std::ptrdiff_t later) {
    const auto count = static_cast<std::ptrdiff_t>(one.size());
    double a = 0.0, b = 0.0, aa = 0.0, bb = 0.0, ab = 0.0;
    for (std::ptrdiff_t i = 0; i < count; ++i) {
        const auto x = static_cast<double>(one[static_cast<std::size_t>(i)]);
        const auto y = static_cast<double>(other[static_cast<std::size_t>(i)]);
        const bool both = i + later >= 0 && i + later < count;
        a += x;
        b += y;
        aa += x * x;
        bb += y * y;
        ab += both ? x * static_cast<double>(other[static_cast<std::size_t>(i + later)]) : 0.0;
    }
    const auto n = static_cast<double>(count + std::abs(later));
    const double spread = (aa - a * a / n) * (bb - b * b / n);
    return spread > 0.0 ? (ab - a * b / n) / std::sqrt(spread) : 0.0;
}

/// Where between its neighbours the largest of three equally spaced values is, by a parabola: -0.5 to 0.5.
double peak_between(double before, double at, double after) {
    const double bend = before - 2.0 * at + after;
    return bend < 0.0 ? std::clamp(0.5 * (before - after) / bend, -0.5, 0.5) : 0.0;
}

}  // namespace

Envelope heard_along(const Sequence& sequence, std::span<const Envelope* const> of_clips) {
    std::vector<double> power(steps_to(sequence.length) + 1, 0.0);
    for (std::size_t i = 0; i < of_clips.size() && i < sequence.clips.size(); ++i) {
        const SoundClip& clip = sequence.clips[i];
        if (of_clips[i] == nullptr) {
            continue;
        }
        const std::vector<float>& levels = of_clips[i]->dbfs;
        const ClipGain gain(clip, 1'000'000);
        const std::size_t end = std::min(steps_to(clip.start + clip.length), power.size());
        for (std::size_t step = steps_to(clip.start); step < end; ++step) {
            const Micros time = Envelope::step * static_cast<Micros::rep>(step);
            const std::size_t in_file = steps_to(time - clip.start + clip.from);
            const double factor = static_cast<double>(gain.at(time.count()));
            if (in_file < levels.size()) {
                power[step] += factor * factor * std::pow(10.0, static_cast<double>(levels[in_file]) / 10.0);
            }
        }
    }
    Envelope heard;
    heard.dbfs.reserve(power.size());
    for (const double each : power) {
        const double level = each > 0.0 ? 10.0 * std::log10(each) : -1000.0;
        heard.dbfs.push_back(std::max(static_cast<float>(level), Envelope::silence));
    }
    return heard;
}

JawScore jaw_score(const Envelope& heard, std::span<const float> opening, double open_db) {
    JawScore score;
    const std::size_t count = std::min(heard.dbfs.size(), opening.size());
    const std::span levels = std::span(heard.dbfs).first(count);
    if (count == 0 || *std::ranges::max_element(levels) <= Envelope::silence) {
        return score;
    }
    const double loudest = static_cast<double>(*std::ranges::max_element(levels));
    std::size_t voiced = 0;
    std::size_t open = 0;
    std::vector<float> level(count);
    for (std::size_t i = 0; i < count; ++i) {
        const bool loud = static_cast<double>(levels[i]) >= loudest - open_db;
        voiced += loud ? 1U : 0U;
        open += loud && opening[i] >= 0.5F ? 1U : 0U;
        level[i] =
            static_cast<float>(std::max(static_cast<double>(levels[i]) - loudest + level_range_db, 0.0));
    }
    score.open_share = static_cast<double>(open) / static_cast<double>(voiced);
    std::vector<double> likeness;
    for (std::ptrdiff_t later = -most_steps; later <= most_steps; ++later) {
        likeness.push_back(correlation(level, opening.first(count), later));
    }
    const auto best = std::ranges::max_element(likeness);
    score.likeness = *best;
    const bool still = std::ranges::min(opening) == std::ranges::max(opening);
    if (*best <= 0.0 || still) {
        return score;
    }
    const auto place = best - likeness.begin();
    const bool inside = place > 0 && place + 1 < std::ssize(likeness);
    const double between = inside ? peak_between(*(best - 1), *best, *(best + 1)) : 0.0;
    score.lag_ms = (static_cast<double>(place - most_steps) + between) * to_ms(Envelope::step);
    return score;
}

}  // namespace gasp
