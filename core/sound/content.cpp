// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/content.hpp"

#include "core/units/fnv.hpp"

#include <fmt/format.h>
#include <xxhash.h>

#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <memory>
#include <span>
#include <system_error>
#include <vector>

namespace gasp {

namespace {

constexpr std::size_t block_bytes = std::size_t{1} << 18;

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};
struct FreeState {
    void operator()(XXH3_state_t* state) const { XXH3_freeState(state); }
};

class Xxh3 {
  public:
    Xxh3() : state_(XXH3_createState()) { XXH3_64bits_reset(state_.get()); }
    void add(std::span<const unsigned char> bytes) {
        XXH3_64bits_update(state_.get(), bytes.data(), bytes.size());
    }
    [[nodiscard]] std::uint64_t value() const { return XXH3_64bits_digest(state_.get()); }

  private:
    std::unique_ptr<XXH3_state_t, FreeState> state_;
};

/// Adds a file to its end; false where it cannot be read.
template <class Hash>
bool add(std::FILE* file, Hash& hash) {
    std::vector<unsigned char> block(block_bytes);
    while (const std::size_t got = std::fread(block.data(), 1, block.size(), file)) {
        hash.add(std::span<const unsigned char>(block).first(got));
    }
    return std::ferror(file) == 0;
}

template <class Hash>
Result<std::string> content(std::FILE* file, const std::filesystem::path& path, std::string_view kind) {
    Hash hash;
    if (!add(file, hash)) {
        return fail("The file cannot be read to its end", path.string(), "Copy it again from where it came");
    }
    return fmt::format("{}{:016x}", kind, hash.value());
}

}  // namespace

Result<std::string> content_of(const std::filesystem::path& path, std::string_view kind) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(path, error)) {
        return fail("There is no such file", path.string(),
                    "Put the file back, or choose it where it is now");
    }
    const std::unique_ptr<std::FILE, CloseFile> file(std::fopen(path.c_str(), "rb"));
    if (!file) {
        return fail("The file cannot be opened: " + std::generic_category().message(errno), path.string(),
                    "Check the file's permissions");
    }
    std::setvbuf(file.get(), nullptr, _IONBF, 0);  // whole blocks are read, with no copy between
    return kind == old_content_kind ? content<Fnv1a>(file.get(), path, kind)
                                    : content<Xxh3>(file.get(), path, content_kind);
}

}  // namespace gasp
