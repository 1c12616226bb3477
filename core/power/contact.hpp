// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"

namespace gasp {

/// What share of a contact's resistive rating it bears of this kind of load, where its maker states nothing
/// for the kind. Lamps draw about 10 times their current as they light and motors 6 times as they start, and
/// the surge must stay within the resistive rating (makers' guides to switch ratings); supplies of LEDs and
/// players charge their capacitors like lamps (common practice, no source); coils on DC 40 % (derating tables
/// after MIL-R-6106, from memory).
[[nodiscard]] double share_of_resistive(LoadKind kind);

/// What a load of this kind draws as it is switched on, in times its steady current, where nothing better is
/// known: the same guides.
[[nodiscard]] double usual_surge(LoadKind kind);

/// Whether it is one: a load whose current surges.
[[nodiscard]] bool surges(LoadKind kind);

/// The kind of a channel's load: as stated; a valve's is a coil in any case.
[[nodiscard]] LoadKind load_kind(const Channel& channel);

/// How long a contact of so many operations lasts at so many a night, in nights.
[[nodiscard]] double contact_nights(double operations, double a_night);

}  // namespace gasp
