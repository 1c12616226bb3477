// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/content.hpp"

#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;

TEST_CASE("A file's content is its XXH3 hash, or that of older shows") {
    const test::Folder folder;
    test::write_bytes(folder / "empty", "");
    test::write_bytes(folder / "a", "a");
    test::write_bytes(folder / "abc", "abc");
    test::write_bytes(folder / "foobar", "foobar");
    // As the hash's author's own tests and implementations elsewhere have them, from memory.
    CHECK(content_of(folder / "empty") == "xxh3:2d06800538d394c2");
    CHECK(content_of(folder / "a") == "xxh3:e6c632b61e964e1f");
    CHECK(content_of(folder / "abc") == "xxh3:78af5f94892f3950");
    // Vectors of the FNV reference test suite by L. C. Noll, from memory.
    CHECK(content_of(folder / "a", old_content_kind) == "fnv1a64:af63dc4c8601ec8c");
    CHECK(content_of(folder / "foobar", old_content_kind) == "fnv1a64:85944171f73967e8");
    CHECK_FALSE(content_of(folder / "none"));
    CHECK_FALSE(content_of(folder.path()));
}

TEST_CASE("A file of many blocks has another content once any of its bytes is another") {
    const test::Folder folder;
    std::string bytes(3'000'000, 'x');
    test::write_bytes(folder / "a", bytes);
    const std::string before = content_of(folder / "a").value();
    CHECK(content_of(folder / "a") == before);
    for (const std::size_t at : {std::size_t{0}, std::size_t{262'144}, std::size_t{2'999'999}}) {
        bytes[at] = 'y';
        test::write_bytes(folder / "a", bytes);
        CHECK(content_of(folder / "a") != before);
        bytes[at] = 'x';
    }
}
