// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"
#include "core/sound/mix_report.hpp"
#include "core/units/error.hpp"
#include "core/units/time.hpp"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace gasp {

/// What the sound files of a show's folder hold, by their headers: a file is opened once, and again only
/// after it changed on the disk, so that asking costs a look at the folder. Not thread-safe.
class SoundShelf {
  public:
    explicit SoundShelf(std::filesystem::path folder) : folder_(std::move(folder)) {}

    [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
    /// The length a file claims. Error: as SoundFile::open.
    [[nodiscard]] const Result<Micros>& length(const std::string& file);
    /// How the mix of a sequence measures. Mixed anew only after its clips, its length or their files
    /// changed, which takes as long as decoding them does. Once `stopped` (may be empty) answers true it is
    /// given up: the report then has a rate of 0, and the next asking begins anew.
    [[nodiscard]] const MixReport& mix(const Sequence& sequence, const std::function<bool()>& stopped = {});

  private:
    /// What tells that a file is another than before; both 0 where there is none.
    struct Stamp {
        std::int64_t changed = 0;
        std::uintmax_t bytes = 0;
        bool operator==(const Stamp&) const = default;
    };
    struct Known {
        Stamp stamp;
        Result<Micros> length;
    };
    [[nodiscard]] static Stamp stamp_of(const std::filesystem::path& path);

    /// A mix with all it was made of.
    struct KnownMix {
        std::vector<SoundClip> clips;
        std::vector<Stamp> stamps;
        Micros length{0};
        MixReport report;
    };

    std::filesystem::path folder_;
    std::map<std::string, Known> known_;
    std::map<SequenceId, KnownMix> mixes_;
};

}  // namespace gasp
