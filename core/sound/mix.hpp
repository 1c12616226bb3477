// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"
#include "core/units/error.hpp"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <vector>

namespace gasp {

/// Renders the mix of a sequence's sound clips, streaming from their files: stereo, 32-bit float, at a rate
/// of the caller's. A clip of another rate is resampled; more or fewer channels than two are brought to two
/// as downmix.hpp tells; clips of all lanes add up, each by its gain and fades (clip_gain.hpp). Clips begin
/// and end on the frame nearest to their time. Not thread-safe: one reader thread owns it. Never allocates
/// after `open` but where a seek needs a fresh decoder.
class Mix {
  public:
    /// Clips whose file cannot be opened are left out and named in problems(). Requires: rate > 0.
    [[nodiscard]] static Mix open(const Sequence& sequence, const std::filesystem::path& show_folder,
                                  int rate);
    Mix(Mix&&) noexcept;
    Mix& operator=(Mix&&) noexcept;
    ~Mix();

    [[nodiscard]] const std::vector<Error>& problems() const;
    /// Frames from the start of the sequence to its end.
    [[nodiscard]] std::int64_t frames() const;

    /// The next frames, interleaved left and right; silence past the end. Samples are finite, not clamped.
    void read(std::span<float> out);
    /// The frame read next. What is read after is what reading from the start would give there, but for
    /// formats whose decoder carries state over a seek (ADPCM, MPEG, Opus): those are right to the frame, not
    /// to the bit.
    void seek(std::int64_t frame);

  private:
    struct Tracks;
    explicit Mix(std::unique_ptr<Tracks> tracks);
    std::unique_ptr<Tracks> tracks_;
};

}  // namespace gasp
