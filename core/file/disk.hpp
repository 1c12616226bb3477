// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <sys/stat.h>
#include <sys/types.h>

#include <cstddef>

namespace gasp {

/// The calls by which a save reaches the disk, one to one those of POSIX: each gives -1 and sets errno where
/// it fails. A test puts its own in between to let any of them fail.
class Disk {
  public:
    virtual ~Disk() = default;
    virtual int create(const char* path, mode_t mode);  ///< open for writing, new: O_CREAT | O_EXCL
    virtual int open_folder(const char* path);
    virtual ssize_t write(int file, const char* bytes, std::size_t size);
    virtual int own(int file, uid_t user, gid_t group);
    virtual int permit(int file, mode_t mode);
    virtual int sync(int file);
    virtual int close(int file);
    virtual int rename(const char* from, const char* to);
    virtual int remove(const char* path);
};

/// The real one.
[[nodiscard]] Disk& real_disk();

}  // namespace gasp
