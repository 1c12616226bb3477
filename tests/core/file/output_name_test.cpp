// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/output_name.hpp"

#include "core/show/show.hpp"
#include "tests/core/file/temporary_folder.hpp"
#include "tests/support/catch.hpp"

#include <fstream>

using namespace gasp;
namespace fs = std::filesystem;

namespace {

void put(const fs::path& path) {
    std::ofstream(path) << "kept";
}

}  // namespace

TEST_CASE("a result is not written over what it is made from, nor over another show") {
    const testing::TemporaryFolder folder;
    const fs::path show_file = folder.path() / "night.gasp";
    const fs::path voice = folder.path() / "voice.flac";
    put(show_file);
    put(voice);
    fs::create_symlink("voice.flac", folder.path() / "other name.csv");
    Show show = empty_show();
    show.sequences[0].clips.resize(2);
    show.sequences[0].clips[0].file = "voice.flac";
    show.sequences[0].clips[1].file = "gone.flac";
    const auto sources = files_of(show, show_file, folder.path());
    CHECK(sources.size() == 3);
    for (const char* name : {"night.gasp", "./night.gasp", "voice.flac", "other name.csv", "fresh.gasp"}) {
        const auto named = check_output_name(folder.path() / name, sources);
        INFO(name);
        REQUIRE_FALSE(named);
        CHECK(named.error().where.find(fs::path(name).filename().string()) != std::string::npos);
        CHECK_FALSE(named.error().remedy.empty());
    }
    CHECK(check_output_name(folder.path() / "night.csv", sources));
    CHECK(check_output_name(folder.path() / "gone.flac", sources));  // nothing there that could be lost
    CHECK(check_output_name("no such folder/night.csv", sources));
}

TEST_CASE("a show that was never saved has only its sounds") {
    CHECK(files_of(empty_show(), {}, {}).empty());
}
