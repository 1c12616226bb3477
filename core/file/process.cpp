// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/process.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <charconv>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <sstream>

namespace gasp {
namespace {

/// Field 22 of /proc/<pid>/stat (proc(5)); empty when no such process runs.
std::optional<std::uint64_t> start_of_process(std::int64_t pid) {
    std::ifstream file(fmt::format("/proc/{}/stat", pid));
    const std::string line{std::istreambuf_iterator<char>(file), {}};
    // The second field, the program's name in brackets, may itself hold blanks and brackets.
    const std::size_t bracket = line.rfind(')');
    if (bracket == std::string::npos) {
        return std::nullopt;
    }
    std::istringstream rest(line.substr(bracket + 1));
    std::string field;
    for (int number = 3; number <= 21; ++number) {
        rest >> field;
    }
    std::uint64_t start = 0;
    return rest >> start ? std::optional(start) : std::nullopt;
}

}  // namespace

std::string this_process() {
    const std::int64_t pid = ::getpid();
    return fmt::format("{}-{}", pid, start_of_process(pid).value_or(0));
}

std::optional<bool> is_running(std::string_view file_name) {
    const char* const end = file_name.data() + file_name.size();
    std::int64_t pid = 0;
    std::uint64_t start = 0;
    const auto after_pid = std::from_chars(file_name.data(), end, pid);
    if (after_pid.ec != std::errc() || after_pid.ptr == end || *after_pid.ptr != '-' || pid <= 0) {
        return std::nullopt;
    }
    const auto after_start = std::from_chars(after_pid.ptr + 1, end, start);
    if (after_start.ec != std::errc() || after_start.ptr == end || *after_start.ptr != '.') {
        return std::nullopt;
    }
    return start_of_process(pid) == start;
}

}  // namespace gasp
