// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/support/catch.hpp"
#include "tests/ui/timeline/on_screen.hpp"
#include "ui/editor/settings.hpp"
#include "ui/timeline/grid_dialog.hpp"

#include <QDialogButtonBox>
#include <QLineEdit>
#include <QPushButton>
#include <QTemporaryDir>
#include <QToolButton>

using namespace gasp;
using gasp::test::OnScreen;

TEST_CASE("dragged cues, clips and marks come to lie on frames") {
    OnScreen screen;
    screen.trigger("Grid of frames");
    screen.view.findChild<Canvas*>()->setFocus();
    screen.drag({screen.x(1.5), screen.y(0)}, {screen.x(3.237), screen.y(0)});
    CHECK(screen.start(0) != Micros{1'000'000});
    CHECK(screen.start(0) % Micros{40'000} == Micros{0});  // 25 a second
}

TEST_CASE("a key puts what is selected onto the grid") {
    OnScreen screen;
    screen.trigger("Grid of beats");  // 120 a minute
    QTest::mouseClick(screen.canvas, Qt::LeftButton, {}, {screen.x(1.5), screen.y(0)});
    for (int i = 0; i < 3; ++i) {
        QTest::keyClick(screen.canvas, Qt::Key_Right, Qt::ControlModifier);
    }
    REQUIRE(screen.start(0) == Micros{1'300'000});
    QTest::keyClick(screen.canvas, Qt::Key_G, Qt::ShiftModifier);
    // Zoomed in, parts of a beat are drawn, and count.
    CHECK(screen.start(0) % Micros{31'250} == Micros{0});
    CHECK(std::chrono::abs(screen.start(0) - Micros{1'300'000}) <= Micros{250'000});
    const int steps = screen.document.undo_stack().count();
    QTest::keyClick(screen.canvas, Qt::Key_G, Qt::ShiftModifier);
    CHECK(screen.document.undo_stack().count() == steps);
}

TEST_CASE("a selected mark moves by keys") {
    OnScreen screen;
    Selection selection;
    selection.mark = screen.sequence().marks.front().id;
    screen.document.select(selection);
    QTest::keyClick(screen.canvas, Qt::Key_Right, Qt::ShiftModifier);
    CHECK(screen.sequence().marks.front().time == Micros{4'010'000});
    QTest::keyClick(screen.canvas, Qt::Key_Left);
    CHECK(screen.sequence().marks.front().time == Micros{4'009'000});
}

TEST_CASE("the first beat is set at the playhead, and the grid is there again with the show") {
    const QTemporaryDir folder;
    const QString path = folder.filePath("beats.gasp");
    OnScreen screen;
    const auto* button = screen.view.findChild<QToolButton*>();
    CHECK(button->text().trimmed() == "Seconds");
    screen.view.set_playhead(Micros{640'000});
    screen.trigger("First beat at the playhead");
    CHECK(button->text().trimmed() == "Beats 120");
    screen.document.mark_saved(path);
    screen.document.reset(test::small_show(), folder.filePath("other.gasp"));
    CHECK(button->text().trimmed() == "Seconds");
    screen.document.reset(test::small_show(), path);
    CHECK(button->text().trimmed() == "Beats 120");
    CHECK(Settings().grid(path, screen.document.sequence_id()).first_beat == Micros{640'000});
}

TEST_CASE("the dialog of the grid takes figures that make sense, and no others") {
    Grid grid;
    grid.kind = Grid::Kind::beats;
    grid.beats_a_minute = 91.5;
    grid.first_beat = Micros{1'500'000};
    GridDialog dialog(grid, Micros{2'345'678});
    CHECK(dialog.grid() == grid);
    auto* first = dialog.findChild<QLineEdit*>("first beat");
    QPushButton* good = dialog.findChild<QDialogButtonBox*>()->button(QDialogButtonBox::Ok);
    first->setText("-3");
    CHECK_FALSE(good->isEnabled());
    first->setText("250 ms");
    CHECK(good->isEnabled());
    CHECK(dialog.grid().first_beat == Micros{250'000});
}
