// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/file_text.hpp"

#include "core/file/format.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace gasp {
namespace {

/// Closes what open() gave.
class OpenFile {
  public:
    explicit OpenFile(const std::filesystem::path& path)
        // A pipe must not hold the program up before it is found to be none of ours.
        : number_(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC)) {}
    ~OpenFile() {
        if (number_ >= 0) {
            ::close(number_);
        }
    }
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;
    [[nodiscard]] int number() const { return number_; }

  private:
    int number_;
};

tl::unexpected<Error> unreadable(const std::filesystem::path& path, int error) {
    return fail(fmt::format("the file cannot be read: {}", std::strerror(error)), path.string(),
                error == ENOENT ? "Check the path" : "Check the permissions of the file and its folder");
}

}  // namespace

Result<simdjson::padded_string> file_text(const std::filesystem::path& path) {
    const OpenFile file(path);
    struct stat status {};
    if (file.number() < 0 || ::fstat(file.number(), &status) != 0) {
        return unreadable(path, errno);
    }
    if (!S_ISREG(status.st_mode)) {
        return fail(S_ISDIR(status.st_mode) ? "this is a folder" : "this is not a plain file", path.string(),
                    "Choose a show file");
    }
    const auto size = static_cast<std::uint64_t>(status.st_size);
    if (size > largest_file_bytes) {
        return fail(fmt::format("the file has {} MiB and more; a show has at most {} MiB", size >> 20U,
                                largest_file_bytes >> 20U),
                    path.string(), "Choose a show file");
    }
    if (size == 0) {
        return fail("the file is empty", path.string(), "Go back to an earlier copy");
    }
    simdjson::padded_string text(size);
    for (std::size_t done = 0; done < size;) {
        const ssize_t count = ::read(file.number(), text.data() + done, size - done);
        if (count < 0 && errno == EINTR) {
            continue;
        }
        if (count <= 0) {
            return count < 0
                       ? unreadable(path, errno)
                       : fail("the file became shorter while it was read", path.string(), "Open it again");
        }
        done += static_cast<std::size_t>(count);
    }
    return text;
}

}  // namespace gasp
