// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/support/catch.hpp"
#include "tests/ui/timeline/on_screen.hpp"

using namespace gasp;
using gasp::test::OnScreen;

TEST_CASE("a cue dragged to a mark is tied to it, and undo puts it back") {
    OnScreen screen;
    const Show before = screen.document.show();
    screen.drag({screen.x(1.5), screen.y(0)}, {screen.x(4.5) + 4, screen.y(0)});
    REQUIRE(screen.start(0) == Micros{4'000'000});
    REQUIRE(screen.cue(0).mark == screen.sequence().marks.front().id);
    REQUIRE(screen.cue(0).at == Micros{0});
    REQUIRE(screen.document.undo_stack().count() == 1);
    screen.settle();
    REQUIRE(screen.analysis.result()->dwells.front().front().begin == Micros{4'000'000});
    screen.document.undo_stack().undo();
    REQUIRE(screen.document.show() == before);
    screen.document.undo_stack().redo();
    REQUIRE(screen.start(0) == Micros{4'000'000});
}

TEST_CASE("a tied cue dragged away keeps its tie and changes its offset") {
    OnScreen screen;
    screen.drag({screen.x(1.5), screen.y(0)}, {screen.x(4.5), screen.y(0)});
    screen.drag({screen.x(4.5), screen.y(0)}, {screen.x(6.0), screen.y(0)}, Qt::AltModifier);
    REQUIRE(screen.cue(0).mark.has_value());
    REQUIRE(std::abs(to_ms(screen.cue(0).at) - 1500) < 30);
}

TEST_CASE("Alt switches snapping off") {
    OnScreen screen;
    screen.drag({screen.x(1.5), screen.y(0)}, {screen.x(4.5) + 4, screen.y(0)}, Qt::AltModifier);
    REQUIRE(screen.start(0) != Micros{4'000'000});
    REQUIRE(std::abs(to_ms(screen.start(0)) - 4000) < 60);
    REQUIRE(!screen.cue(0).mark);
}

TEST_CASE("the show changes while dragging, and Escape restores it") {
    OnScreen screen;
    const Show before = screen.document.show();
    screen.press({screen.x(1.5), screen.y(0)});
    screen.move({screen.x(2.0), screen.y(0)});
    screen.move({screen.x(3.0), screen.y(0)});
    REQUIRE(screen.document.previewing());
    REQUIRE(screen.start(0) > Micros{2'000'000});
    QTest::keyClick(screen.canvas, Qt::Key_Escape);
    REQUIRE(screen.document.show() == before);
    screen.release({screen.x(3.0), screen.y(0)});
    REQUIRE(screen.document.show() == before);
    REQUIRE(screen.document.undo_stack().count() == 0);
}

TEST_CASE("a view of the whole stays one when the sequence gets another length, any other stays as it is") {
    OnScreen screen;
    const auto double_length = [&] {
        const Sequence& sequence = screen.sequence();
        SequenceHead head{.name = sequence.name, .kind = sequence.kind, .length = 2 * sequence.length};
        screen.document.perform(
            set_sequence_head(screen.document.show(), screen.document.sequence_id(), head));
    };
    // What 100 px are worth, by a cue drawn along them.
    const auto drawn = [&](std::size_t channel) {
        screen.drag({600, screen.y(channel)}, {700, screen.y(channel)}, Qt::AltModifier);
        return static_cast<double>(screen.sequence().cues.back().length.count());
    };
    const double before = drawn(1);
    double_length();
    CHECK(drawn(2) == Approx(2 * before).epsilon(0.02));
    screen.view.zoom_in();
    double_length();
    CHECK(drawn(3) == Approx(2 * before / 1.5).epsilon(0.02));
}

TEST_CASE("edges stretch") {
    OnScreen screen;
    screen.drag({screen.x(2.0) - 2, screen.y(0)}, {screen.x(3.3), screen.y(0)}, Qt::AltModifier);
    REQUIRE(screen.start(0) == Micros{1'000'000});
    REQUIRE(std::abs(to_ms(screen.cue(0).length) - 2300) < 30);
    screen.drag({screen.x(1.0) + 2, screen.y(0)}, {screen.x(0.5), screen.y(0)}, Qt::AltModifier);
    REQUIRE(std::abs(to_ms(screen.start(0)) - 500) < 30);
    REQUIRE(std::abs(to_ms(screen.cue(0).length) - 2800) < 60);
}

TEST_CASE("another lane of the same kind takes a dragged cue, one of another kind does not") {
    OnScreen screen;
    const auto& channels = screen.document.show().rig.channels;
    screen.drag({screen.x(1.5), screen.y(0)}, {screen.x(1.5), screen.y(1)});
    REQUIRE(screen.cue(0).channel == channels[1].id);
    screen.drag({screen.x(1.5), screen.y(1)}, {screen.x(1.5), screen.y(2)});
    REQUIRE(screen.cue(0).channel == channels[1].id);
}

TEST_CASE("a drag along an empty lane draws a cue, a double click puts one") {
    OnScreen screen;
    screen.drag({screen.x(6.0), screen.y(2)}, {screen.x(7.0), screen.y(2)});
    REQUIRE(screen.sequence().cues.size() == 2);
    REQUIRE(screen.start(1) == Micros{6'000'000});
    REQUIRE(screen.cue(1).length == Micros{1'000'000});
    REQUIRE(screen.document.selection().cues == std::vector{screen.cue(1).id});
    QTest::mouseDClick(screen.canvas, Qt::LeftButton, {}, {screen.x(8.0), screen.y(2)});
    REQUIRE(screen.sequence().cues.size() == 3);
    REQUIRE(screen.start(2) == Micros{8'000'000});
}

TEST_CASE("a drag across lanes is a rubber band") {
    OnScreen screen;
    screen.drag({screen.x(5.0), screen.y(1)}, {screen.x(6.0), screen.y(1)});
    REQUIRE(screen.sequence().cues.size() == 2);
    screen.drag({screen.x(9.0), screen.y(3)}, {screen.x(0.5), screen.y(0) - 8});
    REQUIRE(screen.sequence().cues.size() == 2);
    REQUIRE(screen.document.selection().cues.size() == 2);
    // With Shift held from the start it draws nothing even along one lane, and keeps what is selected.
    screen.drag({screen.x(7.0), screen.y(2)}, {screen.x(8.0), screen.y(2)}, Qt::ShiftModifier);
    REQUIRE(screen.document.selection().cues.size() == 2);
}

TEST_CASE("a click selects, control adds and takes away") {
    OnScreen screen;
    screen.drag({screen.x(5.0), screen.y(1)}, {screen.x(6.0), screen.y(1)});
    QTest::mouseClick(screen.canvas, Qt::LeftButton, {}, {screen.x(1.5), screen.y(0)});
    REQUIRE(screen.document.selection().cues == std::vector{screen.cue(0).id});
    QTest::mouseClick(screen.canvas, Qt::LeftButton, Qt::ControlModifier, {screen.x(5.5), screen.y(1)});
    REQUIRE(screen.document.selection().cues.size() == 2);
    QTest::mouseClick(screen.canvas, Qt::LeftButton, Qt::ControlModifier, {screen.x(5.5), screen.y(1)});
    REQUIRE(screen.document.selection().cues == std::vector{screen.cue(0).id});
    QTest::keyClick(screen.canvas, Qt::Key_Escape);
    REQUIRE(screen.document.selection().cues.empty());
}

TEST_CASE("a dragged mark takes its tied cues along") {
    OnScreen screen;
    screen.drag({screen.x(1.5), screen.y(0)}, {screen.x(4.5), screen.y(0)});
    const int flag_y = Ruler::ticks_px + Ruler::marks_px / 2;
    QTest::mousePress(screen.ruler, Qt::LeftButton, {}, {screen.x(4.0) + 3, flag_y});
    for (const double at : {4.5, 6.0}) {
        QMouseEvent move(QEvent::MouseMove, QPointF(screen.x(at) + 3, flag_y), QPointF(), Qt::NoButton,
                         Qt::LeftButton, {});
        QApplication::sendEvent(screen.ruler, &move);
    }
    REQUIRE(screen.sequence().marks.front().time == Micros{6'000'000});
    REQUIRE(screen.start(0) == Micros{6'000'000});
    QTest::mouseRelease(screen.ruler, Qt::LeftButton, {}, {screen.x(6.0), flag_y});
    REQUIRE(screen.document.undo_stack().count() == 2);
}
