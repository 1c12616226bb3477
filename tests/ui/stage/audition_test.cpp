// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/audition.hpp"

#include "tests/support/catch.hpp"
#include "tests/ui/stage/rig_for_tests.hpp"
#include "ui/stage/sound_output.hpp"

#include <QSignalSpy>
#include <QTest>

// Without a sound device, whatever the machine has: the null sink's tests play through one.

using namespace gasp;
using namespace std::chrono_literals;

namespace {

struct Player {
    Document document;
    Audition audition{document};
    QStringList notices;

    explicit Player(Show show = rig_for_tests()) {
        qputenv("PULSE_SERVER", "unix:/nonexistent");
        document.reset(std::move(show), {});
        QObject::connect(&audition, &Audition::notice, [this](const QString& text) { notices << text; });
    }
    bool moves_past(Micros position) {
        return QTest::qWaitFor([&] { return audition.position() >= position; }, 10'000);
    }
};

Show lasting(Micros length) {
    Show show = rig_for_tests();
    show.sequences.front().length = length;
    return show;
}

}  // namespace

TEST_CASE("without a device it runs on a steady clock and says so once", "[audition]") {
    Player player;
    CHECK_FALSE(player.audition.silent());
    player.audition.play();
    CHECK(player.audition.playing());
    REQUIRE(player.moves_past(50ms));
    const Micros first = player.audition.position();
    const Micros began = steady_now();
    REQUIRE(player.moves_past(first + 500ms));
    const Micros moved = player.audition.position() - first;
    const Micros passed = steady_now() - began;
    CHECK(std::abs((moved - passed).count()) < 60'000);
    CHECK(player.audition.silent());
    player.audition.pause();
    player.audition.play();
    QTest::qWait(50);
    CHECK(player.notices == QStringList{"No sound device: running silently on a steady clock"});
}

TEST_CASE("positions never step back, and are told at frame rate", "[audition]") {
    Player player;
    std::vector<Micros> told;
    QObject::connect(&player.audition, &Audition::position_changed, [&](Micros p) { told.push_back(p); });
    player.audition.play();
    REQUIRE(player.moves_past(600ms));
    CHECK(told.size() > 10);
    CHECK(std::is_sorted(told.begin(), told.end()));
}

TEST_CASE("at the end it stops there, and plays again from the start", "[audition]") {
    Player player(lasting(250ms));
    player.audition.play();
    REQUIRE(QTest::qWaitFor([&] { return !player.audition.playing(); }, 10'000));
    CHECK(player.audition.position() == 250ms);
    player.audition.play();
    CHECK(player.audition.position() < 200ms);
    CHECK(player.audition.playing());
}

TEST_CASE("pause holds the position and stop goes back to the start", "[audition]") {
    Player player;
    player.audition.toggle();
    REQUIRE(player.moves_past(100ms));
    player.audition.toggle();
    const Micros held = player.audition.position();
    QTest::qWait(120);
    CHECK(player.audition.position() == held);
    player.audition.play();
    CHECK(player.audition.position() >= held);
    REQUIRE(player.moves_past(held + 50ms));
    player.audition.stop();
    CHECK(player.audition.position() == 0ms);
    CHECK_FALSE(player.audition.playing());
}

TEST_CASE("a jump in play goes on from there", "[audition]") {
    Player player;
    player.audition.play();
    REQUIRE(player.moves_past(100ms));
    player.audition.seek(3s);
    CHECK(player.audition.position() >= 3s);
    REQUIRE(player.moves_past(3100ms));
    player.audition.seek(99s);
    REQUIRE(QTest::qWaitFor([&] { return !player.audition.playing(); }, 10'000));
    CHECK(player.audition.position() == 4s);
    player.audition.seek(-5s);
    CHECK(player.audition.position() == 0s);
}

TEST_CASE("a loop goes round, until it is taken away", "[audition]") {
    Player player;
    player.audition.set_loop(Dwell{200ms, 400ms});
    int returns = 0;
    Micros before{0};
    bool outside = false;
    QObject::connect(&player.audition, &Audition::position_changed, [&](Micros position) {
        returns += position < before ? 1 : 0;
        outside = outside || position > 400ms;
        before = position;
    });
    player.audition.play();
    REQUIRE(QTest::qWaitFor([&] { return returns >= 3; }, 10'000));
    CHECK_FALSE(outside);
    player.audition.set_loop(std::nullopt);
    CHECK(player.moves_past(500ms));
}

TEST_CASE("a trigger starts the run, and is refused until the lockout is over", "[audition]") {
    Player player(lasting(200ms));
    QSignalSpy changes(&player.audition, &Audition::lockout_changed);
    CHECK(player.audition.trigger());
    CHECK(player.audition.playing());
    CHECK(player.audition.lockout_remaining() > 29s);
    CHECK_FALSE(player.audition.trigger());
    REQUIRE(QTest::qWaitFor([&] { return !player.audition.playing(); }, 10'000));
    CHECK_FALSE(player.audition.trigger());
    CHECK(player.audition.triggers_taken() == 1);
    CHECK(player.audition.triggers_refused() == 2);
    CHECK(player.notices.filter("Trigger refused: locked out for another ").size() == 2);
    CHECK(changes.count() >= 3);
    player.audition.stop();
    CHECK(player.audition.lockout_remaining() == 0s);
    CHECK(player.audition.trigger());
}

TEST_CASE("a paused run holds its lockout", "[audition]") {
    Player player;
    REQUIRE(player.audition.trigger());
    REQUIRE(player.moves_past(50ms));
    player.audition.pause();
    const Micros remaining = player.audition.lockout_remaining();
    QTest::qWait(150);
    CHECK(player.audition.lockout_remaining() == remaining);
    CHECK_FALSE(player.audition.trigger());
}

TEST_CASE("a trigger goes to the triggered sequence, and ignores the loop", "[audition]") {
    Show show = lasting(300ms);
    Sequence idle;
    idle.id = SequenceId{150};
    idle.kind = SequenceKind::idle;
    idle.length = 2s;
    show.sequences.push_back(idle);
    Player player(show);
    player.document.look_at(idle.id);
    player.audition.set_loop(Dwell{0ms, 100ms});
    CHECK(player.audition.trigger());
    CHECK(player.document.sequence_id() == show.sequences.front().id);
    CHECK(QTest::qWaitFor([&] { return !player.audition.playing(); }, 10'000));
}

TEST_CASE("without a triggered sequence a trigger says so", "[audition]") {
    Show show = rig_for_tests();
    show.sequences.front().kind = SequenceKind::by_hand;
    Player player(show);
    CHECK_FALSE(player.audition.trigger());
    CHECK(player.notices == QStringList{"No sequence of this show is started by a trigger"});
}

TEST_CASE("another show in mid play stops and starts over", "[audition]") {
    Player player;
    player.audition.play();
    REQUIRE(player.moves_past(100ms));
    player.document.reset(lasting(1s), {});
    CHECK_FALSE(player.audition.playing());
    CHECK(player.audition.position() == 0ms);
}

TEST_CASE("a sound that cannot be opened is named and the rest plays", "[audition]") {
    Show show = rig_for_tests();
    SoundClip clip;
    clip.id = ClipId{160};
    clip.file = "gone.wav";
    clip.length = clip.file_length = 1s;
    show.sequences.front().clips.push_back(clip);
    Player player(show);
    player.document.set_folder("/nonexistent");
    player.audition.play();
    REQUIRE(player.moves_past(200ms));
    REQUIRE(QTest::qWaitFor([&] { return player.notices.size() == 2; }, 5'000));
    CHECK(player.notices.filter("gone.wav").size() == 1);
}

TEST_CASE("at a quarter of the speed the playhead goes as slowly, and keeps its place when that changes",
          "[audition]") {
    Player player(lasting(20s));
    player.audition.set_times(4);
    player.audition.seek(5s);
    player.audition.play();
    REQUIRE(player.moves_past(5s + 50ms));
    const Micros first = player.audition.position();
    const Micros began = steady_now();
    REQUIRE(player.moves_past(first + 200ms));
    const Micros moved = player.audition.position() - first;
    CHECK(std::abs((4 * moved - (steady_now() - began)).count()) < 120'000);
    const Micros there = player.audition.position();
    player.audition.set_times(1);
    CHECK(std::abs((player.audition.position() - there).count()) < 100'000);
    CHECK(player.audition.playing());
    REQUIRE(player.moves_past(there + 300ms));
}

TEST_CASE("a scrub moves the playhead and plays nothing on", "[audition]") {
    Player player(lasting(20s));
    QSignalSpy moved(&player.audition, &Audition::position_changed);
    for (int i = 0; i < 20; ++i) {
        player.audition.scrub(Micros{i * 100'000});
        QTest::qWait(15);
    }
    CHECK(moved.size() == 20);
    CHECK_FALSE(player.audition.playing());
    CHECK(player.audition.position() == 1900ms);
    QTest::qWait(300);
    CHECK(player.audition.position() == 1900ms);
    player.audition.play();
    REQUIRE(player.moves_past(2000ms));
    CHECK(player.audition.position() < 3s);
    player.audition.scrub(10s);  // while it plays, a seek
    CHECK(player.audition.playing());
    REQUIRE(player.moves_past(10s + 50ms));
    player.audition.pause();
    player.audition.set_pieces(false);
    player.audition.sound_at(3s);
    CHECK(player.audition.position() > 10s);
}
