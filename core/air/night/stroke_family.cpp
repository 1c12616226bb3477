// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/stroke_family.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr double narrowest = 2000.0;  // Pa; where a stretch so short still bends, each stroke is simulated
constexpr double strike_within_s =
    1e-4;  // of the points in between, before they themselves join the polynomial
constexpr double pressure_within = 30.0;  // Pa, likewise
constexpr double running_within_s = 0.1;

/// Whether two outcomes differ in kind, so that nothing between them can be foretold.
bool same_kind(const JointStrokes& a, const JointStrokes& b) {
    return a.compressor_starts == b.compressor_starts && a.compressor_on == b.compressor_on &&
           std::ranges::equal(a.strike_s, b.strike_s,
                              [](double x, double y) { return std::isnan(x) == std::isnan(y); });
}

bool agree(const JointStrokes& a, const JointStrokes& b) {
    return same_kind(a, b) && std::abs(a.lowest - b.lowest) <= pressure_within &&
           std::abs(a.end - b.end) <= pressure_within &&
           std::abs(a.compressor_on_s - b.compressor_on_s) <= running_within_s &&
           std::ranges::equal(a.kept, b.kept,
                              [](double x, double y) { return std::abs(x - y) <= pressure_within; }) &&
           std::ranges::equal(a.strike_s, b.strike_s, [](double x, double y) {
               return std::isnan(x) || std::abs(x - y) <= strike_within_s;
           });
}

}  // namespace

StrokeCache::Family::Family(const StrokeCache& cache, StrokePattern pattern)
    : cache_(cache), pattern_(std::move(pattern)) {
    const PlantModel& plant = cache_.model().plant;
    // The ways bend where the receiver reaches the regulator's setting or the compressor's switch.
    std::vector<double> bends{plant.ambient_pressure, plant.set_pressure, 2.0 * plant.set_pressure};
    if (plant.cut_in > 0.0) {
        bends.insert(bends.end(), {plant.cut_in, plant.cut_out});
    }
    std::ranges::sort(bends);
    for (std::size_t i = 0; i + 1 < bends.size(); ++i) {
        if (bends[i] < bends[i + 1]) {
            for (Roots& roots : roots_) {
                roots.push_back(std::make_unique<Stretch>(bends[i], bends[i + 1]));
            }
        }
    }
}

JointStrokes StrokeCache::Family::between(const std::vector<JointStrokes>& values, double low, double high,
                                          double start) {
    const PressurePolynomial polynomial(low, high, values.size());
    const auto shares = polynomial.shares_at(start);
    JointStrokes sum;
    sum.compressor_starts = values.front().compressor_starts;
    sum.compressor_on = values.front().compressor_on;
    sum.strike_s.assign(values.front().strike_s.size(), 0.0);
    sum.kept.assign(values.front().kept.size(), 0.0);
    for (std::size_t i = 0; i < values.size(); ++i) {
        sum.lowest += shares[i] * values[i].lowest;
        sum.end += shares[i] * values[i].end;
        sum.compressor_on_s += shares[i] * values[i].compressor_on_s;
        for (std::size_t k = 0; k < sum.kept.size(); ++k) {
            sum.kept[k] += shares[i] * values[i].kept[k];
        }
        for (std::size_t k = 0; k < sum.strike_s.size(); ++k) {
            sum.strike_s[k] += shares[i] * values[i].strike_s[k];
        }
    }
    return sum;
}

bool StrokeCache::Family::foretold(const Stretch& stretch) {
    std::vector<JointStrokes> fewer;
    for (std::size_t i = 0; i < stretch.values.size(); i += 2) {
        fewer.push_back(stretch.values[i]);
    }
    const PressurePolynomial points(stretch.low, stretch.high, stretch.values.size());
    for (std::size_t i = 1; i < stretch.values.size(); i += 2) {
        if (!agree(stretch.values[i], between(fewer, stretch.low, stretch.high, points.point(i)))) {
            return false;
        }
    }
    return true;
}

Result<JointStrokes> StrokeCache::Family::played(const Stretch& stretch, double start,
                                                 bool compressor_on) const {
    if (start == stretch.low && stretch.at_low) {
        return *stretch.at_low;
    }
    if (start == stretch.high && stretch.at_high) {
        return *stretch.at_high;
    }
    return cache_.simulated(pattern_, {start, {}, compressor_on, compressor_on});
}

bool StrokeCache::Family::refine(Stretch& stretch, bool compressor_on) const {
    const std::size_t points = stretch.values.empty() ? 3 : 2 * stretch.values.size() - 1;
    const PressurePolynomial places(stretch.low, stretch.high, points);
    std::vector<JointStrokes> finer;
    for (std::size_t i = 0; i < points; ++i) {
        if (i % 2 == 0 && !stretch.values.empty()) {
            finer.push_back(std::move(stretch.values[i / 2]));
            continue;
        }
        Result<JointStrokes> value = played(stretch, places.point(i), compressor_on);
        if (!value) {
            stretch.state = State::failed;
            stretch.error = value.error();
            return false;
        }
        finer.push_back(std::move(*value));
        if (!same_kind(finer.front(), finer.back())) {
            break;
        }
    }
    stretch.values = std::move(finer);
    return true;
}

void StrokeCache::Family::halve(Stretch& stretch, std::size_t points) {
    const double middle = 0.5 * (stretch.low + stretch.high);
    stretch.lower = std::make_unique<Stretch>(stretch.low, middle);
    stretch.upper = std::make_unique<Stretch>(middle, stretch.high);
    stretch.lower->at_low = stretch.values.front();
    if (const std::size_t half = (points - 1) / 2; half < stretch.values.size()) {
        stretch.lower->at_high = stretch.upper->at_low = stretch.values[half];
    }
    if (stretch.values.size() == points) {
        stretch.upper->at_high = stretch.values.back();
    } else {
        stretch.upper->at_high = stretch.at_high;
    }
    stretch.values.clear();
    stretch.state = State::halved;
}

void StrokeCache::Family::work_out(Stretch& stretch, bool compressor_on) const {
    if (stretch.high - stretch.low < narrowest) {
        stretch.state = State::too_narrow;
        return;
    }
    std::size_t points = 3;
    for (; points <= PressurePolynomial::most_points; points = 2 * points - 1) {
        if (!refine(stretch, compressor_on)) {
            return;
        }
        if (stretch.values.size() < points) {  // two kinds
            break;
        }
        if (points > 3 && foretold(stretch)) {
            stretch.state = State::polynomial;
            return;
        }
    }
    halve(stretch, std::min(points, PressurePolynomial::most_points));
}

Result<JointStrokes> StrokeCache::Family::at(double start, bool compressor_on) {
    Roots& roots = roots_[compressor_on ? 1 : 0];
    const auto root = std::ranges::find_if(roots, [&](const auto& each) { return start <= each->high; });
    Stretch* stretch = root != roots.end() && start >= (*root)->low ? root->get() : nullptr;
    while (stretch != nullptr) {
        std::call_once(stretch->once, [&] { work_out(*stretch, compressor_on); });
        switch (stretch->state) {
            case State::polynomial:
                return between(stretch->values, stretch->low, stretch->high, start);
            case State::halved:
                stretch = start < stretch->upper->low ? stretch->lower.get() : stretch->upper.get();
                break;
            case State::failed:
                return tl::unexpected(stretch->error);
            case State::too_narrow:
                stretch = nullptr;
                break;
        }
    }
    return cache_.simulated(pattern_, {start, {}, compressor_on, compressor_on});
}

}  // namespace gasp
