// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/fuse.hpp"

#include "core/power/contact.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;

TEST_CASE("a fuse lies between its load and its wire") {
    CHECK(fitting_fuse_a(2.4, 0.0, 0.0, 5.0) == 3.0);
    CHECK(fitting_fuse_a(2.5, 0.0, 0.0, 5.0) == 4.0);
    CHECK_FALSE(fitting_fuse_a(4.5, 0.0, 0.0, 5.0));
    CHECK_FALSE(fitting_fuse_a(100.0, 0.0, 0.0, 500.0));
}

TEST_CASE("a fuse bears a pulse that is over before it may open") {
    CHECK(fuse_bears(5.0, 5.5, 1e9));
    CHECK(fuse_bears(5.0, 10.0, 150.0));
    CHECK_FALSE(fuse_bears(5.0, 10.0, 151.0));
    CHECK(fuse_bears(5.0, 30.0, 20.0));
    CHECK_FALSE(fuse_bears(5.0, 30.1, 1.0));
    CHECK(fitting_fuse_a(0.8, 8.0, 30.0, 7.0) == 3.0);  // 2 A would be 4 times over
}

TEST_CASE("the load of a valve is a coil, and kinds that surge bear less on a contact") {
    Channel valve;
    valve.kind = ChannelKind::valve;
    CHECK(load_kind(valve) == LoadKind::coil);
    valve.circuit.load = LoadKind::other;
    CHECK(load_kind(valve) == LoadKind::other);
    CHECK(load_kind(Channel{}) == LoadKind::not_stated);
    CHECK(surges(LoadKind::lamp));
    CHECK_FALSE(surges(LoadKind::coil));
    CHECK(contact_nights(100'000.0, 500.0) == 200.0);
    CHECK(contact_nights(100'000.0, 0.0) > 1e9);
}
