// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/atomic_write.hpp"

#include "tests/core/file/temporary_folder.hpp"
#include "tests/support/catch.hpp"

#include <sys/stat.h>

#include <cerrno>
#include <string>

using namespace gasp;
using testing::contents_of;
using testing::entries_in;
namespace fs = std::filesystem;

namespace {

/// A disk on which one call fails, and which may take only a few bytes at a time.
class FailingDisk final : public Disk {
  public:
    FailingDisk(int call, int error, std::size_t most_bytes = SIZE_MAX)
        : call_(call), error_(error), most_bytes_(most_bytes) {}

    int create(const char* path, mode_t mode) override { return fails() ? -1 : Disk::create(path, mode); }
    int open_folder(const char* path) override { return fails() ? -1 : Disk::open_folder(path); }
    ssize_t write(int file, const char* bytes, std::size_t size) override {
        return fails() ? -1 : Disk::write(file, bytes, std::min(size, most_bytes_));
    }
    int own(int file, uid_t user, gid_t group) override {
        return fails() ? -1 : Disk::own(file, user, group);
    }
    int permit(int file, mode_t mode) override { return fails() ? -1 : Disk::permit(file, mode); }
    int sync(int file) override { return fails() ? -1 : Disk::sync(file); }
    int close(int file) override {
        const bool failing = fails();
        const int result = Disk::close(file);  // a close that fails has closed the file all the same
        return failing ? -1 : result;
    }
    int rename(const char* from, const char* to) override { return fails() ? -1 : Disk::rename(from, to); }

    [[nodiscard]] int calls() const { return calls_; }

  private:
    bool fails() {
        errno = error_;
        return calls_++ == call_;
    }

    int call_;
    int error_;
    std::size_t most_bytes_;
    int calls_ = 0;
};

constexpr int never = -1;
const std::string old_text(1000, 'o');
const std::string new_text(3000, 'n');

}  // namespace

TEST_CASE("whichever call to the disk fails, the file is old or new, whole and alone") {
    const testing::TemporaryFolder folder;
    const fs::path file = folder.path() / "show.gasp";
    testing::write_file(file, old_text);
    FailingDisk counting(never, 0, 1000);
    REQUIRE(atomic_write(file, new_text, counting));
    // create, three writes, own, permit, sync, close, rename; open, sync and close the folder
    REQUIRE(counting.calls() == 12);
    constexpr int owning = 4;
    constexpr int renaming = 8;
    for (int call = 0; call < counting.calls(); ++call) {
        for (const int error : {ENOSPC, EIO, EACCES, EROFS, EDQUOT}) {
            testing::write_file(file, old_text);
            FailingDisk disk(call, error, 1000);
            const auto result = atomic_write(file, new_text, disk);
            INFO("call " << call << ", error " << error);
            // The owner may stay ours, and a folder that cannot be synced costs nothing that was there.
            const bool harmless = call == owning || call > renaming;
            CHECK(result.has_value() == harmless);
            CHECK(contents_of(file) == (harmless ? new_text : old_text));
            CHECK(entries_in(folder.path()) == 1);
            if (!result) {
                CHECK(!result.error().where.empty());
                CHECK(!result.error().remedy.empty());
            }
        }
    }
}

TEST_CASE("a full disk says so, and what to do") {
    const testing::TemporaryFolder folder;
    const fs::path file = folder.path() / "show.gasp";
    FailingDisk disk(1, ENOSPC);
    CHECK(atomic_write(file, new_text, disk).error() ==
          Error{"the disk did not take it: the disk is full; what was there is untouched", file.string(),
                "Free some room on the disk, or save to another one"});
    CHECK(entries_in(folder.path()) == 0);
}

TEST_CASE("an interrupted write goes on") {
    const testing::TemporaryFolder folder;
    FailingDisk disk(2, EINTR, 700);
    REQUIRE(atomic_write(folder.path() / "show.gasp", new_text, disk));
    CHECK(contents_of(folder.path() / "show.gasp") == new_text);
}

TEST_CASE("a save keeps the permissions of the file, and gives a new one those of the umask") {
    const testing::TemporaryFolder folder;
    const fs::path file = folder.path() / "show.gasp";
    const mode_t mask = ::umask(027);
    REQUIRE(atomic_write(file, old_text));
    ::umask(mask);
    CHECK(fs::status(file).permissions() == fs::perms(0640));
    for (const unsigned mode : {0600U, 0664U, 0755U}) {
        fs::permissions(file, fs::perms(mode));
        REQUIRE(atomic_write(file, new_text));
        CHECK(fs::status(file).permissions() == fs::perms(mode));
    }
}

TEST_CASE("a save through links reaches the file they mean") {
    const testing::TemporaryFolder folder;
    fs::create_directories(folder.path() / "real");
    const fs::path real = folder.path() / "real/show.gasp";
    const fs::path link = folder.path() / "link.gasp";
    const fs::path second = folder.path() / "second.gasp";
    fs::create_symlink("real/show.gasp", link);
    fs::create_symlink(link, second);
    REQUIRE(atomic_write(second, old_text));  // what the links mean is not there yet
    CHECK(contents_of(real) == old_text);
    REQUIRE(atomic_write(second, new_text));
    CHECK(contents_of(real) == new_text);
    CHECK(fs::is_symlink(link));
    CHECK(fs::is_symlink(second));
    CHECK(entries_in(folder.path() / "real") == 1);
    fs::create_symlink("circle.gasp", folder.path() / "circle.gasp");
    CHECK(!atomic_write(folder.path() / "circle.gasp", new_text));
}

TEST_CASE("what is no plain file is not replaced") {
    const testing::TemporaryFolder folder;
    CHECK(atomic_write(folder.path(), new_text).error().what == "this is a folder");
    CHECK(atomic_write("/dev/null", new_text).error().what == "this is not a plain file");
    CHECK(atomic_write(folder.path() / "none/show.gasp", new_text).error().remedy ==
          "Choose a folder that exists");
    CHECK(atomic_write(folder.path() / std::string(300, 'x'), new_text).error().remedy ==
          "Choose a shorter name");
    CHECK(entries_in(folder.path()) == 0);
}

TEST_CASE("the longest name a file may have can be saved to") {
    const testing::TemporaryFolder folder;
    const fs::path file = folder.path() / std::string(255, 'x');
    REQUIRE(atomic_write(file, new_text));
    CHECK(contents_of(file) == new_text);
}

TEST_CASE("a name without a folder is saved in the working folder") {
    const testing::TemporaryFolder folder;
    const fs::path before = fs::current_path();
    fs::current_path(folder.path());
    const auto result = atomic_write("show.gasp", new_text);
    fs::current_path(before);
    REQUIRE(result);
    CHECK(contents_of(folder.path() / "show.gasp") == new_text);
}
