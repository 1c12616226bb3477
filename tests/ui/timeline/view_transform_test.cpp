// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/view_transform.hpp"

#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <cmath>

using namespace gasp;

namespace {

ViewTransform any_view() {
    ViewTransform view;
    view.set_width(*rc::gen::inRange(1, 8000));
    view.set_extent(Micros{*rc::gen::inRange<std::int64_t>(0, 86'400'000'000)});
    const double exponent = *rc::gen::inRange(1300, 9000) / 1000.0;
    view.set_scale_and_offset(std::pow(10.0, exponent),
                              Micros{*rc::gen::inRange<std::int64_t>(-1'000'000, 86'400'000'000)});
    return view;
}

}  // namespace

TEST_CASE("a time and its x lead to each other") {
    REQUIRE(rc::check([] {
        const ViewTransform view = any_view();
        const Micros time{*rc::gen::inRange<std::int64_t>(-1'000'000, 86'400'000'000)};
        const auto off = std::abs((view.time_at(view.x_of(time)) - time).count());
        RC_ASSERT(off <= 1);
        RC_ASSERT(view.x_of(time + Micros{1'000'000}) > view.x_of(time));
    }));
}

TEST_CASE("zooming keeps the time under the pointer where it is") {
    REQUIRE(rc::check([] {
        ViewTransform view = any_view();
        const double x = *rc::gen::inRange(0, static_cast<int>(view.width()) + 1);
        const Micros under = view.time_at(x);
        const double before = view.us_per_px();
        view.zoom_about(x, *rc::gen::inRange(10, 1000) / 100.0);
        // The margins may forbid it: then the view stands at one of its ends.
        const bool at_an_end =
            view.scroll_position() < 0.5 || view.scroll_position() > view.scroll_range() - 0.5;
        // Times are whole microseconds.
        const double microsecond_px = 1.0 / std::min(before, view.us_per_px());
        RC_ASSERT(at_an_end || std::abs(view.x_of(under) - x) < 0.1 + microsecond_px);
        RC_ASSERT(view.us_per_px() >= ViewTransform::least_us_per_px);
        RC_ASSERT(view.us_per_px() <= std::max(view.largest_us_per_px(), before));
    }));
}

TEST_CASE(
    "in the middle of a long sequence zooming keeps the pointer to a tenth of a pixel, in and out again") {
    ViewTransform view;
    view.set_width(1280);
    view.set_extent(Micros{3'600'000'000});
    view.fit_to(Micros{1'000'000'000}, Micros{1'100'000'000});
    const Micros under = view.time_at(700);
    for (int i = 0; i < 20; ++i) {
        view.zoom_about(700, 1.4);
        REQUIRE(std::abs(view.x_of(under) - 700) < 0.1);
    }
    for (int i = 0; i < 20; ++i) {
        view.zoom_about(700, 1 / 1.4);
        REQUIRE(std::abs(view.x_of(under) - 700) < 0.1);
    }
}

TEST_CASE("the whole of a sequence fits between the margins") {
    REQUIRE(rc::check([] {
        ViewTransform view = any_view();
        RC_PRE(view.width() >= 100);
        view.fit();
        const double start = view.x_of(Micros{0});
        const double end = view.x_of(view.extent());
        RC_ASSERT(start >= ViewTransform::margin_px - 1);
        RC_ASSERT(end <= view.width() - ViewTransform::margin_px + 1);
        RC_ASSERT(end - start >= view.width() - 2 * ViewTransform::margin_px - 1);
    }));
}

TEST_CASE("what is in sight as a whole cannot be scrolled") {
    ViewTransform view;
    view.set_width(1000);
    view.set_extent(Micros{19'000'000});
    view.fit();
    REQUIRE(view.shows_just_the_whole());
    REQUIRE(view.scroll_range() == 0);
    view.zoom_about(500, 0.5);
    REQUIRE_FALSE(view.shows_just_the_whole());
    REQUIRE(view.scroll_range() == 0);
    view.zoom_about(500, 4);
    REQUIRE(view.scroll_range() > 500);
}

TEST_CASE("scrolling stops at the margins") {
    ViewTransform view;
    view.set_width(1000);
    view.set_extent(Micros{10'000'000});
    view.scroll_by(-1e12);
    REQUIRE(view.x_of(Micros{0}) == Approx(ViewTransform::margin_px).margin(0.01));
    REQUIRE(view.scroll_position() == Approx(0).margin(0.01));
    view.scroll_by(1e12);
    REQUIRE(view.x_of(view.extent()) == Approx(500).margin(0.01));
    REQUIRE(view.scroll_position() == Approx(view.scroll_range()).margin(0.01));
    view.scroll_to(view.scroll_range() / 2);
    REQUIRE(view.scroll_position() == Approx(view.scroll_range() / 2).margin(0.01));
}

TEST_CASE("a scale that is no number is not taken") {
    ViewTransform view;
    view.set_scale_and_offset(std::nan(""), Micros{0});
    REQUIRE(std::isfinite(view.us_per_px()));
    view.set_scale_and_offset(0, Micros{0});
    REQUIRE(view.us_per_px() == ViewTransform::least_us_per_px);
}
