// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/show_file.hpp"
#include "core/show/validity.hpp"
#include "tests/core/file/every_field.hpp"
#include "tests/core/file/temporary_folder.hpp"
#include "tests/support/catch.hpp"

#include <filesystem>
#include <set>
#include <string>

using namespace gasp;
namespace fs = std::filesystem;

namespace {

const fs::path broken = fs::path(GASPWORKS_SOURCE_DIR) / "tests/core/file/broken";

std::string error_of(std::string_view text, const std::string& name) {
    const auto show = read_show(text, name);
    return show ? "read without an error" : show.error().text();
}

}  // namespace

// Each file of the folder is a show with one fault; beside it stands what is said about it.
TEST_CASE("every broken show is refused with its message") {
    std::set<std::string> shows;
    std::set<std::string> messages;
    for (const fs::directory_entry& entry : fs::directory_iterator(broken)) {
        const std::string extension = entry.path().extension();
        REQUIRE((extension == ".gasp" || extension == ".expected"));
        (extension == ".gasp" ? shows : messages).insert(entry.path().stem());
    }
    CHECK(shows == messages);
    REQUIRE(shows.size() > 90);
    for (const std::string& name : shows) {
        const std::string text = testing::contents_of(broken / (name + ".gasp"));
        CHECK(error_of(text, name + ".gasp") + "\n" == testing::contents_of(broken / (name + ".expected")));
    }
}

TEST_CASE("the show the broken ones were made of is good") {
    const auto show = load_show(broken / "../good.gasp");
    INFO((show ? std::string() : show.error().text()));
    CHECK(show);
}

TEST_CASE("a show cut at any byte is refused, unless only its last line break is gone") {
    const std::string text = write_show(testing::every_field());
    for (std::size_t length = 0; length + 2 < text.size(); ++length) {
        const auto show = read_show(std::string_view(text).substr(0, length), "cut.gasp");
        INFO(length);
        REQUIRE(!show);
        REQUIRE(!show.error().remedy.empty());
    }
    CHECK(read_show(std::string_view(text).substr(0, text.size() - 1), "cut.gasp"));
}

TEST_CASE("a show with any one byte changed gives an error or a show without a breach") {
    const std::string text = write_show(testing::every_field());
    for (std::size_t i = 0; i < text.size(); ++i) {
        for (const char wrong : {'\0', '"', '{', ']', ',', '9', '-', '\x80', '\\', ' '}) {
            std::string changed = text;
            changed[i] = wrong;
            if (const auto show = read_show(changed, "changed.gasp")) {
                INFO(i);
                REQUIRE(breaches(*show).empty());
            }
        }
    }
}

TEST_CASE("what is no plain file is refused") {
    const testing::TemporaryFolder folder;
    CHECK(load_show(folder.path() / "none.gasp").error().text() ==
          (folder.path() / "none.gasp").string() +
              ": the file cannot be read: No such file or directory. Check the path.");
    CHECK(load_show(folder.path()).error().what == "this is a folder");
    CHECK(load_show("/dev/zero").error().what == "this is not a plain file");
    const fs::path pipe = folder.path() / "pipe.gasp";
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    CHECK(load_show(pipe).error().what == "this is not a plain file");
    testing::write_file(folder.path() / "empty.gasp", "");
    CHECK(load_show(folder.path() / "empty.gasp").error().what == "the file is empty");
}

TEST_CASE("a file of more than 512 MiB is refused before it is read") {
    const testing::TemporaryFolder folder;
    const fs::path huge = folder.path() / "huge.gasp";
    testing::write_file(huge, "{");
    fs::resize_file(huge, (512ULL << 20U) + 1);  // a hole: it takes no room on the disk
    CHECK(load_show(huge).error().what == "the file has 512 MiB and more; a show has at most 512 MiB");
}
