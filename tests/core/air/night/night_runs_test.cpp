// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/night_runs.hpp"

#include "tests/support/catch.hpp"
#include "tests/support/night_rig.hpp"

#include <rapidcheck.h>

using namespace gasp;
using namespace gasp::for_tests;
using namespace std::chrono_literals;

namespace {

NightSequence watching(Micros length = 10s) {
    NightSequence sequence;
    sequence.id = watch;
    sequence.kind = SequenceKind::idle;
    sequence.length = length;
    sequence.commands = {{2s, keeper, Coil::out}, {6s, keeper, Coil::back}};
    return sequence;
}

}  // namespace

TEST_CASE("scares that take turns hang on one trigger: a group gets the next, refusals skip none") {
    std::vector sequences{scare_of({keeper}, 20.0), scare_of({hatch}, 30.0)};
    sequences[1].id = second_scare;
    for (NightSequence& sequence : sequences) {
        sequence.in_turn = true;
    }
    const std::vector<Micros> arrivals{10s, 25s, 35s, 64s, 66s};
    const NightRuns night = night_runs(sequences, arrivals, 200s);
    REQUIRE(night.runs.size() == 3);
    CHECK(night.runs[0].sequence == 0);
    CHECK(night.runs[0].begin == 10s);
    CHECK(night.runs[1].sequence == 1);  // the lockout of the first is over at 30 s
    CHECK(night.runs[1].begin == 35s);
    CHECK(night.runs[2].sequence == 0);
    CHECK(night.runs[2].begin == 66s);
    CHECK(night.refused.size() == 2);
}

TEST_CASE("a trigger in a run or its lockout is refused") {
    const std::vector sequences{scare_of({keeper}, 25.0)};
    const std::vector<Micros> came{0s, 5s, 24s, 25s, 51s};
    const NightRuns night = night_runs(sequences, came, 100s);
    REQUIRE(night.runs.size() == 3);
    CHECK(night.runs[0] == NightRun{0, 0, 0s, 8s});
    CHECK(night.runs[1] == NightRun{0, 3, 25s, 33s});
    CHECK(night.runs[2] == NightRun{0, 4, 51s, 59s});
    CHECK(night.refused == std::vector<Refusal>{{0, 5s}, {0, 24s}});
}

TEST_CASE("a group trips each sequence when it gets there") {
    std::vector sequences{scare_of({keeper}, 0.0), scare_of({hatch}, 60.0)};
    sequences[1].trigger_after_s = 30.0;
    const NightRuns night = night_runs(sequences, std::vector<Micros>{10s, 50s}, 100s);
    REQUIRE(night.runs.size() == 3);
    CHECK(night.runs[1] == NightRun{1, 0, 40s, 48s});
    CHECK(night.refused == std::vector<Refusal>{{1, 80s}});
}

TEST_CASE("the idle sequence goes round until a group cuts it short, and after its run again") {
    const std::vector sequences{scare_of({hatch}), watching()};
    const NightRuns night = night_runs(sequences, std::vector<Micros>{14s}, 40s);
    REQUIRE(night.runs.size() == 5);
    CHECK(night.runs[1] == NightRun{1, 2, 10s, 14s});  // cut
    CHECK(night.runs[2].sequence == 0);
    CHECK(night.runs[3] == NightRun{1, 3, 22s, 32s});
    CHECK(night.runs[4] == NightRun{1, 4, 32s, 40s});
    const AirModel model = air_model(night_show());
    const std::vector<Rest> at_rest = rests(night_show(), model);
    const auto commands = night_commands(sequences, night.runs, model, at_rest);
    const auto sent_home = std::ranges::find(commands, NightCommand::cut, &NightCommand::command);
    REQUIRE(sent_home != commands.end());
    CHECK(sent_home->time == 14s);
    CHECK(sent_home->way == Coil::back);
}

TEST_CASE("delivered and refused add up to the triggers") {
    REQUIRE(rc::check([] {
        const auto gaps = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 60));
        const double lockout = *rc::gen::inRange(0, 90);
        std::vector<Micros> came;
        Micros at = 0s;
        for (const int gap : gaps) {
            at += std::chrono::seconds{gap};
            came.push_back(at);
        }
        std::vector sequences{scare_of({keeper}, lockout), watching(7s)};
        const NightRuns night = night_runs(sequences, came, at);
        const auto scares = std::ranges::count(night.runs, 0U, &NightRun::sequence);
        RC_ASSERT(static_cast<std::size_t>(scares) + night.refused.size() == came.size());
    }));
}

TEST_CASE("strokes that follow before all is quiet are one bout") {
    const std::vector<Rest> rests{{false, true, 5s}, {false, true, 1s}};
    const std::vector<NightCommand> commands{
        {0s, 0, Coil::out, 0, 0}, {4s, 1, Coil::out, 0, 1}, {8s, 0, Coil::back, 0, 2}};
    const std::vector<Bout> found = bouts(commands, rests);
    REQUIRE(found.size() == 2);
    CHECK(found[0] == Bout{0, 2, 0s, 5s});
    CHECK(found[1] == Bout{2, 3, 8s, 13s});
}

TEST_CASE("an idle sequence too short for a night, and times that are none, are named") {
    std::vector sequences{watching(1ms)};
    CHECK(check(sequences, 8.0).error().where == "length_us");
    sequences = {scare_of({keeper}, -1.0)};
    CHECK(check(sequences, 8.0).error().where == "sensor.lockout_s");
    sequences[0].lockout_s = 0.0;
    sequences[0].trigger_after_s = std::numeric_limits<double>::quiet_NaN();
    CHECK(check(sequences, 8.0).error().where == "trigger_after_s");
}
