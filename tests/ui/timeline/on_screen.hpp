// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edits.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/look/look.hpp"
#include "ui/timeline/canvas.hpp"
#include "ui/timeline/lane_layout.hpp"
#include "ui/timeline/ruler.hpp"
#include "ui/timeline/timeline_view.hpp"

#include <QAction>
#include <QApplication>
#include <QSettings>
#include <QTest>

namespace gasp::test {

/// A show of 10 s with two lamps, a motor and a valve, a mark at 4 s, and one cue of the first lamp from 1 s
/// to 2 s.
inline Show small_show() {
    Show show = empty_show();
    const auto channel = [&show](const char* name, ChannelKind kind) {
        Channel one;
        one.name = name;
        one.kind = kind;
        apply(add_channel(show, one), show);
        return show.rig.channels.back().id;
    };
    const ChannelId lamp = channel("lamp", ChannelKind::lamp);
    channel("second lamp", ChannelKind::lamp);
    channel("motor", ChannelKind::motor);
    channel("lunge", ChannelKind::valve);
    const SequenceId sequence = show.sequences.front().id;
    apply(add_mark(show, sequence, Micros{4'000'000}, "light"), show);
    Cue cue;
    cue.channel = lamp;
    cue.at = Micros{1'000'000};
    cue.length = Micros{1'000'000};
    apply(add_cues(show, sequence, {cue}), show);
    return show;
}

/// The timeline of a show in a shown window of 1200 x 480, without settings of an earlier one, and the places
/// of its things on it.
struct OnScreen {
    explicit OnScreen(Show show = small_show()) : view(document, analysis) {
        set_theme(Theme::dark);
        document.reset(std::move(show), {});
        view.resize(1200, 480);
        view.show();
        REQUIRE(QTest::qWaitForWindowExposed(&view));
        canvas = view.findChild<Canvas*>();
        ruler = view.findChild<Ruler*>();
        canvas->setFocus();
        settle();
    }
    static bool forget_settings() {
        QSettings().clear();
        return true;
    }
    void settle() {
        analysis.wait();
        QApplication::processEvents();
    }
    [[nodiscard]] const Sequence& sequence() const { return document.sequence(); }
    [[nodiscard]] const Cue& cue(std::size_t i) const { return sequence().cues.at(i); }
    [[nodiscard]] Micros start(std::size_t i) const { return start_of(sequence(), cue(i)); }
    /// A 10 s sequence is shown whole, between margins of 16 px.
    [[nodiscard]] int x(double seconds) const { return qRound(16 + seconds * (canvas->width() - 32) / 10.0); }
    /// The middle of the lane of a channel.
    [[nodiscard]] int y(std::size_t channel) const {
        const LaneLayout lanes(document.show(), sequence(), LaneHeight::normal, canvas->height());
        const Lane* lane = lanes.of(document.show().rig.channels.at(channel).id);
        return lane->top + 16;
    }
    void press(QPoint at, Qt::KeyboardModifiers keys = {}) {
        QTest::mousePress(canvas, Qt::LeftButton, keys, at);
    }
    void move(QPoint at, Qt::KeyboardModifiers keys = {}) {
        QMouseEvent event(QEvent::MouseMove, at, canvas->mapToGlobal(QPointF(at)), Qt::NoButton,
                          Qt::LeftButton, keys);
        QApplication::sendEvent(canvas, &event);
    }
    void release(QPoint at, Qt::KeyboardModifiers keys = {}) {
        QTest::mouseRelease(canvas, Qt::LeftButton, keys, at);
    }
    void drag(QPoint from, QPoint to, Qt::KeyboardModifiers keys = {}) {
        press(from, keys);
        move((from + to) / 2, keys);
        move(to, keys);
        release(to, keys);
    }
    void trigger(const QString& text) {
        for (const auto& actions : std::initializer_list<std::vector<QAction*>>{view.edit_actions(),
                                                                                view.view_actions(),
                                                                                view.move_actions(),
                                                                                view.grid_actions(),
                                                                                {view.loop_action()}}) {
            for (QAction* action : actions) {
                if (action != nullptr && action->text() == text) {
                    REQUIRE(action->isEnabled());
                    action->trigger();
                    return;
                }
            }
        }
        FAIL("no action " << text.toStdString());
    }

    const bool fresh = forget_settings();
    Document document;
    Analysis analysis{document};
    TimelineView view;
    Canvas* canvas = nullptr;
    Ruler* ruler = nullptr;
};

}  // namespace gasp::test
