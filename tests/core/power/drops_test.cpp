// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/drops.hpp"

#include "tests/support/catch.hpp"

#include <chrono>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

// A coil and a lamp on one feed of 0.1 ohm and one return of 0.2 ohm; the coil's own wire 0.5 ohm.
const std::vector<LoadDraw> loads{{0, micro_amps(0.4), 0, 0us, false},
                                  {0, micro_amps(2.0), micro_amps(18.0), 50ms, false}};
const std::vector<LoadWay> ways{{0.5, {0, 1}}, {0.25, {0, 1}}};
const std::vector<SharedWire> wires{{0.1, 0}, {0.2, 0}};

}  // namespace

TEST_CASE("a shared return adds the currents of all that are on") {
    const std::vector<MicroAmps> both{micro_amps(0.4), micro_amps(2.0)};
    const auto drops = drops_at(both, ways, wires);
    CHECK(drops[0] == Approx(0.4 * 0.5 + 2.4 * 0.3));
    CHECK(drops[1] == Approx(2.0 * 0.25 + 2.4 * 0.3));
}

TEST_CASE("a wire of its own carries its own load alone") {
    std::vector<LoadWay> apart = ways;
    apart[0].shared[1].reset();
    const auto drops = drops_at(std::vector{micro_amps(0.4), micro_amps(2.0)}, apart, wires);
    CHECK(drops[0] == Approx(0.4 * 0.5 + 2.4 * 0.1));
    CHECK(drops[1] == Approx(2.0 * 0.25 + 2.4 * 0.1 + 2.0 * 0.2));
}

TEST_CASE("the worst moment of a coil is when the lamp surges; its worst start is another") {
    const std::vector<LoadSwitch> switches{{1s, 0, true}, {2s, 1, true},  {3s, 0, false},
                                           {4s, 0, true}, {5s, 1, false}, {6s, 0, false}};
    const auto drops = worst_drops(loads, ways, wires, switches, 7s).loads;
    REQUIRE(drops[0]);
    CHECK(drops[0]->worst.at == 2s);
    CHECK(drops[0]->worst.volts == Approx(0.2 + 20.4 * 0.3));
    CHECK(drops[0]->starting.at == 4s);
    CHECK(drops[0]->starting.volts == Approx(0.2 + 2.4 * 0.3));
    CHECK(drops[0]->starting.shared_v[0] == Approx(2.4 * 0.1));
    CHECK(drops[0]->starting.shared_v[1] == Approx(2.4 * 0.2));
    const std::vector<MicroAmps> peaks{micro_amps(2.4), micro_amps(2.4)};  // no surges in them
    CHECK(worst_drops(loads, ways, wires, switches, 7s).wire_peaks == peaks);
}

TEST_CASE("what is lost in shared wires is told for each set of them once, whoever is on") {
    std::vector<LoadWay> apart = ways;
    apart.push_back({0.5, {0, {}}});
    std::vector<LoadDraw> draws = loads;
    draws.push_back({0, micro_amps(1.0), 0, 0us, false});
    const auto shared = worst_drops(draws, apart, wires,
                                    std::vector<LoadSwitch>{{1s, 0, true}, {2s, 1, true}, {3s, 2, true}}, 4s)
                            .shared;
    REQUIRE(shared.size() == 2);
    CHECK(shared[0].wires == ways[0].shared);
    CHECK(shared[0].most.at == 2s);
    CHECK(shared[0].most.volts == Approx(20.4 * 0.3));
    CHECK(shared[0].most.shared_v[1] == Approx(20.4 * 0.2));
    CHECK(shared[1].most.volts == Approx(20.4 * 0.1));
    const auto all =
        shared_losses(std::vector{micro_amps(0.4), micro_amps(2.0), micro_amps(1.0)}, apart, wires);
    CHECK(all[0].most.volts == Approx(3.4 * 0.1 + 2.4 * 0.2));
    CHECK(all[1].most.volts == Approx(3.4 * 0.1));
}

TEST_CASE("a lamp that lights while a coil still pulls in spoils its start") {
    const auto drops =
        worst_drops(loads, ways, wires, std::vector<LoadSwitch>{{1s, 0, true}, {1090ms, 1, true}}, 2s).loads;
    CHECK(drops[0]->starting.at == 1090ms);
    const auto later =
        worst_drops(loads, ways, wires, std::vector<LoadSwitch>{{1s, 0, true}, {1100ms, 1, true}}, 2s).loads;
    CHECK(later[0]->starting.at == 1s);
}

TEST_CASE("two switched at one moment meet each other; one never on has no drop; what stands counts") {
    const std::vector<SharedWire> standing{{0.1, micro_amps(1.0)}, {0.2, 0}};
    const auto drops = worst_drops(loads, ways, standing,
                                   std::vector<LoadSwitch>{{1s, 1, true}, {1s, 0, true}, {1s, 1, false}}, 2s)
                           .loads;
    CHECK(drops[0]->worst.volts == Approx(0.2 + 1.4 * 0.1 + 0.4 * 0.2));
    CHECK_FALSE(drops[1]);
}
