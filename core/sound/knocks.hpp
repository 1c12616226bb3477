// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <filesystem>
#include <vector>

namespace gasp {

/// A short sound that begins all at once: a valve that shifts, a figure that meets its stop.
struct Knock {
    double time_s = 0.0;   ///< of its first sound, from the start of the recording
    double rise_db = 0.0;  ///< above what is heard just before it, at most 60
    /// 0 where the rise is no more than this background reaches by itself, 0.5 at twice that in dB, towards
    /// 1 beyond.
    double confidence = 0.0;
    bool operator==(const Knock&) const = default;
};

inline constexpr double longest_recording_s = 900.0;

/// The knocks of a recording in order of time, all channels together. A knock begins where the energy of
/// 2 ms rises above that before it by a threshold, which follows the unrest of the background; another can
/// begin once the rise has gone (hysteresis). Its start is then placed, to 0.125 ms, by the Akaike
/// information criterion over the moments around it (N. Maeda, A method for reading and checking phase times
/// in autoprocessing system of seismic wave data, Zisin 38, 1985; from memory). Error: as SoundFile::open;
/// longer than longest_recording_s; under 8000 frames a second; nothing in it.
[[nodiscard]] Result<std::vector<Knock>> find_knocks(const std::filesystem::path& recording);

}  // namespace gasp
