// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/ids.hpp"
#include "core/units/time.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace gasp {

enum class Severity : std::uint8_t { stop, warn, note };

/// What a finding is about; a screen jumps there. Every member may be empty.
struct Place {
    std::optional<SequenceId> sequence;
    std::optional<Micros> time;
    std::optional<CueId> cue;
    std::optional<CueId> other_cue;
    std::optional<ChannelId> channel;
    std::optional<ActuatorId> actuator;
    std::optional<BoardId> board;
    std::optional<SupplyId> supply;
    std::string field;  ///< the key path of the rig's field, as in the file: "valve.shortest_on_ms"
    bool operator==(const Place&) const = default;
};

/// One result of a check.
struct Finding {
    std::string_view check;  ///< the check's name, as its file: "overlap"
    Severity severity = Severity::warn;
    bool not_checked = false;  ///< an input was blank: nothing is claimed either way
    Place place;
    std::string what;    ///< one sentence, with names: "Cue 4 and cue 7 overlap on channel \"lamp\""
    std::string figure;  ///< what was found, with its unit: "120 ms"; empty when not checked
    std::string limit;   ///< what it was held against: "at least 150 ms"
    std::string remedy;  ///< one thing to change; when not checked, the field to fill in
    bool operator==(const Finding&) const = default;
};

[[nodiscard]] std::string_view word(Severity severity);  ///< "stop", "warn", "note"

/// "stop: <where>: <what>: <figure>, limit <limit>. <remedy>." for a terminal; `where` is the time on the
/// ruler.
[[nodiscard]] std::string text(const Finding& finding);

}  // namespace gasp
