// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/support/catch.hpp"
#include "tests/ui/timeline/figure_show.hpp"
#include "ui/timeline/strikes.hpp"
#include "ui/timeline/travel_picture.hpp"

#include <algorithm>

using namespace gasp;
using gasp::test::OnScreen;

namespace {

constexpr std::size_t lunge = 1;  // its place among the cues

struct Stage : OnScreen {
    Stage() : OnScreen(gasp::test::show_with_figure()) {}
    [[nodiscard]] ActuatorId keeper() const { return document.show().rig.actuators.front().id; }
    [[nodiscard]] const MotionPreview* ahead() const { return canvas->scene().ahead_of(keeper()); }
    [[nodiscard]] QPoint body(double seconds) const { return {x(seconds), y(3)}; }
};

double first_time_at(const std::vector<CurvePoint>& curve, double share) {
    const auto found = std::ranges::find_if(curve, [share](const CurvePoint& p) { return p.value >= share; });
    REQUIRE(found != curve.end());
    return found->time_s;
}

}  // namespace

TEST_CASE("travel and strike go with a dragged cue before the run of it is there") {
    Stage stage;
    REQUIRE(stage.ahead() == nullptr);
    stage.press(stage.body(3.0));
    stage.move(stage.body(4.0), Qt::AltModifier);
    stage.move(stage.body(5.0), Qt::AltModifier);
    // No event was handled since: nothing can have come from the background.
    REQUIRE_FALSE(stage.analysis.up_to_date());
    REQUIRE(stage.ahead() != nullptr);
    REQUIRE(stage.ahead()->simulated == 2);
    const Micros begin = stage.start(lunge);
    REQUIRE(std::abs(to_ms(begin) - 4000.0) < 60.0);
    CHECK(stage.ahead()->motion.share_at(begin - Micros{100'000}) < 0.01);
    CHECK(stage.ahead()->motion.share_at(begin + Micros{1'400'000}) > 0.99);
    const auto seen = seen_strike(stage.canvas->scene(), stage.cue(lunge).id);
    REQUIRE(seen);
    CHECK(seen->ahead);
    CHECK(strike_text(stage.canvas->scene(), stage.cue(lunge), *seen).contains("being worked out"));
    stage.release(stage.body(5.0), Qt::AltModifier);
    stage.settle();
    CHECK(stage.ahead() == nullptr);
    const auto settled = seen_strike(stage.canvas->scene(), stage.cue(lunge).id);
    REQUIRE(settled);
    CHECK_FALSE(settled->ahead);
    const Stroke& stroke = stage.analysis.result()->air.run->strokes.front();
    CHECK(to_s(settled->lead) == Approx(*stroke.strike_s()).margin(1e-6));
    CHECK(std::abs(to_ms(seen->lead - settled->lead)) < 2.0);
}

TEST_CASE("a drag that is given up, and its undoing, leave what the run says") {
    Stage stage;
    stage.press(stage.body(3.0));
    stage.move(stage.body(4.0), Qt::AltModifier);
    stage.move(stage.body(5.0), Qt::AltModifier);
    QTest::keyClick(stage.canvas, Qt::Key_Escape);
    REQUIRE(stage.ahead() != nullptr);
    CHECK(stage.ahead()->simulated == 0);
    CHECK(stage.ahead()->ahead.empty());
    stage.settle();
    CHECK(stage.ahead() == nullptr);
}

TEST_CASE("a lamp's cue moves no figure") {
    Stage stage;
    stage.drag({stage.x(1.5), stage.y(0)}, {stage.x(5.5), stage.y(0)}, Qt::AltModifier);
    CHECK(stage.ahead() == nullptr);
}

TEST_CASE("the soft edge of the travel is the band of the stroke's times") {
    const Stage stage;
    const auto result = stage.analysis.result();
    REQUIRE_FALSE(result->air.bands.empty());
    const StrokeBand& band = result->air.bands.front();
    REQUIRE(band.strike_s());
    const TravelPicture picture = travel_picture(result->air.motion_of(stage.keeper())->curve, stage.keeper(),
                                                 result->air.run->strokes, result->air.bands);
    const double begin = to_s(result->air.run->strokes.front().command.time);
    const TravelPicture::Edge& whole = picture.edges.back();
    CHECK(first_time_at(whole.early, 0.95) - begin == Approx(band.strike_s()->low).margin(0.01));
    CHECK(first_time_at(picture.line, 0.95) - begin == Approx(band.strike_s()->nominal).margin(0.01));
    if (std::isfinite(band.strike_s()->high)) {
        CHECK(first_time_at(whole.late, 0.95) - begin == Approx(band.strike_s()->high).margin(0.01));
    }
    const double third = first_time_at(picture.edges.front().early, 0.95);
    CHECK(third > first_time_at(whole.early, 0.95));
    CHECK(third < first_time_at(picture.line, 0.95));
    for (const auto& edge : picture.edges) {
        CHECK(std::ranges::is_sorted(edge.early, {}, &CurvePoint::time_s));
        CHECK(std::ranges::is_sorted(edge.late, {}, &CurvePoint::time_s));
    }
    const TravelPicture bare =
        travel_picture(result->air.motion_of(stage.keeper())->curve, stage.keeper(), {}, {});
    CHECK(bare.edges.front().early.empty());
}
