// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/show_file.hpp"
#include "core/show/validity.hpp"
#include "tests/core/file/temporary_folder.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/random_show.hpp"

#include <rapidcheck.h>

#include <string>

using namespace gasp;

namespace {

void assert_reads_back(const Show& show) {
    const std::string text = write_show(show);
    const auto read = read_show(text, "random.gasp");
    if (!read) {
        RC_FAIL(read.error().text());
    }
    RC_ASSERT(*read == show);
    RC_ASSERT(write_show(*read) == text);
}

}  // namespace

TEST_CASE("any show reads back as it was written, and is written the same again") {
    REQUIRE(rc::check([] { assert_reads_back(*testing::random_show()); }));
}

TEST_CASE("any run of edits survives save and load") {
    const testing::TemporaryFolder folder;
    REQUIRE(rc::check([&folder] {
        Show show = *testing::random_show();
        for (const Edit& edit : *testing::random_edits(show)) {
            apply(edit, show);
        }
        const auto path = folder.path() / "edited.gasp";
        const auto saved = save_show(show, path);
        if (!saved) {
            RC_FAIL(saved.error().text());
        }
        const auto loaded = load_show(path);
        RC_ASSERT(loaded.has_value());
        RC_ASSERT(*loaded == show);
    }));
}

TEST_CASE("a show in which any stretch of the text is lost or doubled gives an error or no breach") {
    REQUIRE(rc::check([] {
        std::string text = write_show(*testing::random_show());
        const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
        const auto length = *rc::gen::inRange<std::size_t>(1, 40);
        const std::string stretch = text.substr(at, length);
        if (*rc::gen::arbitrary<bool>()) {
            text.erase(at, length);
        } else {
            text.insert(*rc::gen::inRange<std::size_t>(0, text.size()), stretch);
        }
        if (const auto show = read_show(text, "changed.gasp")) {
            RC_ASSERT(breaches(*show).empty());
        }
    }));
}
