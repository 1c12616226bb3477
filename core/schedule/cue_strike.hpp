// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/sequence_run.hpp"

#include <cstddef>
#include <optional>
#include <span>

namespace gasp {

/// Which way a cue on this channel sends its figure; none where it sends it nowhere by itself.
[[nodiscard]] std::optional<Coil> way_of(const Show& show, const Channel& channel);

/// The place of the stroke among these, in order of time, whose command is nearest; none farther off than a
/// tick's rounding, or a drag that runs ahead of what is worked out.
[[nodiscard]] std::optional<std::size_t> stroke_near(std::span<const Stroke> strokes, ActuatorId actuator,
                                                     Coil way, Micros time);

/// From the start of a cue to the strike of the figure it sends; none where it sends none, or it does not
/// strike. `cue`: one of the sequence as it is played, which is `run`'s.
[[nodiscard]] std::optional<Micros> lead_of(const Show& show, const Sequence& played, const SequenceRun& run,
                                            const Cue& cue);

}  // namespace gasp
