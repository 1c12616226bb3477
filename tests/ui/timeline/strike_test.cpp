// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/support/catch.hpp"
#include "tests/ui/timeline/figure_show.hpp"
#include "ui/timeline/hit.hpp"
#include "ui/timeline/strikes.hpp"

using namespace gasp;
using gasp::test::OnScreen;

namespace {

constexpr std::size_t lunge = 1;  // its place among the cues

struct Stage : OnScreen {
    Stage() : OnScreen(gasp::test::show_with_figure()) {}
    [[nodiscard]] CueId id() const { return cue(lunge).id; }
    [[nodiscard]] SeenStrike strike() const {
        const auto seen = seen_strike(canvas->scene(), id());
        REQUIRE(seen);
        return *seen;
    }
    [[nodiscard]] QPoint flag() const { return handle_of(canvas->scene(), id()).center().toPoint(); }
    [[nodiscard]] Micros drawn_begin() const { return canvas->scene().cues().find(id())->begin; }
    void select_lunge() { document.select({{id()}, {}, {}, cue(lunge).channel}); }
};

}  // namespace

TEST_CASE("the strike is where the simulation has it, with its band and its pressures") {
    const Stage stage;
    const SeenStrike strike = stage.strike();
    REQUIRE(strike.simulated);
    REQUIRE_FALSE(strike.measured);
    const auto& stroke = stage.analysis.result()->air.run->strokes.front();
    REQUIRE(to_s(strike.lead) == Approx(*stroke.strike_s()).margin(1e-6));
    REQUIRE(strike.soonest < strike.lead);
    REQUIRE((!strike.latest || *strike.latest > strike.lead));
    const QString text = strike_text(stage.canvas->scene(), stage.cue(lunge), strike);
    REQUIRE(text.contains("not measured"));
    REQUIRE(text.contains("bar"));
    REQUIRE_FALSE(seen_strike(stage.canvas->scene(), stage.cue(0).id));
}

TEST_CASE("a strike dragged to a mark is tied to it, and the schedule starts the valve so much before") {
    Stage stage;
    const Show before = stage.document.show();
    REQUIRE(hit(stage.canvas->scene(), stage.flag()).part == Hit::Part::strike);
    stage.drag(stage.flag(), {stage.x(4.0) + 4, stage.flag().y()});
    REQUIRE(stage.cue(lunge).strikes);
    REQUIRE(stage.cue(lunge).mark == stage.sequence().marks.front().id);
    REQUIRE(stage.cue(lunge).at == Micros{0});
    REQUIRE(stage.document.undo_stack().count() == 1);
    stage.settle();
    const PlacedStrike* placed = stage.analysis.result()->strike_of(stage.id());
    REQUIRE(placed != nullptr);
    REQUIRE(placed->fault == StrikeFault::none);
    REQUIRE(std::abs(to_ms(placed->start + *placed->lead) - 4000.0) < 1.0);
    REQUIRE(stage.drawn_begin() == Micros{4'000'000} - *placed->lead);
    REQUIRE(std::abs(to_ms(stage.strike().time()) - 4000.0) < 1.0);
    stage.document.undo_stack().undo();
    REQUIRE(stage.document.show() == before);
}

TEST_CASE("Alt lets a strike go where the pointer is, and Escape gives the drag up") {
    Stage stage;
    stage.drag(stage.flag(), {stage.x(4.0) + 4, stage.flag().y()}, Qt::AltModifier);
    REQUIRE(stage.cue(lunge).strikes);
    REQUIRE_FALSE(stage.cue(lunge).mark);
    REQUIRE(std::abs(to_ms(stage.cue(lunge).at) - 4000.0) < 60.0);
    stage.settle();
    const Show before = stage.document.show();
    stage.press(stage.flag());
    stage.move({stage.x(6.0), stage.flag().y()});
    stage.move({stage.x(7.0), stage.flag().y()});
    REQUIRE(stage.document.previewing());
    QTest::keyClick(stage.canvas, Qt::Key_Escape);
    stage.release({stage.x(7.0), stage.flag().y()});
    REQUIRE(stage.document.show() == before);
}

TEST_CASE("placing by strike, and by start again, moves no cue on the ruler") {
    Stage stage;
    stage.select_lunge();
    const Micros lead = stage.strike().lead;
    stage.trigger("Place by strike");
    REQUIRE(stage.cue(lunge).strikes);
    REQUIRE(stage.cue(lunge).at == Micros{2'000'000} + lead);
    REQUIRE(stage.drawn_begin() == Micros{2'000'000});
    stage.settle();
    REQUIRE(std::abs(to_ms(stage.drawn_begin()) - 2000.0) < 1.0);
    stage.trigger("Place by start");
    REQUIRE_FALSE(stage.cue(lunge).strikes);
    REQUIRE(std::abs(to_ms(stage.cue(lunge).at) - 2000.0) < 1.0);
    stage.settle();
    REQUIRE(stage.drawn_begin() == stage.cue(lunge).at);
}

TEST_CASE("the end of a cue that is placed by its strike is stretched, its start goes with the cue") {
    Stage stage;
    stage.select_lunge();
    stage.trigger("Place by strike");
    stage.settle();
    const Micros strike = stage.cue(lunge).at;
    const int y = stage.y(3);
    stage.drag({stage.x(3.5) - 2, y}, {stage.x(5.0), y}, Qt::AltModifier);
    REQUIRE(stage.cue(lunge).at == strike);
    REQUIRE(std::abs(to_ms(stage.cue(lunge).length) - 3000.0) < 60.0);
    stage.settle();
    stage.drag({stage.x(2.0) + 2, y}, {stage.x(3.0) + 2, y}, Qt::AltModifier);
    REQUIRE(std::abs(to_ms(stage.cue(lunge).at - strike) - 1000.0) < 60.0);
    REQUIRE(std::abs(to_ms(stage.cue(lunge).length) - 3000.0) < 60.0);
}

TEST_CASE("freedom to stagger is given and taken by keys, a run of them one step to undo") {
    Stage stage;
    stage.select_lunge();
    stage.trigger("More freedom to stagger");
    stage.trigger("More freedom to stagger");
    REQUIRE(stage.cue(lunge).freedom == Micros{100'000});
    REQUIRE(stage.document.undo_stack().count() == 1);
    stage.trigger("Less freedom to stagger");
    stage.trigger("Less freedom to stagger");
    stage.trigger("Less freedom to stagger");
    REQUIRE(stage.cue(lunge).freedom == Micros{0});
}
