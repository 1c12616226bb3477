// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"

#include <cstdint>
#include <optional>

namespace gasp {

/// The level of a loudspeaker at a listener in the open, in dB: sensitivity + 10 log10(power / 1 W) -
/// 20 log10(distance / 1 m), the inverse square law. A room adds to it, by some dB and more in a small hard
/// one. Requires: power and distance above 0.
[[nodiscard]] double level_from(double sensitivity_db, double power_w, double distance_m);

/// The level at the visitor's ear while a sound of a loudness plays. It is taken that the amplifier is at its
/// power at 0 LUFS, which is a sine of full scale in both channels, and that the loudness, weighted by K, is
/// near enough to one weighted by A (within about 3 dB for voices; common practice, no source). Empty where
/// power, sensitivity or distance is blank.
[[nodiscard]] std::optional<double> level_at_ear(const Speaker& speaker, double loudness_lufs);

/// A published limit on noise at work.
enum class NoiseLimit : std::uint8_t {
    niosh,  ///< recommended: 85 dBA for 8 h, half as long for each 3 dB more (NIOSH publication 98-126)
    osha    ///< the law: 90 dBA for 8 h, half as long for each 5 dB more (29 CFR 1910.95, table G-16)
};

/// How long a level may be borne, in hours.
[[nodiscard]] double allowed_hours(NoiseLimit limit, double level_dba);

/// The share of what may be borne in a day that so many hours at a level use up: 1 is all of it.
[[nodiscard]] double noise_dose(NoiseLimit limit, double level_dba, double hours);

}  // namespace gasp
