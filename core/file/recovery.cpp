// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/recovery.hpp"

#include "core/file/atomic_write.hpp"
#include "core/file/file_text.hpp"
#include "core/file/process.hpp"
#include "core/file/show_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <fstream>

namespace gasp {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view suffix = ".recovery";
constexpr std::string_view heading = "gaspworks-recovery 1 ";
/// The longest heading a path of PATH_MAX bytes makes, each as "%xx".
constexpr std::size_t longest_heading = 64 + 3 * 4096;

fs::path own_file(const fs::path& folder) {
    return folder / (this_process() + std::string(suffix));
}

/// A path in one word: any byte that is not printable ASCII, and '%', as "%xx".
std::string to_word(const fs::path& path) {
    std::string word;
    for (const char c : path.string()) {
        if (c > ' ' && c <= '~' && c != '%') {
            word += c;
        } else {
            word += fmt::format("%{:02x}", static_cast<unsigned char>(c));
        }
    }
    return word;
}

std::optional<fs::path> from_word(std::string_view word) {
    std::string path;
    for (std::size_t i = 0; i < word.size(); ++i) {
        if (word[i] != '%') {
            path += word[i];
            continue;
        }
        unsigned byte = 0;
        const std::string_view digits = word.substr(i + 1, 2);
        if (std::from_chars(digits.data(), digits.data() + digits.size(), byte, 16).ptr !=
            digits.data() + 2) {
            return std::nullopt;
        }
        path += static_cast<char>(byte);
        i += 2;
    }
    return path;
}

/// The show a recovery is of, from its first line.
std::optional<fs::path> original_of(const fs::path& file) {
    std::string line(longest_heading, '\0');
    std::ifstream stream(file, std::ios::binary);
    stream.read(line.data(), static_cast<std::streamsize>(line.size()));
    line.resize(static_cast<std::size_t>(stream.gcount()));
    const std::size_t end = line.find('\n');
    if (!line.starts_with(heading) || end == std::string::npos) {
        return std::nullopt;
    }
    return from_word(std::string_view(line).substr(heading.size(), end - heading.size()));
}

Result<void> take_away(const fs::path& file) {
    std::error_code error;
    fs::remove(file, error);
    if (error) {
        return fail("the recovery file cannot be removed: " + error.message(), file.string(),
                    "Remove it by hand");
    }
    return {};
}

}  // namespace

Result<void> save_recovery(const Show& show, const fs::path& original, const fs::path& folder) {
    std::error_code error;
    fs::create_directories(folder, error);
    const auto text = savable_text(show, original.string());
    if (!text) {
        return tl::unexpected(text.error());
    }
    const std::string place = original.empty() ? std::string() : to_word(fs::absolute(original, error));
    return atomic_write(own_file(folder), fmt::format("{}{}\n{}", heading, place, *text));
}

std::vector<Recovery> find_recoveries(const fs::path& folder) {
    std::vector<Recovery> found;
    std::error_code error;
    for (fs::directory_iterator entry(folder, error); !error && entry != fs::directory_iterator();
         entry.increment(error)) {
        std::error_code gone;
        const fs::path& file = entry->path();
        if (file.extension() != suffix || !entry->is_regular_file(gone) ||
            is_running(file.filename().string()) != false) {
            continue;
        }
        const auto original = original_of(file);
        const auto saved = fs::last_write_time(file, gone);
        if (original && !gone) {
            found.push_back({file, *original, saved});
        }
    }
    std::sort(found.begin(), found.end(),
              [](const Recovery& a, const Recovery& b) { return a.saved > b.saved; });
    return found;
}

Result<Show> take_recovery(const Recovery& recovery) {
    const fs::path own = own_file(recovery.file.parent_path());
    std::error_code error;
    if (fs::exists(own, error)) {
        return fail("this window has unsaved work of its own", recovery.original.string(), "Save that first");
    }
    fs::rename(recovery.file, own, error);  // of several editors that try, one succeeds
    if (error) {
        return fail("the recovery is not there any more; another editor may have taken it",
                    recovery.file.string(), "Look in the other windows");
    }
    const auto text = file_text(own);
    const std::string_view all = text ? std::string_view(*text) : std::string_view();
    Result<Show> show =
        text ? read_show(all.substr(std::min(all.find('\n'), all.size() - 1) + 1), recovery.file.string())
             : Result<Show>(tl::unexpected(text.error()));
    if (!show) {
        fs::rename(own, recovery.file, error);
    }
    return show;
}

Result<void> discard_recovery(const Recovery& recovery) {
    return take_away(recovery.file);
}

Result<void> discard_own_recovery(const fs::path& folder) {
    return take_away(own_file(folder));
}

}  // namespace gasp
