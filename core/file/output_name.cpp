// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/output_name.hpp"

#include "core/show/show.hpp"
#include "core/show/validity.hpp"

#include <algorithm>
#include <system_error>

namespace gasp {

std::vector<std::filesystem::path> files_of(const Show& show, const std::filesystem::path& file,
                                            const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    if (!file.empty()) {
        files.push_back(file);
    }
    for (const Sequence& sequence : show.sequences) {
        for (const SoundClip& clip : sequence.clips) {
            if (stays_inside(clip.file)) {
                files.push_back(folder / clip.file);
            }
        }
    }
    return files;
}

Result<void> check_output_name(const std::filesystem::path& output,
                               std::span<const std::filesystem::path> sources) {
    const bool source = std::ranges::any_of(sources, [&](const std::filesystem::path& file) {
        std::error_code none;  // a file that is not there is no source that could be lost
        return std::filesystem::equivalent(output, file, none);
    });
    if (source) {
        return fail("this is what the result is made from, and would be replaced by it", output.string(),
                    "Choose another name");
    }
    if (output.extension() == ".gasp") {
        return fail("this is the name of a show, and what is written here is none", output.string(),
                    "Choose another ending");
    }
    return {};
}

}  // namespace gasp
