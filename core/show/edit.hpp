// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace gasp {

/// One thing of a list put, taken or exchanged: what stood there before and what stands there after, each
/// with its place in the list. Empty is "not there".
template <class T>
struct Exchange {
    std::optional<T> before;
    std::optional<T> after;
    std::size_t index_before =
        0;  ///< used by the rig's lists and the sequences, whose order the user chooses;
    std::size_t index_after = 0;  ///< clips, marks and cues stand in the order of their ids
    bool operator==(const Exchange&) const = default;
};

/// Exchanges among the clips, marks or cues of one sequence, in the order of their ids, each of one thing: an
/// exchange never changes an id.
template <class T>
struct InSequence {
    SequenceId sequence;
    std::vector<Exchange<T>> exchanges;
    bool operator==(const InSequence&) const = default;
};

/// A sequence without its lists.
struct SequenceHead {
    std::string name;
    SequenceKind kind = SequenceKind::triggered;
    Micros length{0};
    Figure trigger_after_s{};
    bool operator==(const SequenceHead&) const = default;
};

/// A value of which there is one: the plant, the sensor, the speaker, the night, the show's name, a
/// sequence's head.
template <class T>
struct Replacement {
    SequenceId sequence;  ///< for SequenceHead only
    T before;
    T after;
    bool operator==(const Replacement&) const = default;
};

using Change = std::variant<InSequence<Cue>, InSequence<Mark>, InSequence<SoundClip>, Exchange<Channel>,
                            Exchange<Actuator>, Exchange<Board>, Exchange<Supply>, Exchange<Sequence>,
                            Replacement<AirPlant>, Replacement<Sensor>, Replacement<Speaker>,
                            Replacement<NightPlan>, Replacement<std::string>, Replacement<SequenceHead>>;

[[nodiscard]] SequenceHead head_of(const Sequence& sequence);

/// One step of the user's: a value that can be done and undone. `apply` then `revert` restores the exact
/// document.
struct Edit {
    std::string sentence;  ///< for the undo menu: "move 3 cues"
    std::vector<Change> changes;
    std::uint32_t ids_taken = 0;  ///< how far it raises the document's next_id

    [[nodiscard]] bool empty() const { return changes.empty(); }
    bool operator==(const Edit&) const = default;
};

/// Does the edit. Requires: the document is the one the edit was made for, or has come back to it.
void apply(const Edit& edit, Show& show);
/// Undoes it. Requires: the edit was the last one applied.
void revert(const Edit& edit, Show& show);

/// `later` done right after `earlier`, as one step with the sentence of `earlier` (of `later` where that is
/// empty): what a drag or a run of key presses leaves on the undo stack. Exchanges of the same thing are
/// joined; those that cancel are dropped, so that it may be empty; `ids_taken` adds up all the same.
[[nodiscard]] Edit joined(const Edit& earlier, const Edit& later);

}  // namespace gasp
