// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/fuse.hpp"

#include "core/power/contact.hpp"
#include "core/power/current_ranges.hpp"
#include "tests/support/catch.hpp"

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
    CHECK_FALSE(fuse_bears(5.0, curve, 10 * s));  // 6 A, 1.2 times, for 5 s; opens it after 0.75 s perhaps
    CHECK_FALSE(fuse_bears(7.5, curve, 10 * s));  // 12 A, 1.6 times, for 0.5 s: 0.15 s
    CHECK(fuse_bears(10.0, curve, 10 * s));       // 1.2 times for 0.5 s: 0.75 s
    CHECK(fitting_fuse_a(3.0, curve, 10 * s, 20.0) == 10.0);
    CHECK(fitting_fuse_a(9.0, curve, 10 * s, 20.0) == 15.0);
    CHECK_FALSE(fitting_fuse_a(3.0, curve, 10 * s, 9.0));
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
