// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/fuse.hpp"

#include "core/power/contact.hpp"
#include "core/power/current_ranges.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <array>
#include <random>
#include <vector>

using namespace gasp;

TEST_CASE("a fuse lies between its load and its wire") {
    CHECK(fitting_fuse_a(2.4, 0.0, 0.0, 5.0) == 3.0);
    CHECK(fitting_fuse_a(2.5, 0.0, 0.0, 5.0) == 4.0);
    CHECK_FALSE(fitting_fuse_a(4.5, 0.0, 0.0, 5.0));
    CHECK_FALSE(fitting_fuse_a(100.0, 0.0, 0.0, 500.0));
}

TEST_CASE("a fuse bears a pulse that is over before it may open") {
    CHECK(fuse_bears(5.0, 5.5, 1e9));
    CHECK(fuse_bears(5.0, 10.0, 150.0));
    CHECK_FALSE(fuse_bears(5.0, 10.0, 151.0));
    CHECK(fuse_bears(5.0, 30.0, 20.0));
    CHECK_FALSE(fuse_bears(5.0, 30.1, 1.0));
    CHECK(fitting_fuse_a(0.8, 8.0, 30.0, 7.0) == 3.0);  // 2 A would be 4 times over
}

namespace {

constexpr Micros s{1'000'000};

/// 1 A; 12 A for half a second from 2 s; 6 A from 4 s to 9 s; 10 s in all.
CurrentCurve uneven() {
    CurrentCurve curve;
    curve.points = {{0 * s, micro_amps(1)},
                    {2 * s, micro_amps(12)},
                    {2 * s + s / 2, micro_amps(1)},
                    {4 * s, micro_amps(6)},
                    {9 * s, micro_amps(1)}};
    curve.peak = micro_amps(12);
    return curve;
}

}  // namespace

TEST_CASE("how long a current stays above a level, the next run included") {
    CurrentCurve curve = uneven();
    CHECK(longest_above(curve, 10 * s, 0.5) == 10 * s);
    CHECK(longest_above(curve, 10 * s, 1.0) == 5 * s);
    CHECK(longest_above(curve, 10 * s, 6.0) == s / 2);
    CHECK(longest_above(curve, 10 * s, 12.0) == Micros{0});
    curve.points.front().current = curve.points.back().current = micro_amps(8);
    CHECK(longest_above(curve, 10 * s, 7.0) == 3 * s + s / 2);
    CHECK(longest_above(CurrentCurve{}, 10 * s, 1.0) == Micros{0});
}

TEST_CASE("a fuse bears a sequence if no stretch of it lasts longer than a pulse may") {
    const CurrentCurve curve = uneven();
    const std::array<FuseRun, 1> runs{{{&curve, 10 * s}}};
    CHECK_FALSE(fuse_bears(5.0, 0, runs));  // 6 A, 1.2 times, for 5 s; opens it after 0.75 s perhaps
    CHECK_FALSE(fuse_bears(7.5, 0, runs));  // 12 A, 1.6 times, for 0.5 s: 0.15 s
    CHECK(fuse_bears(10.0, 0, runs));       // 1.2 times for 0.5 s: 0.75 s
    CHECK(fuse_bears(10.0, micro_amps(1), runs));
    CHECK(fitting_fuse_a(3.0, 0, runs, 20.0) == 10.0);
    CHECK(fitting_fuse_a(9.0, 0, runs, 20.0) == 15.0);
    CHECK_FALSE(fitting_fuse_a(3.0, 0, runs, 9.0));
}

namespace {

/// Nothing but a pulse that begins at 1 s, of 10 s.
CurrentCurve pulse(double amps, double for_ms) {
    CurrentCurve curve;
    curve.points = {{0 * s, 0}, {1 * s, micro_amps(amps)}, {1 * s + from_ms(for_ms), 0}};
    curve.peak = micro_amps(amps);
    return curve;
}

bool bears_both(double fuse_a, const CurrentCurve& a, const CurrentCurve& b) {
    return fuse_bears(fuse_a, 0, std::array<FuseRun, 2>{{{&a, 10 * s}, {&b, 10 * s}}});
}

/// By hand: whether the sum of two runs stays above some share of a fuse for longer than its standard allows,
/// at any distance of their begins, in steps of 10 ms.
bool ever_too_long(double fuse_a, const std::vector<int>& a, const std::vector<int>& b) {
    constexpr std::array<std::array<double, 2>, 4> rules{{{1.1, 75}, {1.35, 15}, {2.0, 4}, {3.5, 2}}};
    const std::size_t count = a.size();
    for (std::size_t apart = 0; apart < count; ++apart) {
        for (const auto& [times, most] : rules) {
            int stretch = 0;
            for (std::size_t i = 0; i < 2 * count; ++i) {
                stretch = a[i % count] + b[(i + apart) % count] > times * fuse_a ? stretch + 1 : 0;
                if (stretch > most) {
                    return true;
                }
            }
        }
    }
    return false;
}

CurrentCurve curve_of(const std::vector<int>& steps) {
    CurrentCurve curve;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        curve.points.push_back({Micros{10'000} * static_cast<int>(i), micro_amps(steps[i])});
        curve.peak = std::max(curve.peak, curve.points.back().current);
    }
    return curve;
}

}  // namespace

TEST_CASE("what surges in two sequences may come at once or one after the other") {
    // 5 A: up to 17.5 A for 40 ms, up to 30 A for 20 ms.
    CHECK(bears_both(5.0, pulse(9.0, 20.0), pulse(8.0, 20.0)));          // 17 A at once
    CHECK_FALSE(bears_both(5.0, pulse(16.0, 25.0), pulse(16.0, 25.0)));  // 32 A at once
    CHECK(bears_both(5.0, pulse(12.0, 20.0), pulse(12.0, 20.0)));        // 24 A; or 12 A for 40 ms
    CHECK_FALSE(bears_both(5.0, pulse(12.0, 21.0), pulse(12.0, 20.0)));  // 12 A for 41 ms
}

TEST_CASE("a fuse that is said to bear two sequences at once does so at any distance of their begins") {
    std::mt19937 random(7);
    const auto number = [&](int least, int most) {
        return std::uniform_int_distribution<int>(least, most)(random);
    };
    int borne = 0;
    for (int round = 0; round < 400; ++round) {
        std::array<std::vector<int>, 2> steps;
        for (std::vector<int>& run : steps) {
            run.assign(120, 0);
            for (int i = number(1, 4); i > 0; --i) {
                const auto begin = static_cast<std::size_t>(number(0, 110));
                const auto end = std::min<std::size_t>(120, begin + static_cast<std::size_t>(number(1, 30)));
                std::fill(run.begin() + static_cast<std::ptrdiff_t>(begin),
                          run.begin() + static_cast<std::ptrdiff_t>(end), number(1, 20));
            }
        }
        const CurrentCurve a = curve_of(steps[0]);
        const CurrentCurve b = curve_of(steps[1]);
        const Micros length{1'200'000};
        for (const double fuse : standard_fuses_a()) {
            const std::vector<int> nothing(120, 0);
            CHECK(fuse_bears(fuse, 0, std::array<FuseRun, 1>{{{&a, length}}}) ==
                  (!ever_too_long(fuse, steps[0], nothing) && amps(a.peak) <= 6.0 * fuse));
            if (fuse_bears(fuse, 0, std::array<FuseRun, 2>{{{&a, length}, {&b, length}}})) {
                CHECK_FALSE(ever_too_long(fuse, steps[0], steps[1]));
                CHECK(amps(a.peak + b.peak) <= 6.0 * fuse);
                ++borne;
            }
        }
    }
    CHECK(borne > 1000);
}

TEST_CASE("the largest charge in any window, the next run included") {
    const CurrentCurve curve = uneven();
    const CurrentSlice all{0, micro_amps(100.0)};
    const auto charge = [&](Micros window, const CurrentSlice& slice) {
        return static_cast<double>(most_charge(curve, 10 * s, window, slice)) * 1e-12;
    };
    CHECK(charge(s / 2, all) == Approx(6.0));
    CHECK(charge(2 * s, all) == Approx(12.0));
    CHECK(charge(10 * s, all) == Approx(40.5));
    CHECK(charge(20 * s + s / 2, all) == Approx(87.0));
    CHECK(charge(2 * s, {micro_amps(1.0), micro_amps(4.0)}) == Approx(8.0));
    CHECK(most_charge(CurrentCurve{}, 10 * s, s, all) == 0);
}

TEST_CASE("a slice of a curve tells the least and the most in it") {
    const auto slices = current_ranges(uneven(), 10 * s, -s, 11 * s, 12);
    CHECK_FALSE(slices.front());
    CHECK_FALSE(slices.back());
    CHECK(slices[1] == CurrentRange{1.0, 1.0});
    CHECK(slices[3] == CurrentRange{1.0, 12.0});
    CHECK(slices[4] == CurrentRange{1.0, 1.0});
    CHECK(slices[6] == CurrentRange{6.0, 6.0});
}

TEST_CASE("the load of a valve is a coil, and kinds that surge bear less on a contact") {
    Channel valve;
    valve.kind = ChannelKind::valve;
    CHECK(load_kind(valve) == LoadKind::coil);
    valve.circuit.load = LoadKind::other;
    CHECK(load_kind(valve) == LoadKind::other);
    CHECK(load_kind(Channel{}) == LoadKind::not_stated);
    CHECK(surges(LoadKind::lamp));
    CHECK_FALSE(surges(LoadKind::coil));
    CHECK(contact_nights(100'000.0, 500.0) == 200.0);
    CHECK(contact_nights(100'000.0, 0.0) > 1e9);
}
