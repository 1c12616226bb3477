// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/recovery.hpp"

#include "core/file/show_file.hpp"
#include "tests/core/file/child_process.hpp"
#include "tests/core/file/every_field.hpp"
#include "tests/core/file/temporary_folder.hpp"
#include "tests/support/catch.hpp"

#include <string>

using namespace gasp;
using testing::entries_in;
namespace fs = std::filesystem;

namespace {

const std::string original = "/shows/b\u00f8 100%\n.gasp";

/// An editor that keeps a recovery and then crashes.
void crash_with(const Show& show, const fs::path& of, const fs::path& folder) {
    REQUIRE(testing::ended_well(
        testing::start_child([&] { return save_recovery(show, of, folder).has_value(); })));
}

}  // namespace

TEST_CASE("unsaved work of a crashed editor is found, read and kept as one's own") {
    const testing::TemporaryFolder folder;
    const fs::path recoveries = folder.path() / "made/when/needed";
    CHECK(find_recoveries(recoveries).empty());
    crash_with(testing::every_field(), original, recoveries);
    const auto found = find_recoveries(recoveries);
    REQUIRE(found.size() == 1);
    CHECK(found[0].original == original);
    const auto show = take_recovery(found[0]);
    REQUIRE(show);
    CHECK(*show == testing::every_field());
    // Another editor neither sees it any more nor gets it where it had seen it before.
    CHECK(find_recoveries(recoveries).empty());
    CHECK(!take_recovery(found[0]));
    CHECK(entries_in(recoveries) == 1);
    REQUIRE(discard_own_recovery(recoveries));
    CHECK(entries_in(recoveries) == 0);
    CHECK(discard_own_recovery(recoveries));
}

TEST_CASE("of two editors that start after a crash, one gets the work") {
    const testing::TemporaryFolder folder;
    crash_with(testing::every_field(), original, folder.path());
    const auto found = find_recoveries(folder.path());
    REQUIRE(found.size() == 1);
    const auto editor = [&] { return take_recovery(found[0]).has_value(); };
    const pid_t first = testing::start_child(editor);
    const pid_t second = testing::start_child(editor);
    const bool first_got_it = testing::ended_well(first);
    CHECK(first_got_it != testing::ended_well(second));
    CHECK(find_recoveries(folder.path()).size() == 1);  // whoever had it is gone again
}

TEST_CASE("the recovery of an editor that still runs is not offered to another") {
    const testing::TemporaryFolder folder;
    const pid_t running = testing::start_child([&] {
        const bool saved = save_recovery(testing::every_field(), original, folder.path()).has_value();
        ::pause();
        return saved;
    });
    while (fs::is_empty(folder.path()) ||
           fs::directory_iterator(folder.path())->path().extension() != ".recovery") {
        ::usleep(1000);
    }
    CHECK(find_recoveries(folder.path()).empty());
    testing::kill_at_once(running);
    CHECK(find_recoveries(folder.path()).size() == 1);
}

TEST_CASE("a later recovery takes the place of the one before") {
    const testing::TemporaryFolder folder;
    REQUIRE(save_recovery(testing::every_field(), original, folder.path()));
    REQUIRE(save_recovery(empty_show(), {}, folder.path()));
    CHECK(entries_in(folder.path()) == 1);
    CHECK(find_recoveries(folder.path()).empty());
    REQUIRE(discard_own_recovery(folder.path()));
}

TEST_CASE("work is not taken over work") {
    const testing::TemporaryFolder folder;
    crash_with(testing::every_field(), original, folder.path());
    REQUIRE(save_recovery(empty_show(), {}, folder.path()));
    const auto found = find_recoveries(folder.path());
    REQUIRE(found.size() == 1);
    CHECK(take_recovery(found[0]).error().what == "this window has unsaved work of its own");
    CHECK(entries_in(folder.path()) == 2);
    REQUIRE(discard_recovery(found[0]));
    REQUIRE(discard_recovery(found[0]));
    CHECK(entries_in(folder.path()) == 1);
}

TEST_CASE("files that are no recoveries are passed over, broken ones stay") {
    const testing::TemporaryFolder folder;
    testing::write_file(folder.path() / "999999999-1.recovery", "");
    testing::write_file(folder.path() / "999999998-1.recovery", "gaspworks-recovery 1 /x.gasp");
    testing::write_file(folder.path() / "999999997-1.recovery", "gaspworks-recovery 1 /%x.gasp\n{}");
    testing::write_file(folder.path() / "99999999999999999999-1.recovery", "gaspworks-recovery 1 \n{}");
    testing::write_file(folder.path() / "notes.recovery", "gaspworks-recovery 1 \n{}");
    testing::write_file(folder.path() / "notes.txt", "gaspworks-recovery 1 \n{}");
    fs::create_directory(folder.path() / "999999996-1.recovery");
    CHECK(find_recoveries(folder.path()).empty());
    testing::write_file(folder.path() / "999999995-1.recovery", "gaspworks-recovery 1 \n{\n");
    const auto found = find_recoveries(folder.path());
    REQUIRE(found.size() == 1);
    CHECK(found[0].original.empty());
    CHECK(!take_recovery(found[0]));
    CHECK(find_recoveries(folder.path()).size() == 1);
}
