// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/disk.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cstdio>

namespace gasp {

int Disk::create(const char* path, mode_t mode) {
    return ::open(path, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode);
}
int Disk::open_folder(const char* path) {
    return ::open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
}
ssize_t Disk::write(int file, const char* bytes, std::size_t size) {
    return ::write(file, bytes, size);
}
int Disk::own(int file, uid_t user, gid_t group) {
    return ::fchown(file, user, group);
}
int Disk::permit(int file, mode_t mode) {
    return ::fchmod(file, mode);
}
int Disk::sync(int file) {
    return ::fsync(file);
}
int Disk::close(int file) {
    return ::close(file);
}
int Disk::rename(const char* from, const char* to) {
    return std::rename(from, to);
}
int Disk::remove(const char* path) {
    return ::unlink(path);
}

Disk& real_disk() {
    static Disk disk;
    return disk;
}

}  // namespace gasp
