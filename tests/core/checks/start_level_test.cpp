// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("an output whose start-up level is not known: a stop on a valve") {
    Show show = clean_show();
    show.rig.channels[0].start_level = StartLevel::unknown;
    show.rig.channels[1].start_level = StartLevel::unknown;
    CHECK(texts(show, "start_level") ==
          Lines{"stop: What channel \"lunge\" does while its board starts is not known: not known, limit "
                "stays at rest. Watch "
                "the output through a power-up with the air off, and enter what it does.",
                "warn: What channel \"lamp\" does while its board starts is not known: not known, limit "
                "stays at rest. Watch "
                "the output through a power-up with the air off, and enter what it does."});
    CHECK(findings(show, "start_level")[0].place.field == "start_level");
}

TEST_CASE("an output that is driven while the board starts") {
    Show show = clean_show();
    show.rig.channels[0].start_level = StartLevel::driven;
    CHECK(findings(show, "start_level").size() == 1);
    CHECK(findings(show, "start_level")[0].severity == Severity::stop);
}
