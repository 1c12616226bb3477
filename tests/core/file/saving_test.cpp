// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/show_file.hpp"
#include "tests/core/file/child_process.hpp"
#include "tests/core/file/every_field.hpp"
#include "tests/core/file/temporary_folder.hpp"
#include "tests/support/catch.hpp"

#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>

#include <random>
#include <string>

using namespace gasp;
using testing::contents_of;
using testing::entries_in;
namespace fs = std::filesystem;

// Saving on the real thing: disks that are full, folders that are read-only, processes that are killed.

namespace {

/// A show whose file has some 10 bytes for each letter of its many marks.
Show large_show(std::size_t marks, const std::string& name) {
    Show show = testing::every_field();
    show.name = name;
    for (std::size_t i = 0; i < marks; ++i) {
        show.sequences[0].marks.push_back({MarkId{show.next_id++}, name, Micros(1000), {}});
    }
    return show;
}

constexpr std::size_t many = 4000;  // a file of about 250 KiB

/// Whether a save failed for want of room and left the old show whole and alone.
bool refused_for_room(const fs::path& file, const Show& old) {
    const auto saved = save_show(large_show(many, "new"), file);
    const auto loaded = load_show(file);
    return !saved && saved.error().remedy == "Free some room on the disk, or save to another one" && loaded &&
           *loaded == old && entries_in(file.parent_path()) == 1;
}

bool limit_files_to(rlim_t bytes) {
    const rlimit limit{bytes, bytes};
    return ::signal(SIGXFSZ, SIG_IGN) != SIG_ERR && ::setrlimit(RLIMIT_FSIZE, &limit) == 0;
}

}  // namespace

TEST_CASE("a save that the system cuts short leaves the old show") {
    const testing::TemporaryFolder folder;
    const fs::path file = folder.path() / "show.gasp";
    const Show old = testing::every_field();
    REQUIRE(save_show(old, file));
    CHECK(testing::ended_well(
        testing::start_child([&] { return limit_files_to(100'000) && refused_for_room(file, old); })));
}

TEST_CASE("a save to a full disk leaves the old show") {
    const testing::TemporaryFolder folder;
    const Show old = testing::every_field();
    CHECK(testing::ended_well(testing::start_child([&] {
        // A disk of 64 KiB, in this process's own view; where the system allows none, a limit in its place.
        const bool mounted = (::unshare(CLONE_NEWNS) == 0 || ::unshare(CLONE_NEWUSER | CLONE_NEWNS) == 0) &&
                             ::mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0 &&
                             ::mount("tmpfs", folder.path().c_str(), "tmpfs", 0, "size=64k") == 0;
        const fs::path file = folder.path() / "show.gasp";
        return save_show(old, file) && (mounted || limit_files_to(65536)) && refused_for_room(file, old);
    })));
}

TEST_CASE("a read-only folder and a read-only file are left alone") {
    const testing::TemporaryFolder folder;
    const fs::path closed = folder.path() / "closed";
    const fs::path open = folder.path() / "open";
    const Show old = testing::every_field();
    fs::permissions(folder.path(), fs::perms(0755));
    for (const fs::path& place : {closed, open}) {
        fs::create_directory(place);
        REQUIRE(save_show(old, place / "show.gasp"));
    }
    fs::permissions(closed, fs::perms(0555));
    fs::permissions(closed / "show.gasp", fs::perms(0666));
    fs::permissions(open, fs::perms(0777));
    fs::permissions(open / "show.gasp", fs::perms(0444));
    CHECK(testing::ended_well(testing::start_child([&] {
        return testing::become_ordinary() &&
               save_show(empty_show(), closed / "show.gasp").error().remedy ==
                   "Save to a folder you may write to, or change its permissions";
    })));
    CHECK(testing::ended_well(testing::start_child([&] {
        return testing::become_ordinary() &&
               save_show(empty_show(), open / "show.gasp").error().what == "the file is read-only";
    })));
    for (const fs::path& place : {closed, open}) {
        CHECK(entries_in(place) == 1);
        CHECK(*load_show(place / "show.gasp") == old);
    }
}

TEST_CASE("a show is whole whenever the process that saves it is killed") {
    const testing::TemporaryFolder folder;
    const fs::path file = folder.path() / "show.gasp";
    const Show one = large_show(many, "one");
    const Show other = large_show(many / 2, "another");
    REQUIRE(save_show(one, file));
    std::mt19937 random(20261125);
    constexpr int rounds = 60;
    std::size_t left_behind = 0;
    for (int round = 0; round < rounds; ++round) {
        const pid_t child = testing::start_child([&] {
            while (save_show(other, file) && save_show(one, file)) {
            }
            return false;
        });
        ::usleep(std::uniform_int_distribution<useconds_t>(200, 30'000)(random));
        testing::kill_at_once(child);
        const auto loaded = load_show(file);
        REQUIRE(loaded);
        REQUIRE((*loaded == one || *loaded == other));
        left_behind += entries_in(folder.path()) - 1;
    }
    CHECK(left_behind > 0);  // so the kills did fall into saves
    REQUIRE(save_show(one, file));
    CHECK(entries_in(folder.path()) == 1);  // and what they left is swept away
}

TEST_CASE("a show that could not be read again is not saved over one that can") {
    const testing::TemporaryFolder folder;
    const fs::path file = folder.path() / "show.gasp";
    REQUIRE(save_show(testing::every_field(), file));
    const std::string before = contents_of(file);
    Show wrong = testing::every_field();
    wrong.rig.channels[0].name.clear();
    CHECK(save_show(wrong, file).error().text() ==
          file.string() + ": channel 2: name: the name is empty. Give it a name.");
    Show latin = testing::every_field();
    latin.name = "k\xe9per";
    CHECK(save_show(latin, file).error().what == "a name in the show is not UTF-8");
    CHECK(contents_of(file) == before);
}
