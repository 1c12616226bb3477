// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/power_model.hpp"

#include "core/power/conductor.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;

namespace {

Rig rig() {
    Rig rig;
    Supply supply;
    supply.id = {1};
    supply.volts = 12.0;
    supply.standing_a = 0.2;
    supply.feed_mm2 = 2.5;
    supply.feed_length_m = 3.0;
    supply.return_mm2 = 1.5;
    supply.return_length_m = 4.0;
    rig.supplies.push_back(supply);
    Channel lamp;
    lamp.id = {10};
    lamp.load_current_a = 2.0;
    lamp.circuit.supply = SupplyId{1};
    lamp.circuit.inrush_a = 20.0;
    lamp.circuit.inrush_ms = 40.0;
    lamp.circuit.wire_mm2 = 1.0;
    lamp.circuit.wire_length_m = 5.0;
    rig.channels.push_back(lamp);
    return rig;
}

}  // namespace

TEST_CASE("a circuit with a wire back of its own, and one on the shared return") {
    Rig given = rig();
    PowerModel model = power_model(given);
    CHECK(model.circuits[0].wire_ohm == Approx(copper_ohm_per_m(1.0) * 10.0));
    CHECK_FALSE(model.ways[0].shared[1]);
    CHECK(model.circuits[0].way_known);
    CHECK(model.draws[0].surge == micro_amps(18.0));
    given.channels[0].circuit.return_path = ReturnPath::shared_return;
    model = power_model(given);
    CHECK(model.circuits[0].wire_ohm == Approx(copper_ohm_per_m(1.0) * 5.0));
    CHECK(model.ways[0].shared[1] == PowerModel::return_of(0));
    CHECK(model.wires[1].ohm == Approx(copper_ohm_per_m(1.5) * 4.0));
}

TEST_CASE("blank figures are not guessed") {
    Rig given = rig();
    CHECK(power_model(given).supplies[0].complete);
    given.channels[0].circuit.wire_length_m.reset();
    CHECK_FALSE(power_model(given).circuits[0].way_known);
    given.channels[0].load_current_a.reset();
    CHECK_FALSE(power_model(given).circuits[0].load);
    CHECK_FALSE(power_model(given).supplies[0].complete);
    given = rig();
    given.supplies[0].standing_a.reset();
    CHECK_FALSE(power_model(given).supplies[0].complete);
    given.supplies[0].feed_mm2.reset();
    CHECK_FALSE(power_model(given).circuits[0].way_known);
    given.supplies[0].feed_length_m.reset();  // no shared feed at all
    CHECK(power_model(given).circuits[0].way_known);
    given.channels[0].circuit.wire_mm2 = 0.0;
    CHECK_FALSE(power_model(given).circuits[0].way_known);
    given.channels[0].circuit.supply.reset();
    CHECK_FALSE(power_model(given).circuits[0].supply);
}

TEST_CASE("a converter takes what it gives from the supply that feeds it") {
    Rig given = rig();
    Supply battery;
    battery.id = {2};
    battery.volts = 24.0;
    battery.standing_a = 0.0;
    given.supplies.push_back(battery);
    given.supplies[0].fed_from = SupplyId{2};
    given.supplies[0].efficiency_percent = 80.0;
    const PowerModel model = power_model(given);
    REQUIRE(model.circuits[0].further.size() == 1);
    const LoadDraw& taken = model.draws[model.circuits[0].further[0]];
    CHECK(taken.supply == 1);
    CHECK(taken.steady == micro_amps(2.0 * 12.0 / 24.0 / 0.8));
    CHECK(model.standing[1] == micro_amps(0.2 * 12.0 / 24.0 / 0.8));
    given.supplies[0].efficiency_percent.reset();
    CHECK(power_model(given).draws[1].steady == micro_amps(2.0 * 12.0 / 24.0 / 0.85));
    given.supplies[0].volts.reset();
    CHECK(power_model(given).circuits[0].further.empty());
    CHECK_FALSE(power_model(given).supplies[1].complete);
}

TEST_CASE("supplies that feed each other are found, however many") {
    Rig given = rig();
    for (std::uint32_t id = 2; id <= 4; ++id) {
        Supply more = given.supplies[0];
        more.id = {id};
        more.fed_from = SupplyId{id == 4 ? 2U : id + 1};
        given.supplies.push_back(more);
    }
    given.supplies[0].fed_from = SupplyId{2};
    const PowerModel model = power_model(given);
    for (const SupplyModel& supply : model.supplies) {
        CHECK(supply.in_loop);
    }
    CHECK(model.circuits[0].further.empty());
    given.supplies[3].fed_from.reset();
    for (const SupplyModel& supply : power_model(given).supplies) {
        CHECK_FALSE(supply.in_loop);
    }
}
