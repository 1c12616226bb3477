// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/support/catch.hpp"
#include "tests/ui/timeline/on_screen.hpp"
#include "ui/timeline/hit.hpp"

using namespace gasp;
using gasp::test::OnScreen;

namespace {

/// The small show with a clip of 4 s from 2 s on.
struct Voice : OnScreen {
    Voice() : OnScreen(show()) { click(sequence().clips.front()); }

    static Show show() {
        Show show = gasp::test::small_show();
        SoundClip clip;
        clip.file = "voice.wav";
        clip.file_length = Micros{6'000'000};
        clip.start = Micros{2'000'000};
        clip.from = Micros{1'000'000};
        clip.length = Micros{4'000'000};
        apply(add_clip(show, show.sequences.front().id, clip), show);
        return show;
    }
    [[nodiscard]] const SoundClip& clip(std::size_t i = 0) const { return sequence().clips.at(i); }
    [[nodiscard]] QRectF box(const SoundClip& clip) const { return box_of(canvas->scene(), clip); }
    void click(const SoundClip& clip) {
        QTest::mouseClick(canvas, Qt::LeftButton, {}, box(clip).center().toPoint());
    }
    [[nodiscard]] std::size_t lanes() const { return canvas->scene().lanes().sounds().size(); }
};

}  // namespace

TEST_CASE("a clip dragged below its lane gets another, which goes when it comes back") {
    Voice voice;
    REQUIRE(voice.lanes() == 1);
    const QPoint from = voice.box(voice.clip()).center().toPoint();
    const int below = static_cast<int>(voice.box(voice.clip()).height()) + 9;
    voice.drag(from, from + QPoint(0, below));
    CHECK(voice.clip().lane == 2);
    CHECK(voice.clip().start == Micros{2'000'000});
    CHECK(voice.lanes() == 2);
    const QPoint low = voice.box(voice.clip()).center().toPoint();
    CHECK(hit(voice.canvas->scene(), low).clip == voice.clip().id);
    voice.drag(low, low - QPoint(0, 200));
    CHECK(voice.clip().lane == 1);
    CHECK(voice.lanes() == 1);
    voice.document.undo_stack().undo();
    CHECK(voice.clip().lane == 2);
    CHECK(voice.lanes() == 2);
}

TEST_CASE("fades are drawn out by their handles, and stop at each other") {
    Voice voice;
    const auto handles = [&] { return fade_handles(voice.canvas->scene(), voice.clip()); };
    voice.drag(handles().in.toPoint(), {voice.x(3.0), qRound(handles().in.y())}, Qt::AltModifier);
    CHECK(std::abs(to_ms(voice.clip().fade_in) - 1000) < 120);
    voice.drag(handles().out.toPoint(), {voice.x(2.2), qRound(handles().out.y())}, Qt::AltModifier);
    CHECK(voice.clip().fade_in + voice.clip().fade_out == voice.clip().length);
    CHECK(voice.document.undo_stack().count() == 2);
}

TEST_CASE("keys split, repeat, fade, level and move the selected clip") {
    Voice voice;
    voice.view.set_playhead(Micros{3'000'000});
    voice.trigger("Fade the sound in up to the playhead");
    CHECK(voice.clip().fade_in == Micros{1'000'000});
    voice.view.set_playhead(Micros{5'000'000});
    voice.trigger("Fade the sound out from the playhead");
    CHECK(voice.clip().fade_out == Micros{1'000'000});
    voice.trigger("Sound quieter by 1 dB");
    voice.trigger("Sound quieter by 1 dB");
    CHECK(voice.clip().gain_db == -2.0);
    QTest::keyClick(voice.canvas, Qt::Key_Right, Qt::ShiftModifier);
    CHECK(voice.clip().start == Micros{2'010'000});
    voice.view.set_playhead(Micros{4'010'000});
    QTest::keyClick(voice.canvas, Qt::Key_X);
    REQUIRE(voice.sequence().clips.size() == 2);
    CHECK(voice.clip(0).length == Micros{2'000'000});
    CHECK(voice.clip(1).from == Micros{3'000'000});
    CHECK(voice.document.selection().clip == voice.clip(1).id);
    QTest::keyClick(voice.canvas, Qt::Key_Down, Qt::AltModifier);
    CHECK(voice.clip(1).lane == 2);
    QTest::keyClick(voice.canvas, Qt::Key_D, Qt::ControlModifier);
    REQUIRE(voice.sequence().clips.size() == 3);
    CHECK(voice.clip(2).start == Micros{6'010'000});
    CHECK(voice.clip(2).lane == 2);
}
