// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/stagger.hpp"

#include "core/schedule/sequence_run.hpp"
#include "tests/support/air_rig.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

using namespace gasp;
using namespace gasp::for_tests;
using namespace std::chrono_literals;

namespace {

Channel valve(std::uint32_t id, ActuatorId actuator) {
    Channel channel;
    channel.id = {id};
    channel.name = "valve " + std::to_string(id);
    channel.kind = ChannelKind::valve;
    channel.actuator = actuator;
    return channel;
}

Cue cue(std::uint32_t id, std::uint32_t channel, Micros at, Micros freedom) {
    Cue made;
    made.id = {id};
    made.channel = {channel};
    made.at = at;
    made.length = 1500ms;
    made.freedom = freedom;
    return made;
}

/// Both figures at once.
Show at_once(Micros freedom) {
    Show show = rig_of_two();
    show.next_id = 1000;
    show.rig.channels = {valve(20, keeper), valve(21, hatch)};
    show.sequences[0].length = 30s;
    show.sequences[0].cues = {cue(1, 20, 5s, 0s), cue(2, 21, 5s, freedom)};
    return show;
}

/// The receiver falls the less the further the two cues are apart: 1 kPa for each 10 ms.
std::optional<double> made_up(const Sequence& sequence) {
    const auto apart = std::chrono::abs(sequence.cues[0].at - sequence.cues[1].at);
    return 380.0 + to_ms(apart) / 10.0;
}

}  // namespace

TEST_CASE("the least shift that keeps the pressure up, within the freedom of the cue", "[stagger]") {
    const Show show = at_once(400ms);
    const auto found = stagger(show, show.sequences[0], 400.0, made_up);
    REQUIRE(found);
    REQUIRE(found->shifts.size() == 1);
    CHECK(found->shifts[0].cue == CueId{2});
    CHECK(std::abs(to_ms(found->shifts[0].by)) == Approx(200.0).margin(8.0));
    CHECK(found->lowest_kpa_gauge >= 400.0);
    Show after = show;
    apply(found->edit, after);
    CHECK(after.sequences[0].cues[0] == show.sequences[0].cues[0]);
    CHECK(made_up(after.sequences[0]) >= 400.0);
    revert(found->edit, after);
    CHECK(after == show);
}

TEST_CASE("nothing is shifted where it does not help, is not needed or is not free", "[stagger]") {
    const Show show = at_once(100ms);
    const auto why_not = [](const Show& of, double limit) {
        const auto found = stagger(of, of.sequences[0], limit, made_up);
        REQUIRE_FALSE(found);
        return found.error().what;
    };
    CHECK(why_not(show, 400.0).find("still take too much air") != std::string::npos);
    CHECK(why_not(show, 370.0).find("holds up") != std::string::npos);
    CHECK(why_not(at_once(0ms), 400.0).find("no cue of a valve has freedom") != std::string::npos);
    Show tied = at_once(400ms);
    tied.sequences[0].marks.push_back({{9}, "bang", 5s, {}});
    tied.sequences[0].cues[1].mark = MarkId{9};
    tied.sequences[0].cues[1].at = 0s;
    tied.sequences[0].cues[1].strikes = true;
    CHECK(why_not(tied, 1000.0).find("on a mark") != std::string::npos);
}

TEST_CASE("by the simulation, strokes moved apart leave the receiver the compressor's time", "[stagger]") {
    Show show = at_once(4s);
    AirPlant& plant = show.rig.air_plant;
    plant.receiver_l = 3.0;
    plant.cut_in_kpa_gauge = 440.0;
    plant.cut_out_kpa_gauge = 600.0;
    plant.delivery_l_min = 20.0;
    AirMemo memo;
    const double before = work_out(show, show.sequences[0], memo).air.run->lowest_receiver_kpa;
    const auto found = stagger(show, show.sequences[0], before + 10.0, memo);
    REQUIRE(found);
    apply(found->edit, show);
    CHECK(work_out(show, show.sequences[0], memo).air.run->lowest_receiver_kpa >= before + 10.0);
}

TEST_CASE("a reservoir beside the prop that lets it strike as if alone", "[stagger]") {
    Show show = at_once(0s);
    show.sequences[0].cues[1].at = 4s;
    AirPlant& plant = show.rig.air_plant;
    plant.receiver_l = 0.8;
    plant.cut_in_kpa_gauge = 450.0;
    plant.cut_out_kpa_gauge = 600.0;
    plant.delivery_l_min = 5.0;
    const auto found = reservoir_beside(show, show.sequences[0], keeper);
    INFO((found ? std::string() : found.error().what));
    REQUIRE(found);
    CHECK(found->litres >= 0.4);
    CHECK((!found->strike_before_s || *found->strike_before_s > found->strike_s + 0.01));
    Show fitted = show;
    apply(found->edit, fitted);
    CHECK(find(fitted, keeper)->feed.reservoir_l == found->litres);
    const auto why_not = [](const Result<PropReservoir>& none) {
        REQUIRE_FALSE(none);
        return none.error().what;
    };
    CHECK(why_not(reservoir_beside(fitted, show.sequences[0], keeper)).find("as it is") != std::string::npos);
    CHECK(why_not(reservoir_beside(show, show.sequences[0], keeper, [] { return true; })).size() > 0);
    show.rig.actuators[0].valve.supply_c_l_s_bar.reset();
    CHECK(why_not(reservoir_beside(show, show.sequences[0], keeper)).find("cannot be simulated") !=
          std::string::npos);
}
