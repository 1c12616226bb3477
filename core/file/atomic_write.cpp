// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/atomic_write.hpp"

#include "core/file/process.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstring>
#include <optional>

namespace gasp {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view part_prefix = ".gaspworks-";
constexpr std::string_view part_suffix = ".part";

/// What to do about a call that failed.
std::string remedy_for(int error) {
    switch (error) {
        case ENOSPC:
        case EDQUOT:
        case EFBIG:
            return "Free some room on the disk, or save to another one";
        case EACCES:
        case EPERM:
        case EROFS:
            return "Save to a folder you may write to, or change its permissions";
        case ENOENT:
        case ENOTDIR:
            return "Choose a folder that exists";
        case ENAMETOOLONG:
            return "Choose a shorter name";
        default:
            return "Save to another disk, and check this one";
    }
}

tl::unexpected<Error> failed(std::string_view step, const fs::path& path, int error) {
    const std::string reason = error == ENOSPC || error == EDQUOT ? "the disk is full" : std::strerror(error);
    return fail(fmt::format("{}: {}; what was there is untouched", step, reason), path.string(),
                remedy_for(error));
}

/// The new contents on their way: a file beside the old one that goes away again unless it took its place.
class Part {
  public:
    Part(Disk& disk, const fs::path& folder) : disk_(disk) {
        static std::atomic<unsigned> count = 0;
        path_ = folder / fmt::format("{}{}.{}{}", part_prefix, this_process(), ++count, part_suffix);
    }
    ~Part() {
        if (file_ >= 0) {
            disk_.close(file_);
        }
        if (exists_) {
            disk_.remove(path_.c_str());
        }
    }
    Part(const Part&) = delete;
    Part& operator=(const Part&) = delete;

    // Each gives the error number of the call that failed, or 0.

    int create(mode_t mode) {
        file_ = disk_.create(path_.c_str(), mode);
        exists_ = file_ >= 0;
        return exists_ ? 0 : errno;
    }

    int write(std::string_view contents) {
        while (!contents.empty()) {
            const ssize_t written = disk_.write(file_, contents.data(), contents.size());
            if (written < 0 && errno == EINTR) {
                continue;
            }
            if (written <= 0) {
                return written < 0 ? errno : ENOSPC;
            }
            contents.remove_prefix(static_cast<std::size_t>(written));
        }
        return 0;
    }

    int take_after(const struct stat& old) {
        // Another's file stays theirs where we may give it away; where not, it is still readable as before.
        static_cast<void>(disk_.own(file_, old.st_uid, old.st_gid));
        return disk_.permit(file_, old.st_mode & 07777U) == 0 ? 0 : errno;
    }

    int settle() {
        if (disk_.sync(file_) != 0) {
            return errno;
        }
        const int file = std::exchange(file_, -1);
        return disk_.close(file) == 0 ? 0 : errno;
    }

    int replace(const fs::path& path) {
        if (disk_.rename(path_.c_str(), path.c_str()) != 0) {
            return errno;
        }
        exists_ = false;
        return 0;
    }

  private:
    Disk& disk_;
    fs::path path_;
    int file_ = -1;
    bool exists_ = false;
};

/// The file a path means, through any links; it need not exist.
Result<fs::path> target_of(fs::path path) {
    constexpr int most_links = 40;
    for (int links = 0; links < most_links; ++links) {
        std::error_code error;
        if (!fs::is_symlink(path, error)) {
            return path;
        }
        const fs::path next = fs::read_symlink(path, error);
        if (error) {
            return failed("the link cannot be followed", path, error.value());
        }
        path = path.parent_path() / next;
    }
    return failed("the link cannot be followed", path, ELOOP);
}

/// The file that is there, if any; a refusal where it must not be replaced.
Result<std::optional<struct stat>> old_file(const fs::path& path) {
    struct stat old {};
    if (::stat(path.c_str(), &old) != 0) {
        return errno == ENOENT ? Result<std::optional<struct stat>>(std::nullopt)
                               : failed("it cannot be saved", path, errno);
    }
    if (!S_ISREG(old.st_mode)) {
        return fail(S_ISDIR(old.st_mode) ? "this is a folder" : "this is not a plain file", path.string(),
                    "Choose another name");
    }
    // A rename asks the folder only: without this, a file its owner made read-only would be replaced.
    if (::access(path.c_str(), W_OK) != 0) {
        return fail("the file is read-only", path.string(),
                    "Save under another name, or change the permissions of the file");
    }
    return old;
}

/// Takes away what saves of processes that were killed have left in a folder.
void sweep(const fs::path& folder) {
    std::error_code error;
    for (fs::directory_iterator entry(folder, error); !error && entry != fs::directory_iterator();
         entry.increment(error)) {
        const std::string name = entry->path().filename().string();
        if (name.starts_with(part_prefix) && name.ends_with(part_suffix) &&
            is_running(std::string_view(name).substr(part_prefix.size())) == false) {
            std::error_code ignored;
            fs::remove(entry->path(), ignored);
        }
    }
}

/// Makes the rename itself last through a power cut. Nothing is lost where a disk cannot: the old file comes
/// back.
void sync_folder(Disk& disk, const fs::path& folder) {
    const int file = disk.open_folder(folder.c_str());
    if (file >= 0) {
        disk.sync(file);
        disk.close(file);
    }
}

}  // namespace

Result<void> atomic_write(const fs::path& path, std::string_view contents, Disk& disk) {
    const Result<fs::path> target = target_of(path);
    if (!target) {
        return tl::unexpected(target.error());
    }
    const auto old = old_file(*target);
    if (!old) {
        return tl::unexpected(old.error());
    }
    const fs::path folder = target->has_parent_path() ? target->parent_path() : ".";
    sweep(folder);
    Part part(disk, folder);
    constexpr mode_t as_the_umask_says = 0666;
    constexpr mode_t nobody_else = 0600;
    if (const int error = part.create(*old ? nobody_else : as_the_umask_says)) {
        return failed("the folder takes no new file", folder, error);
    }
    if (const int error = part.write(contents)) {
        return failed("the disk did not take it", *target, error);
    }
    if (const int error = *old ? part.take_after(**old) : 0) {
        return failed("the permissions could not be kept", *target, error);
    }
    if (const int error = part.settle()) {
        return failed("the disk did not take it", *target, error);
    }
    if (const int error = part.replace(*target)) {
        return failed("the file could not be replaced", *target, error);
    }
    sync_folder(disk, folder);
    return {};
}

}  // namespace gasp
