// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>
#include <string>

namespace gasp {

/// What follows from the format word of libsndfile alone.
struct FormatTraits {
    std::string name;  ///< "WAV, 16-bit PCM"
    int bits = 0;      ///< of an integer sample; 0 for floating point and lossy formats
    bool sixteen_bit = false;
    bool compressed = false;
    bool seeks_exactly = false;
    bool may_hold_nonfinite = false;
    std::int64_t frames_a_byte =
        0;  ///< more frames than this times the file's bytes no file of the format holds
};

[[nodiscard]] FormatTraits traits_of(int format);

}  // namespace gasp
