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

namespace {

/// The show worked out, sequence by sequence.
struct WorkedOut {
    explicit WorkedOut(const Show& show) {
        powers.reserve(show.sequences.size());
        for (const Sequence& sequence : show.sequences) {
            powers.push_back(sequence_power(show, resolve(show, sequence)));
            runs.push_back({sequence.id, &powers.back()});
        }
        together = power_together(show, runs);
    }
    std::vector<SequencePower> powers;
    std::vector<PowerRun> runs;
    std::optional<PowerTogether> together;
};

}  // namespace

TEST_CASE("sequences with a trigger each may have their worst moments at once") {
    Show given = show();
    Sequence second = given.sequences[0];
    second.id = {90};
    second.cues = {cue(1, 20, 5s, 1s)};
    given.sequences.push_back(second);
    // 1.5 A at rest, 2 A more of each; but all loads on at once are 3.5 A.
    auto together = WorkedOut(given).together;
    REQUIRE(together);
    CHECK(together->sequences == std::vector<SequenceId>{given.sequences[0].id, SequenceId{90}});
    CHECK(together->supplies[0].steady == micro_amps(3.5));
    given.rig.channels.push_back(channel(22, "horn", 1.5));
    given.rig.channels.back().circuit.inrush_a = 4.0;
    given.rig.channels.back().circuit.inrush_ms = 10.0;
    given.sequences[1].cues = {cue(1, 22, 5s, 1s)};
    together = WorkedOut(given).together;
    CHECK(together->supplies[0].steady == micro_amps(5.0));
    CHECK(together->supplies[0].peak == micro_amps(7.5));
    given.rig.sensor.sharing = TriggerSharing::in_turn;
    CHECK_FALSE(WorkedOut(given).together);
    given.rig.sensor.sharing = TriggerSharing::own_triggers;
    given.sequences[1].kind = SequenceKind::by_hand;
    CHECK_FALSE(WorkedOut(given).together);
}

TEST_CASE("an idle sequence goes on beside triggers of their own, and ends by a single one") {
    Show given = show();
    given.sequences.push_back(given.sequences[0]);
    given.sequences[1].id = {90};
    given.sequences[1].kind = SequenceKind::idle;
    CHECK_FALSE(WorkedOut(given).together);
    given.sequences.push_back(given.sequences[0]);
    given.sequences[2].id = {91};
    CHECK(WorkedOut(given).together->sequences.size() == 3);
}

TEST_CASE("two sequences at once: the worst over all distances of their begins, and no more") {
    Show given = show();
    Supply& supply = given.rig.supplies[0];
    supply.feed_mm2 = 1.5;
    supply.feed_length_m = 4.0;
    supply.return_mm2 = 1.0;
    supply.return_length_m = 6.0;
    given.rig.channels.push_back(channel(22, "horn", 1.5));
    for (Channel& one : given.rig.channels) {
        one.circuit.return_path = ReturnPath::shared_return;
    }
    given.rig.channels[0].circuit.inrush_a = 6.0;
    given.rig.channels[0].circuit.inrush_ms = 200.0;
    given.rig.channels[2].circuit.load = LoadKind::coil;
    Sequence second = given.sequences[0];
    second.id = {90};
    second.cues = {cue(1, 22, 3s, 2s)};
    given.sequences.push_back(second);
    const WorkedOut worked(given);
    REQUIRE(worked.together);

    std::vector<std::array<double, 2>> drops(3);
    MicroAmps peak = 0;
    MicroAmps carried = 0;
    Show merged = given;
    merged.sequences[0].length = 30s;
    for (Micros apart = -10s; apart <= 10s; apart += 50ms) {
        merged.sequences[0].cues = given.sequences[0].cues;
        merged.sequences[0].cues.push_back(second.cues[0]);
        for (Cue& one : merged.sequences[0].cues) {
            one.at += 10s;
        }
        merged.sequences[0].cues.back().id = {7};
        merged.sequences[0].cues.back().at += apart;
        const SequencePower power = power_of(merged);
        peak = std::max(peak, power.curves[0].peak);
        carried = std::max(carried, power.wire_peaks[PowerModel::return_of(0)]);
        for (std::size_t i = 0; i < drops.size(); ++i) {
            drops[i][0] = std::max(drops[i][0], power.circuits[i].drop->worst.volts);
            drops[i][1] = std::max(drops[i][1], power.circuits[i].drop->starting.volts);
        }
    }
    CHECK(worked.together->supplies[0].peak == peak);
    CHECK(worked.together->wire_peaks[PowerModel::return_of(0)] == carried);
    for (std::size_t i = 0; i < drops.size(); ++i) {
        INFO("channel " << i);
        const CircuitUse& use = worked.together->circuits[i].use;
        REQUIRE(use.drop);
        CHECK(use.drop->worst.volts == Approx(drops[i][0]));
        CHECK(use.drop->starting.volts == Approx(drops[i][1]));
        CHECK(use.drop->worst.shared_v[0] + use.drop->worst.shared_v[1] < use.drop->worst.volts);
        const SequencePower& alone = worked.powers[i == 2 ? 1 : 0];
        CHECK(&worse_use(given.rig, i, alone.circuits[i], worked.together) == &use);
        CHECK(use.drop->worst.volts > alone.circuits[i].drop->worst.volts);
    }
    CHECK(&worse_use(given.rig, 0, worked.powers[0].circuits[0], std::nullopt) ==
          &worked.powers[0].circuits[0]);
}

TEST_CASE("the fuse of a supply for two sequences at once") {
    Show given = show();
    given.rig.channels.push_back(channel(22, "horn", 2.0));
    Sequence second = given.sequences[0];
    second.id = {90};
    second.cues = {cue(1, 22, 5s, 2s)};
    given.sequences.push_back(second);
    const WorkedOut worked(given);
    // Alone 3.5 A for a second; both 5.5 A, and 1.1 times 5 A is 5.5 A.
    CHECK(supply_use(given, given.sequences[0], worked.powers[0], 0).fuse_a == 4.0);
    CHECK(worked.together->supplies[0].fuse_a == 5.0);
    CHECK(worked.together->supplies[0].rms_a > worked.powers[0].rms_a(0, 20s));
    given.rig.supplies[0].feed_mm2 = 0.25;  // bears less than 5 A
    CHECK_FALSE(WorkedOut(given).together->supplies[0].fuse_a);
}
