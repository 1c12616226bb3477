// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/recovery_keeper.hpp"

#include "core/show/edits.hpp"
#include "tests/support/catch.hpp"

#include <QTemporaryDir>

#include <filesystem>
#include <iterator>

using namespace gasp;

namespace {

std::size_t files_in(const std::filesystem::path& folder) {
    if (!std::filesystem::exists(folder)) {
        return 0;
    }
    return static_cast<std::size_t>(
        std::distance(std::filesystem::directory_iterator(folder), std::filesystem::directory_iterator()));
}

}  // namespace

TEST_CASE("unsaved work is kept, and given up once it is saved") {
    const QTemporaryDir temporary;
    const std::filesystem::path folder = std::filesystem::path(temporary.path().toStdString()) / "recovery";
    Document document;
    RecoveryKeeper keeper(document, folder);
    keeper.keep_now();
    CHECK(files_in(folder) == 0);

    document.perform(rename_show(document.show(), "tide bell"));
    keeper.keep_now();
    CHECK(files_in(folder) == 1);
    CHECK(keeper.offers().empty());  // ours, and we still run

    document.mark_saved(temporary.filePath("tide.gasp"));
    CHECK(files_in(folder) == 0);
}

TEST_CASE("no more than 10 s of work are at stake") {
    CHECK(RecoveryKeeper::interval.count() < 10);
}

TEST_CASE("closing in good order leaves nothing behind") {
    const QTemporaryDir temporary;
    const std::filesystem::path folder = std::filesystem::path(temporary.path().toStdString()) / "recovery";
    {
        Document document;
        RecoveryKeeper keeper(document, folder);
        document.perform(rename_show(document.show(), "tide bell"));
        keeper.keep_now();
        REQUIRE(files_in(folder) == 1);
    }
    CHECK(files_in(folder) == 0);
}
