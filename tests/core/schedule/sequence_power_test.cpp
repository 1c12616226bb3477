// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/sequence_power.hpp"

#include "core/power/conductor.hpp"
#include "core/schedule/circuit_advice.hpp"
#include "core/schedule/night_power.hpp"
#include "core/schedule/power_together.hpp"
#include "core/schedule/supply_use.hpp"
#include "tests/support/catch.hpp"

#include <array>
#include <chrono>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

constexpr SupplyId adapter{30};

Channel channel(std::uint32_t id, const char* name, double amps) {
    Channel made;
    made.id = {id};
    made.name = name;
    made.load_current_a = amps;
    made.circuit.supply = adapter;
    made.circuit.load = LoadKind::other;
    made.circuit.wire_mm2 = 0.75;
    made.circuit.wire_length_m = 10.0;
    return made;
}

Cue cue(std::uint32_t id, std::uint32_t channel, Micros at, Micros length) {
    Cue made;
    made.id = {id};
    made.channel = {channel};
    made.at = at;
    made.length = length;
    return made;
}

/// Two loads on 12 V: 2 A from 1 to 3 s, and 1 A at rest but from 2 to 4 s; 10 s, a lockout of 20 s.
Show show() {
    Show show = empty_show();
    Supply supply;
    supply.id = adapter;
    supply.volts = 12.0;
    supply.rated_a = 5.0;
    supply.standing_a = 0.5;
    show.rig.supplies.push_back(supply);
    show.rig.channels = {channel(20, "fan", 2.0), channel(21, "light", 1.0)};
    show.rig.channels[1].contact = Contact::normally_closed;
    show.rig.sensor.lockout_s = 20.0;
    show.sequences[0].length = 10s;
    show.sequences[0].cues = {cue(1, 20, 1s, 2s), cue(2, 21, 2s, 2s)};
    return show;
}

SequencePower power_of(const Show& show) {
    return sequence_power(show, resolve(show, show.sequences[0]));
}

}  // namespace

TEST_CASE("currents follow the schedule, contacts and all") {
    const SequencePower power = power_of(show());
    const std::vector<CurrentPoint> points{
        {0us, 1'500'000}, {1s, 3'500'000}, {2s, 2'500'000}, {3s, 500'000}, {4s, 1'500'000}};
    CHECK(power.curves[0].points == points);
    CHECK(power.rest_a(0) == Approx(1.5));
    CHECK(power.average_a(0, 0us) == Approx((1.5 + 3.5 + 2.5 + 0.5 + 6 * 1.5) / 10.0));
    CHECK(power.average_a(0, 20s) == Approx((17.0 + 15.0) / 20.0));
    CHECK(power.circuits[0].on == 2s);
    CHECK(power.circuits[0].operations == 1);
    CHECK(power.circuits[1].on == 8s);
    CHECK(power.circuits[1].longest_on == 6s);
    CHECK(power.circuits[1].longest_begin == 4s);
    CHECK(power.circuits[0].drop->worst.volts == Approx(2.0 * 20.0 * copper_ohm_per_m(0.75)));
    CHECK(shortest_period(show(), show().sequences[0]) == 20s);
}

TEST_CASE("a channel that is on no supply, or whose current is blank, is left out") {
    Show given = show();
    given.rig.channels[0].circuit.supply.reset();
    given.rig.channels[1].load_current_a.reset();
    const SequencePower power = power_of(given);
    CHECK(power.curves[0].points.size() == 1);
    CHECK_FALSE(power.circuits[0].drop);
    CHECK(power.circuits[0].on == 2s);
    CHECK_FALSE(power.model.supplies[0].complete);
    CHECK_FALSE(least_supply_a(given.rig, 0, power));
}

TEST_CASE("advice: what is left, the wire and the fuse that would do, the supply that is needed") {
    Show given = show();
    const SequencePower power = power_of(given);
    CircuitAdvice advice = advise(given.rig, 0, power, UnitSystem::metric);
    CHECK(*advice.left_v == Approx(12.0 - 2.0 * 20.0 * copper_ohm_per_m(0.75)));
    CHECK(*advice.least_v == Approx(10.8));
    CHECK(advice.wire_mm2 == 0.75);  // 0.5 mm2 loses 1.7 V of the 1.2 V allowed
    CHECK(advice.fuse_a == 3.0);
    CHECK(least_supply_a(given.rig, 0, power) == 5.0);  // 3.5 A at 80 %
    given.rig.channels[0].circuit.wire_mm2.reset();
    advice = advise(given.rig, 0, power_of(given), UnitSystem::metric);
    CHECK_FALSE(advice.left_v);
    CHECK(advice.wire_mm2 == 0.75);  // still told, from what is known
    given.rig.channels[0].circuit.wire_length_m.reset();
    CHECK_FALSE(advise(given.rig, 0, power_of(given), UnitSystem::metric).wire_mm2);
}

TEST_CASE("the busiest night of the plan") {
    Show given = show();
    CHECK_FALSE(night_use(given));
    given.night.hours = 2.0;
    given.night.groups_per_h = 30.0;
    auto night = night_use(given);
    REQUIRE(night);
    CHECK(night->runs[0] == Approx(60.0));
    given.night.groups_per_h = 1000.0;  // the lockout lets no more in
    CHECK(night_use(given)->runs[0] == Approx(360.0));
    const SequencePower power = power_of(given);
    const NightPower sum = night_power(given, *night_use(given), std::array{&power});
    CHECK(sum.average_a[0] == Approx(power.average_a(0, 20s)));
    CHECK(sum.rms_a[0] == Approx(power.rms_a(0, 20s)));
    CHECK(sum.operations[0] == Approx(360.0));
}

TEST_CASE("an idle sequence fills the night that is left") {
    Show given = show();
    Sequence idle = given.sequences[0];
    idle.id = {90};
    idle.kind = SequenceKind::idle;
    given.sequences.push_back(idle);
    given.night.hours = 1.0;
    given.night.groups_per_h = 60.0;
    const auto night = night_use(given);
    CHECK(night->runs[0] == Approx(60.0));
    CHECK(night->runs[1] == Approx((3600.0 - 600.0) / 10.0));
}

TEST_CASE("the wire advised for a load that surges leaves it what it wants while it surges") {
    Show given = show();
    given.rig.channels[0].circuit.inrush_a = 12.0;
    given.rig.channels[0].circuit.inrush_ms = 30.0;
    const auto advice = [&] { return advise(given.rig, 0, power_of(given), UnitSystem::metric); };
    REQUIRE(*advice().left_v < *advice().least_v);
    REQUIRE(advice().wire_mm2);
    given.rig.channels[0].circuit.wire_mm2 = advice().wire_mm2;
    CHECK(*advice().left_v >= *advice().least_v);
    CHECK(advice().wire_mm2 == given.rig.channels[0].circuit.wire_mm2);
}

TEST_CASE("what a sequence asks of a supply, against what it may give") {
    const Show given = show();
    const SequencePower power = power_of(given);
    const SupplyUse use = supply_use(given, given.sequences[0], power, 0);
    CHECK(use.complete);
    CHECK(use.peak_a == Approx(3.5));
    CHECK(use.peak_at == 1s);
    CHECK(use.period == 20s);
    CHECK(use.average_a == Approx(power.average_a(0, 0us)));
    CHECK(use.repeated_rms_a == Approx(power.rms_a(0, 20s)));
    CHECK(*use.planned_a == Approx(4.0));
    CHECK(*use.margin_percent == Approx(30.0));
    CHECK(use.needed_a == 5.0);
    CHECK(use.fuse_a == 4.0);  // 3.5 A for a second is no more than 1.1 times 4 A
}

TEST_CASE("sequences with a trigger each may have their worst moments at once") {
    Show given = show();
    Sequence second = given.sequences[0];
    second.id = {90};
    second.cues = {cue(1, 20, 5s, 1s)};
    given.sequences.push_back(second);
    given.sequences.push_back(second);
    given.sequences.back().id = {91};
    given.sequences.back().kind = SequenceKind::idle;
    const auto runs = [&] {
        std::vector<RunPeaks> all;
        for (const Sequence& sequence : given.sequences) {
            all.push_back(peaks_of(sequence.id, sequence_power(given, resolve(given, sequence))));
        }
        return all;
    };
    // 1.5 A at rest, 2 A more of each; but all loads on at once are 3.5 A.
    auto together = power_together(given, runs());
    REQUIRE(together);
    CHECK(together->sequences == std::vector<SequenceId>{given.sequences[0].id, SequenceId{90}});
    CHECK(together->steady[0] == micro_amps(3.5));
    given.rig.channels.push_back(channel(22, "horn", 1.5));
    given.rig.channels.back().circuit.inrush_a = 4.0;
    given.rig.channels.back().circuit.inrush_ms = 10.0;
    given.sequences[1].cues = {cue(1, 22, 5s, 1s)};
    together = power_together(given, runs());
    CHECK(together->steady[0] == micro_amps(5.0));
    CHECK(together->peak[0] == micro_amps(7.5));
    given.rig.sensor.sharing = TriggerSharing::in_turn;
    CHECK_FALSE(power_together(given, runs()));
    given.rig.sensor.sharing = TriggerSharing::own_triggers;
    given.sequences[1].kind = SequenceKind::by_hand;
    CHECK_FALSE(power_together(given, runs()));
}
