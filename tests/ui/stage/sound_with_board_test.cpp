// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/sound_with_board.hpp"

#include "tests/support/catch.hpp"
#include "tests/ui/stage/rig_for_tests.hpp"

#include <QTest>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

struct Together {
    Together() {
        qputenv("PULSE_SERVER", "unix:/nonexistent");
        Show show = rig_for_tests();
        show.sequences.front().length = 30s;
        document.reset(std::move(show), {});
        QObject::connect(&sound, &SoundWithBoard::measured,
                         [this](Micros error) { measured.push_back(error); });
    }
    [[nodiscard]] bool measures() {
        return QTest::qWaitFor([this] { return !measured.empty(); }, 10'000);
    }

    Document document;
    Audition audition{document};
    SoundWithBoard sound{audition};
    std::vector<Micros> measured;
};

Micros since(SoundWithBoard::Moment start) {
    return std::chrono::duration_cast<Micros>(std::chrono::steady_clock::now() - start);
}

}  // namespace

TEST_CASE("the sound joins a run that has begun, and what remains between them is told") {
    Together together;
    const auto start = std::chrono::steady_clock::now() - 700ms;
    together.sound.begin(start);
    REQUIRE(together.measures());
    CHECK(together.sound.error() == together.measured.front());
    // What it says is so; half a frame of a busy machine more or less.
    const Micros apart = together.audition.position() - since(start);
    CHECK(std::chrono::abs(apart - together.measured.front()) < 30ms);
    CHECK(std::chrono::abs(together.measured.front()) < 60ms);
    together.sound.end();
    CHECK_FALSE(together.audition.playing());
}

TEST_CASE("a run's end leaves alone what was not begun with it") {
    Together together;
    together.audition.play();
    together.sound.end();
    CHECK(together.audition.playing());
    together.audition.stop();
    together.sound.begin(std::chrono::steady_clock::now());
    together.audition.stop();
    together.audition.play();
    together.sound.end();
    CHECK(together.audition.playing());
}
