// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/copy_sound.hpp"

#include <fstream>
#include <system_error>
#include <vector>

namespace gasp {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t chunk_bytes = std::size_t{1} << 20;

/// False where reading or writing failed.
bool copy_bytes(std::ifstream& source, std::ofstream& target, const std::atomic<bool>& cancel) {
    std::vector<char> chunk(chunk_bytes);
    while (!cancel && source) {
        source.read(chunk.data(), static_cast<std::streamsize>(chunk.size()));
        if (source.bad() || !target.write(chunk.data(), source.gcount())) {
            return false;
        }
    }
    target.close();
    return target.good();
}

}  // namespace

Result<void> copy_sound(const fs::path& from, const fs::path& to, const std::atomic<bool>& cancel) {
    std::ifstream source(from, std::ios::binary);
    if (!source) {
        return fail("The sound cannot be read", from.string(),
                    "Check that the file is there and may be read");
    }
    std::error_code error;
    fs::create_directories(to.parent_path(), error);
    const fs::path part = to.parent_path() / (".gaspworks-" + to.filename().string() + ".part");
    std::ofstream target(part, std::ios::binary | std::ios::trunc);
    const bool copied = target && copy_bytes(source, target, cancel);
    if (copied && !cancel) {
        fs::rename(part, to, error);
        if (!error) {
            return {};
        }
    }
    std::error_code ignored;
    fs::remove(part, ignored);
    if (cancel) {
        return fail("The copying was given up", to.string(), "Start it again");
    }
    return fail("The sound cannot be copied", to.string(),
                "Make room there, or choose a folder that may be written to");
}

}  // namespace gasp
