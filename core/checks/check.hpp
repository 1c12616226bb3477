// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/air_facts.hpp"
#include "core/checks/cue_fault.hpp"
#include "core/checks/finding.hpp"
#include "core/schedule/power_together.hpp"
#include "core/schedule/sequence_run.hpp"
#include "core/show/show.hpp"
#include "core/table/event_table.hpp"
#include "core/units/quantity.hpp"

#include <functional>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace gasp {

class SoundShelf;

/// What every check of a sequence reads; made once and shared by all of them.
struct CheckInput {
    const Show& show;
    const Sequence& sequence;  ///< as it is played: every strike placed by its start
    const SequenceRun& run;
    const AirModel& model;  ///< of the rig, fitted
    const AirFacts& facts;
    const Schedule& schedule;
    std::span<const std::vector<Dwell>> dwells;  ///< of each of schedule.channels
    std::span<const StrokeCommand> strokes;
    std::span<const CueFault> cue_faults;  ///< as CueIndex finds them
    UnitSystem units;                      ///< in which findings print pressures and volumes
    SoundShelf* sounds;                    ///< null: what only the disk can tell is not asked
    const std::function<bool()>& stopped;  ///< true: nobody wants the findings any more; may be empty
};

/// A check: its name, one line for the manual, and what it finds. Each stands in a file of its own beside
/// this.
struct Check {
    std::string_view name;
    std::string_view subject;  ///< "cues that overlap on a channel"
    std::vector<Finding> (*run)(const CheckInput&);
};

/// All checks, in the order of the list of findings.
[[nodiscard]] std::span<const Check> all_checks();

/// What a check is told besides the show.
struct CheckSetting {
    UnitSystem units = UnitSystem::metric;
    SoundShelf* sounds = nullptr;  ///< of the show's folder; without it sound files are not looked at
    AirMemo* memo = nullptr;       ///< what is known of earlier revisions; without it all is worked out anew
    /// Asked between checks and while sounds are mixed: once it answers true, an empty list comes back.
    std::function<bool()> stopped = {};
};

/// Every finding of a sequence: stops before warnings before notes, each by time. Findings of the rig whose
/// place names no sequence are those of the parts this sequence uses.
[[nodiscard]] std::vector<Finding> check(const Show& show, const Sequence& sequence,
                                         const CheckSetting& setting = {});

/// The same of a sequence that has been worked out, bands and all, with this memo.
[[nodiscard]] std::vector<Finding> check(const Show& show, const Sequence& sequence, const SequenceRun& run,
                                         AirMemo& memo, const CheckSetting& setting = {});

/// The same with the facts of that run (air_facts, of the sequence as it is played).
[[nodiscard]] std::vector<Finding> check(const Show& show, const Sequence& sequence, const SequenceRun& run,
                                         const AirFacts& facts, AirMemo& memo,
                                         const CheckSetting& setting = {});

/// Adds the findings of one more sequence to those of others: those of the rig alone, whose place names no
/// sequence, once.
void join_findings(std::vector<Finding>& all, std::vector<Finding> of_sequence);
/// Stops before warnings before notes; else as they stand.
void put_by_severity(std::vector<Finding>& findings);

/// What several sequences do together: supplies, fuses and wires with those that run at once, and the room of
/// the boards for all their tables. `runs` and `tables`: of the sequences of the show, or some of them;
/// `power`: power_together of these runs.
[[nodiscard]] std::vector<Finding> check_together(const Show& show, std::span<const PowerRun> runs,
                                                  const std::optional<PowerTogether>& power,
                                                  std::span<const EventTable> tables, UnitSystem units);

struct ShowFindings {
    /// Of every sequence: stops before warnings before notes, each by sequence and time. Findings of the rig
    /// alone, whose place names no sequence, come once.
    std::vector<Finding> all;
    std::vector<Finding> together;       ///< those among them of check_together
    std::optional<PowerTogether> power;  ///< what sequences at once ask of the rig's electrics
};

/// Every finding of a show.
[[nodiscard]] ShowFindings check_whole(const Show& show, const CheckSetting& setting = {});
/// The same in one list.
[[nodiscard]] std::vector<Finding> check(const Show& show, const CheckSetting& setting = {});

}  // namespace gasp
