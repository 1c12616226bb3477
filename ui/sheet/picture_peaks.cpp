// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/picture_peaks.hpp"

namespace gasp {

std::map<ClipId, std::shared_ptr<const PeakPyramid>> peaks_of(const Sequence& sequence,
                                                              const std::filesystem::path& folder,
                                                              const std::atomic<bool>& cancel,
                                                              std::vector<std::string>& messages) {
    std::map<ClipId, std::shared_ptr<const PeakPyramid>> peaks;
    std::map<std::string, std::shared_ptr<const PeakPyramid>> built;
    for (const SoundClip& clip : sequence.clips) {
        auto [known, fresh] = built.try_emplace(clip.file);
        if (fresh && !cancel) {
            Result<PeakBuilder> builder = PeakBuilder::open(folder / clip.file, {});
            const Result<void> done =
                builder ? builder->build(cancel, {}) : Result<void>(tl::unexpected(builder.error()));
            if (!done) {
                messages.push_back(done.error().text());
            }
            known->second = builder ? builder->pyramid() : nullptr;
        }
        peaks[clip.id] = known->second;
    }
    return peaks;
}

}  // namespace gasp
