// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/lane_layout.hpp"

#include "tests/support/catch.hpp"
#include "tests/ui/timeline/on_screen.hpp"

#include <QScrollBar>

using namespace gasp;
using namespace gasp::test;

namespace {

/// A rig of valves, more than fit into the window of OnScreen.
Show many_valves() {
    Show show = empty_show();
    for (int i = 0; i < 20; ++i) {
        Channel channel;
        channel.name = "valve " + std::to_string(i + 1);
        channel.kind = ChannelKind::valve;
        apply(add_channel(show, channel), show);
    }
    return show;
}

QScrollBar* scroll_bar(OnScreen& screen) {
    for (QScrollBar* bar : screen.view.findChildren<QScrollBar*>()) {
        if (bar->orientation() == Qt::Vertical) {
            return bar;
        }
    }
    return nullptr;
}

}  // namespace

TEST_CASE("lanes grow into a tall window, alike and up to a limit") {
    const Show show = small_show();
    const Sequence& sequence = show.sequences.front();
    const LaneLayout low(show, sequence);
    const int needed = low.height();
    REQUIRE(LaneLayout(show, sequence, LaneHeight::normal, needed - 50) == low);
    REQUIRE(LaneLayout(show, sequence, LaneHeight::normal, needed * 5 / 4).height() > needed * 6 / 5);
    REQUIRE(LaneLayout(show, sequence, LaneHeight::normal, needed * 5 / 4).height() <= needed * 5 / 4);
    REQUIRE(LaneLayout(show, sequence, LaneHeight::normal, needed * 10).height() == needed * 2);
}

TEST_CASE("compact lanes are lower than normal ones, tall ones higher") {
    const Show show = small_show();
    const int normal = LaneLayout(show, show.sequences.front()).height();
    REQUIRE(LaneLayout(show, show.sequences.front(), LaneHeight::compact).height() < normal);
    REQUIRE(LaneLayout(show, show.sequences.front(), LaneHeight::tall).height() > normal);
}

TEST_CASE("the pressure stays in sight while the other lanes scroll") {
    OnScreen screen(many_valves());
    const Scene& scene = screen.canvas->scene();
    const Lane& pressure = scene.lanes().lanes().back();
    REQUIRE(pressure.kind == Lane::Kind::pressure);
    const int foot = screen.canvas->height() - pressure.height;
    for (const int scroll : {0, 100, 10'000}) {
        scroll_bar(screen)->setValue(scroll);
        REQUIRE(scene.top_of(pressure) == foot);
        REQUIRE(scene.lane_at(foot + 1) == &pressure);
        REQUIRE(scene.lane_at(foot - 1)->kind == Lane::Kind::channel);
    }
    // Scrolled to the end, the last channel stands right above it.
    const Lane& last = scene.lanes().lanes()[scene.lanes().lanes().size() - 2];
    REQUIRE(scene.top_of(last) + last.height == foot);
}

TEST_CASE("the pinned pressure is not painted over by the lanes behind it") {
    OnScreen screen(many_valves());
    const Scene& scene = screen.canvas->scene();
    const Lane& pressure = scene.lanes().lanes().back();
    const QRect box(0, scene.top_of(pressure), screen.canvas->width(), pressure.height);
    const QImage before = screen.canvas->grab(box).toImage();
    const Lane* behind = scene.lanes().at(scene.top_of(pressure) + scene.scroll_y());
    REQUIRE(behind->kind == Lane::Kind::channel);
    Cue cue;
    cue.channel = behind->channel;
    cue.at = Micros{1'000'000};
    cue.length = Micros{5'000'000};
    cue.name = "words that would stand on the pressure";
    screen.document.perform(add_cues(screen.document.show(), screen.document.sequence_id(), {cue}));
    REQUIRE(screen.canvas->grab(box).toImage() == before);
}

TEST_CASE("each sound lane has a lane above the channels") {
    Show show = gasp::test::small_show();
    const LaneLayout one(show, show.sequences.front());
    SoundClip clip;
    clip.lane = 3;
    show.sequences.front().clips.push_back(clip);
    const LaneLayout lanes(show, show.sequences.front());
    REQUIRE(lanes.sounds().size() == 3);
    CHECK(lanes.sounds()[2].sound_lane == 3);
    CHECK(lanes.lanes()[3].kind == Lane::Kind::channel);
    CHECK(lanes.height() > one.height());
    CHECK(lanes.sounds()[0].height < one.sounds()[0].height);
    CHECK(lanes.sounds()[2].holds(clip));
    CHECK_FALSE(lanes.sounds()[1].holds(clip));
}

TEST_CASE("the height of lanes is chosen by action") {
    OnScreen screen(many_valves());
    const int normal = screen.canvas->scene().lanes().height();
    screen.trigger("Compact lanes");
    REQUIRE(screen.canvas->scene().lanes().height() < normal);
    screen.trigger("Tall lanes");
    REQUIRE(screen.canvas->scene().lanes().height() > normal);
    screen.trigger("Normal lanes");
    REQUIRE(screen.canvas->scene().lanes().height() == normal);
}

TEST_CASE("what is selected can be looped") {
    OnScreen screen;
    std::optional<Dwell> asked;
    QObject::connect(&screen.view, &TimelineView::loop_requested,
                     [&asked](std::optional<Dwell> loop) { asked = loop; });
    screen.trigger("Loop what is selected");
    REQUIRE_FALSE(asked);
    screen.document.select({{screen.cue(0).id}, {}, {}, {}});
    screen.trigger("Loop what is selected");
    REQUIRE(asked == Dwell{Micros{1'000'000}, Micros{2'000'000}});
}
