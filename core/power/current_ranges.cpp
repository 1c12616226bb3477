// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/current_ranges.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

/// Two rounds of a curve, of which a slice counts.
class Rounds {
  public:
    Rounds(const CurrentCurve& curve, Micros length, const CurrentSlice& slice)
        : count_(curve.points.size()) {
        begins_.reserve(2 * count_ + 1);
        charges_.reserve(2 * count_ + 1);
        for (std::size_t i = 0; i < 2 * count_; ++i) {
            const CurrentPoint& point = curve.points[i % count_];
            add(point.time + (i < count_ ? Micros{0} : length));
            counted_.push_back(std::clamp<MicroAmps>(point.current - slice.above, 0, slice.most));
        }
        add(2 * length);
    }

    [[nodiscard]] std::int64_t charge_of_one() const { return static_cast<std::int64_t>(charges_[count_]); }

    /// The most in a window no longer than one round: one of the best begins or ends with a point.
    [[nodiscard]] std::int64_t most_within(Micros window) const {
        std::int64_t most = 0;
        std::size_t end = 0;
        std::size_t begin = 0;
        for (std::size_t i = 0; i < count_; ++i) {
            end = point_before(end, begins_[i] + window);
            most = std::max(most, between(charges_[i], charge_until(end, begins_[i] + window)));
            const std::size_t last = i + count_;
            begin = point_before(begin, begins_[last] - window);
            most = std::max(most, between(charge_until(begin, begins_[last] - window), charges_[last]));
        }
        return most;
    }

  private:
    /// Over hours it wraps around; within a window it does not.
    using Charge = std::uint64_t;

    static std::int64_t between(Charge begin, Charge end) { return static_cast<std::int64_t>(end - begin); }

    void add(Micros begin) {
        charges_.push_back(begins_.empty() ? Charge{0} : charge_until(begins_.size() - 1, begin));
        begins_.push_back(begin);
    }

    /// The last point not after `time`, from `place` on.
    [[nodiscard]] std::size_t point_before(std::size_t place, Micros time) const {
        while (place + 1 < counted_.size() && begins_[place + 1] <= time) {
            ++place;
        }
        return place;
    }

    [[nodiscard]] Charge charge_until(std::size_t place, Micros time) const {
        const auto stretch = static_cast<Charge>((time - begins_[place]).count());
        return charges_[place] + static_cast<Charge>(counted_[place]) * stretch;
    }

    std::size_t count_;
    std::vector<Micros> begins_;
    std::vector<Charge> charges_;  ///< up to each of `begins_`
    std::vector<MicroAmps> counted_;
};

}  // namespace

std::vector<std::optional<CurrentRange>> current_ranges(const CurrentCurve& curve, Micros length, Micros from,
                                                        Micros to, int count) {
    const auto& points = curve.points;
    std::vector<std::optional<CurrentRange>> all(static_cast<std::size_t>(count));
    const double step = static_cast<double>((to - from).count()) / count;
    const auto edge = [&](int i) { return from + Micros{std::llround(step * i)}; };
    auto next = std::ranges::upper_bound(points, edge(0), {}, &CurrentPoint::time);
    for (int i = 0; i < count; ++i) {
        if (edge(i + 1) <= Micros{0} || edge(i) >= length) {
            continue;
        }
        const double now = amps(next == points.begin() ? next->current : std::prev(next)->current);
        CurrentRange range{now, now};
        for (; next != points.end() && next->time < edge(i + 1); ++next) {
            range.low = std::min(range.low, amps(next->current));
            range.high = std::max(range.high, amps(next->current));
        }
        all[static_cast<std::size_t>(i)] = range;
    }
    return all;
}

std::int64_t most_charge(const CurrentCurve& curve, Micros length, Micros window, const CurrentSlice& slice) {
    if (length <= Micros{0} || curve.points.empty()) {
        return 0;
    }
    const Rounds rounds(curve, length, slice);
    const std::int64_t whole = window / length * rounds.charge_of_one();
    return whole + rounds.most_within(window % length);
}

Micros longest_above(const CurrentCurve& curve, Micros length, double amps) {
    const MicroAmps level = micro_amps(amps);
    Micros longest{0};
    Micros first{0};  // of a stretch that began at 0
    Micros stretch{0};
    for (std::size_t i = 0; i < curve.points.size(); ++i) {
        const Micros begin = curve.points[i].time;
        const Micros end = i + 1 < curve.points.size() ? curve.points[i + 1].time : length;
        stretch = curve.points[i].current > level ? stretch + (end - begin) : Micros{0};
        first = stretch == end ? stretch : first;
        longest = std::max(longest, stretch);
    }
    return std::max(longest, std::min(first + stretch, length));
}

}  // namespace gasp
