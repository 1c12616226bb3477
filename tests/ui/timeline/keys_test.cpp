// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/support/catch.hpp"
#include "tests/ui/timeline/on_screen.hpp"

#include <QAccessible>
#include <QLineEdit>
#include <QWheelEvent>

using namespace gasp;
using gasp::test::OnScreen;

TEST_CASE("cues are copied, pasted at the playhead and deleted") {
    OnScreen screen;
    QTest::mouseClick(screen.canvas, Qt::LeftButton, {}, {screen.x(1.5), screen.y(0)});
    screen.trigger("Copy cues");
    screen.view.set_playhead(Micros{7'000'000});
    screen.trigger("Paste cues at the playhead");
    REQUIRE(screen.sequence().cues.size() == 2);
    REQUIRE(screen.start(1) == Micros{7'000'000});
    REQUIRE(screen.cue(1).length == screen.cue(0).length);
    REQUIRE(screen.document.selection().cues == std::vector{screen.cue(1).id});
    screen.trigger("Delete");
    REQUIRE(screen.sequence().cues.size() == 1);
    screen.document.undo_stack().undo();
    REQUIRE(screen.sequence().cues.size() == 2);
}

TEST_CASE("a repeat follows the last selected cue") {
    OnScreen screen;
    QTest::mouseClick(screen.canvas, Qt::LeftButton, {}, {screen.x(1.5), screen.y(0)});
    screen.trigger("Repeat cues after themselves");
    REQUIRE(screen.start(1) == Micros{2'000'000});
}

TEST_CASE("keys nudge, lengthen and change lanes, as one step while held") {
    OnScreen screen;
    QTest::mouseClick(screen.canvas, Qt::LeftButton, {}, {screen.x(1.5), screen.y(0)});
    QTest::keyClick(screen.canvas, Qt::Key_Right);
    QTest::keyClick(screen.canvas, Qt::Key_Right);
    REQUIRE(screen.start(0) == Micros{1'002'000});
    REQUIRE(screen.document.undo_stack().count() == 1);
    QTest::keyClick(screen.canvas, Qt::Key_Left, Qt::ShiftModifier);
    REQUIRE(screen.start(0) == Micros{992'000});
    QTest::keyClick(screen.canvas, Qt::Key_Right, Qt::AltModifier);
    REQUIRE(screen.cue(0).length == Micros{1'001'000});
    QTest::keyClick(screen.canvas, Qt::Key_Down, Qt::AltModifier);
    REQUIRE(screen.cue(0).channel == screen.document.show().rig.channels[1].id);
    QTest::keyClick(screen.canvas, Qt::Key_T);
    REQUIRE(screen.cue(0).mark.has_value());
    REQUIRE(screen.start(0) == Micros{992'000});
    QTest::keyClick(screen.canvas, Qt::Key_F);
    REQUIRE(screen.cue(0).flashes == Flashes{});
    QTest::keyClick(screen.canvas, Qt::Key_BracketRight);
    REQUIRE(screen.cue(0).flashes->rate_hz == 3.0);
    QTest::keyClick(screen.canvas, Qt::Key_F, Qt::ShiftModifier);
    REQUIRE(!screen.cue(0).flashes);
}

TEST_CASE("keys shift all of a sequence, as one step while held, and to the playhead") {
    OnScreen screen;
    const Micros length = screen.sequence().length;
    const Micros cue = screen.start(0);
    QTest::keyClick(screen.canvas, Qt::Key_Right, Qt::ControlModifier | Qt::ShiftModifier);
    QTest::keyClick(screen.canvas, Qt::Key_Right, Qt::ControlModifier | Qt::ShiftModifier);
    REQUIRE(screen.start(0) == cue + Micros{200'000});
    REQUIRE(screen.sequence().length == length + Micros{200'000});
    REQUIRE(screen.document.undo_stack().count() == 1);
    QTest::keyClick(screen.canvas, Qt::Key_Left, Qt::ControlModifier | Qt::ShiftModifier);
    REQUIRE(screen.start(0) == cue + Micros{100'000});
    screen.view.set_playhead(Micros{3'000'000});
    QTest::keyClick(screen.canvas, Qt::Key_Home, Qt::ControlModifier | Qt::ShiftModifier);
    REQUIRE(screen.start(0) == Micros{3'000'000});
    while (screen.document.undo_stack().canUndo()) {
        screen.document.undo_stack().undo();
    }
    REQUIRE(screen.start(0) == cue);
    REQUIRE(screen.sequence().length == length);
}

TEST_CASE("marks are tapped in at the playhead with names of their own") {
    OnScreen screen;
    screen.view.set_playhead(Micros{2'500'000});
    screen.view.add_mark_at_playhead();
    screen.view.set_playhead(Micros{2'700'000});
    QTest::keyClick(screen.canvas, Qt::Key_M);
    REQUIRE(screen.sequence().marks.size() == 3);
    REQUIRE(screen.sequence().marks[1].name == "Mark 1");
    REQUIRE(screen.sequence().marks[2].name == "Mark 2");
    REQUIRE(screen.sequence().marks[2].time == Micros{2'700'000});
}

TEST_CASE("Tab walks through the cues in order of time and then leaves the lanes") {
    OnScreen screen;
    screen.drag({screen.x(0.2), screen.y(2)}, {screen.x(0.6), screen.y(2)});
    screen.document.select({});
    screen.canvas->setFocus();
    QTest::keyClick(screen.canvas, Qt::Key_Tab);
    REQUIRE(screen.document.selection().cues == std::vector{screen.cue(1).id});
    QTest::keyClick(screen.canvas, Qt::Key_Tab);
    REQUIRE(screen.document.selection().cues == std::vector{screen.cue(0).id});
    QLineEdit other(&screen.view);
    other.show();
    QTest::keyClick(screen.canvas, Qt::Key_Tab);
    REQUIRE(other.hasFocus());
}

TEST_CASE("every action has a tooltip that names its key") {
    OnScreen screen;
    for (const auto& actions : std::initializer_list<std::vector<QAction*>>{screen.view.edit_actions(),
                                                                            screen.view.view_actions(),
                                                                            screen.view.move_actions(),
                                                                            {screen.view.loop_action()}}) {
        for (const QAction* action : actions) {
            if (action != nullptr) {
                INFO(action->text().toStdString());
                CHECK(!action->shortcut().isEmpty());
                CHECK(action->toolTip().contains(action->shortcut().toString(QKeySequence::NativeText)));
                CHECK(!action->icon().isNull());
            }
        }
    }
}

TEST_CASE("a screen reader finds the cues with their lanes and times") {
    OnScreen screen;
    QAccessibleInterface* lanes = QAccessible::queryAccessibleInterface(screen.canvas);
    REQUIRE(lanes != nullptr);
    REQUIRE(lanes->childCount() == 1);
    QAccessibleInterface* cue = lanes->child(0);
    REQUIRE(cue->text(QAccessible::Name).toStdString() == "Cue, lamp, 0:01.000   1 s");
    REQUIRE(!cue->state().selected);
    screen.document.select({{screen.cue(0).id}, {}, {}, {}});
    REQUIRE(cue->state().selected);
    REQUIRE(lanes->focusChild() == cue);
    screen.trigger("Delete");
    REQUIRE(!cue->isValid());
}

TEST_CASE("a screen reader is told what the keys have come to") {
    OnScreen screen;
    screen.view.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&screen.view));
    screen.canvas->setFocus();
    const auto told = [&] { return screen.canvas->accessibleDescription().toStdString(); };
    screen.document.select({{screen.cue(0).id}, {}, {}, {}});
    CHECK(told() == "Cue, lamp, 0:01.000   1 s");
    screen.document.select({{}, screen.document.sequence().marks.front().id, {}, {}});
    CHECK(told() == "Mark light, 0:04.000");
    screen.document.select({});
    CHECK(told().empty());
}

TEST_CASE("the wheel zooms at the pointer") {
    OnScreen screen;
    const int pointer = screen.x(4.0);
    const QPointF at(pointer, screen.y(0));
    const QImage before = screen.canvas->grab().toImage();
    for (int i = 0; i < 5; ++i) {
        QWheelEvent wheel(at, screen.canvas->mapToGlobal(at), {}, {0, 120}, {}, {}, Qt::NoScrollPhase, false);
        QApplication::sendEvent(screen.canvas, &wheel);
    }
    // The mark at 4 s, under the pointer to half a pixel, has stayed there to the half pixel times the zoom.
    const QImage after = screen.canvas->grab().toImage();
    const int below = screen.y(3) + 24;
    int columns = 0;
    for (int x = pointer - 2; x <= pointer + 2; ++x) {
        columns += after.pixel(x, below) == before.pixel(pointer, below) ? 1 : 0;
    }
    REQUIRE(columns == 1);
    // And it is wider: a drag of as many pixels is less time now.
    const Micros start = screen.start(0);
    QTest::keyClick(screen.canvas, Qt::Key_Z, Qt::ShiftModifier);
    screen.drag({screen.x(1.5), screen.y(0)}, {screen.x(2.5), screen.y(0)}, Qt::AltModifier);
    REQUIRE(std::abs(to_ms(screen.start(0) - start) - 1000) < 30);
}

TEST_CASE("a press on the ruler asks for the playhead, with Shift for a loop") {
    OnScreen screen;
    std::optional<Micros> asked;
    std::optional<Dwell> loop;
    QObject::connect(&screen.view, &TimelineView::playhead_requested, [&](Micros time) { asked = time; });
    QObject::connect(&screen.view, &TimelineView::loop_requested,
                     [&](std::optional<Dwell> one) { loop = one; });
    QTest::mouseClick(screen.ruler, Qt::LeftButton, {}, {screen.x(4.0) + 2, 8});
    REQUIRE(asked == Micros{4'000'000});
    REQUIRE(screen.view.playhead() == Micros{0});
    QTest::mousePress(screen.ruler, Qt::LeftButton, Qt::ShiftModifier, {screen.x(2.0), 8});
    QMouseEvent move(QEvent::MouseMove, QPointF(screen.x(5.0), 8), QPointF(), Qt::NoButton, Qt::LeftButton,
                     Qt::ShiftModifier);
    QApplication::sendEvent(screen.ruler, &move);
    REQUIRE(loop == Dwell{Micros{2'000'000}, Micros{5'000'000}});
}

TEST_CASE("jumping to a place selects it and brings it into sight") {
    OnScreen screen;
    screen.trigger("Zoom in");
    screen.trigger("Zoom in");
    Place place;
    place.cue = screen.cue(0).id;
    place.time = screen.start(0);
    screen.view.jump_to(place);
    REQUIRE(screen.document.selection().cues == std::vector{screen.cue(0).id});
    REQUIRE(screen.document.selection().channel == screen.cue(0).channel);
}

TEST_CASE("a drag costs the same however many cues are off screen") {
    const auto cues_painted_by_a_drag = [](int off_screen) {
        Show show = test::small_show();
        const SequenceId sequence = show.sequences.front().id;
        SequenceHead head{show.sequences.front().name, SequenceKind::triggered, Micros{4'000'000'000}};
        apply(set_sequence_head(show, sequence, head), show);
        std::vector<Cue> cues;
        for (int i = 0; i < off_screen; ++i) {
            Cue cue;
            cue.channel = show.rig.channels[static_cast<std::size_t>(i) % 3].id;
            cue.at = Micros{20'000'000 + 30'000 * std::int64_t{i}};
            cue.length = Micros{20'000};
            cues.push_back(cue);
        }
        apply(add_cues(show, sequence, std::move(cues)), show);
        OnScreen screen(std::move(show));
        QTest::mouseClick(screen.canvas, Qt::LeftButton, {}, {0, screen.y(1)});
        screen.document.select({{screen.cue(0).id}, {}, {}, {}});
        screen.trigger("Show what is selected");
        QApplication::processEvents();
        screen.settle();
        const std::size_t before = screen.canvas->picture().cues_painted();
        screen.press({screen.canvas->width() / 2, screen.y(0)});
        for (int x = 10; x <= 100; x += 10) {
            screen.move({screen.canvas->width() / 2 + x, screen.y(0)});
            screen.canvas->repaint();
        }
        screen.release({screen.canvas->width() / 2 + 100, screen.y(0)});
        REQUIRE(screen.start(0) > Micros{1'000'000});
        return screen.canvas->picture().cues_painted() - before;
    };
    const std::size_t few = cues_painted_by_a_drag(10);
    const std::size_t many = cues_painted_by_a_drag(100'000);
    REQUIRE(few >= 10);
    REQUIRE(many <= few + 4);
}
