// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/time.hpp"

#include <optional>

namespace gasp {

/// A smooth clock through the readings of a sound device, which repeat and step by up to 10 ms: between
/// readings it follows a steady clock, and each new reading pulls it by a share of what they differ. It reads
/// no clock itself.
class PlayClock {
  public:
    /// The device has played `played` so far, as read at `now` of the steady clock. A repeated reading says
    /// nothing new and is passed over.
    void reading(Micros now, Micros played);

    /// The device begins anew: until it moves, the clock stands.
    void restart();

    /// The time played at `now`: never less than an earlier answer, and never far past the last reading, so
    /// that it stands still when the device does.
    [[nodiscard]] Micros at(Micros now);

  private:
    std::optional<Micros> last_reading_;
    Micros last_answer_{0};
    std::optional<double> offset_us_;  ///< of the played time against the steady clock, once the device moves
};

}  // namespace gasp
