// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

namespace {

Show two_supplies() {
    Show show = clean_show();
    Supply other = show.rig.supplies[0];
    other.id = {31};
    other.name = "other";
    show.rig.supplies.push_back(other);
    return show;
}

}  // namespace

TEST_CASE("a circuit fed from one supply and returned to another joins the two") {
    Show show = two_supplies();
    CHECK(texts(show, "joined_supplies").empty());
    show.rig.channels[0].circuit.returns_to = adapter;
    CHECK(texts(show, "joined_supplies").empty());
    show.rig.channels[0].circuit.returns_to = SupplyId{31};
    CHECK(texts(show, "joined_supplies") ==
          Lines{"warn: The circuit of \"lunge\" joins two supplies: fed from \"12 V\", its return goes to "
                "\"other\". Return it to \"12 V\"."});
    show.rig.supplies[1].kind = SupplyKind::mains;
    CHECK(findings(show, "joined_supplies")[0].severity == Severity::stop);
}

TEST_CASE("supplies in a ring are a stop, a chain is not") {
    Show show = two_supplies();
    show.rig.supplies[0].fed_from = SupplyId{31};
    CHECK(texts(show, "supply_loop").empty());
    show.rig.supplies[1].fed_from = adapter;
    CHECK(texts(show, "supply_loop") ==
          Lines{"stop: Supply \"12 V\" is fed from itself, or from supplies that feed each other in a ring. "
                "Choose what feeds it anew, or leave that blank.",
                "stop: Supply \"other\" is fed from itself, or from supplies that feed each other in a ring. "
                "Choose what feeds it anew, or leave that blank."});
}
