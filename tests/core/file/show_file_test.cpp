// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/show_file.hpp"

#include "core/show/validity.hpp"
#include "tests/core/file/every_field.hpp"
#include "tests/support/catch.hpp"

#include <string>

using namespace gasp;

TEST_CASE("a show with every field reads back as it was written") {
    const Show show = testing::every_field();
    REQUIRE(breaches(show).empty());
    const std::string text = write_show(show);
    INFO(text);
    const auto read = read_show(text, "every.gasp");
    INFO((read ? std::string() : read.error().text()));
    REQUIRE(read);
    CHECK(*read == show);
    CHECK(write_show(*read) == text);
}

TEST_CASE("an empty show reads back as it was written") {
    const std::string text = write_show(empty_show());
    const auto read = read_show(text, "empty.gasp");
    REQUIRE(read);
    CHECK(*read == empty_show());
}
