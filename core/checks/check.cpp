// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/check.hpp"

#include "core/checks/all_checks.hpp"
#include "core/checks/at_once.hpp"
#include "core/checks/cue_index.hpp"
#include "core/checks/table_room.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

namespace gasp {
namespace {

void put_in_order(std::vector<Finding>& findings) {
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        return a.severity != b.severity ? a.severity < b.severity : a.place.time < b.place.time;
    });
}

}  // namespace

void join_findings(std::vector<Finding>& all, std::vector<Finding> of_sequence) {
    for (Finding& finding : of_sequence) {
        if (finding.place.sequence || std::find(all.begin(), all.end(), finding) == all.end()) {
            all.push_back(std::move(finding));
        }
    }
}

void put_by_severity(std::vector<Finding>& findings) {
    std::stable_sort(findings.begin(), findings.end(),
                     [](const Finding& a, const Finding& b) { return a.severity < b.severity; });
}

std::span<const Check> all_checks() {
    static constexpr std::array checks{
        Check{"exclusive", "channels that exclude each other on at once", check_exclusive},
        Check{"valve_dwell", "valves with or without power too briefly to shift", check_valve_dwell},
        Check{"channel_dwell", "relays and lamps on or off too briefly", check_channel_dwell},
        Check{"overlap", "cues that overlap on a channel", check_overlap},
        Check{"early_reversal", "a figure called out again before it is back", check_early_reversal},
        Check{"left_on", "a channel still on at the end of its sequence", check_left_on},
        Check{"outside", "cues outside their sequence or past the sound", check_outside},
        Check{"pattern", "flashes and cues too short for the board's tick", check_pattern},
        Check{"sound_file", "sounds that are missing, unreadable or shorter than their clips",
              check_sound_file},
        Check{"sound_level", "mixes that clip", check_sound_level},
        Check{"player_lag", "sound lost to a player that starts late", check_player_lag},
        Check{"noise", "the loudspeaker's level against what visitors and staff may bear", check_noise},
        Check{"lockout", "a lockout shorter than the run and the reset", check_lockout},
        Check{"rest_state", "valves that have power while the show rests", check_rest_state},
        Check{"start_level", "what outputs do while their board starts", check_start_level},
        Check{"board_output", "board outputs missing, shared, or beyond the board", check_board_output},
        Check{"clock_drift", "clocks of boards and of the sound that drift apart over the sequence",
              check_clock_drift},
        Check{"wiring", "channels, valves and cylinders that do not fit together", check_wiring},
        Check{"simulated", "figures that the simulation of the air lacks", check_simulated},
        Check{"air_budget", "air pressure over the sequence against what lifts and what is set",
              check_air_budget},
        Check{"rating", "pressures against what the parts are rated for", check_rating},
        Check{"stroke", "strokes that are not complete within their cue", check_stroke},
        Check{"strike_missed", "strikes that cannot be met, with the earliest moment", check_strike_missed},
        Check{"strike_off", "strikes off their moment at the best or worst pressure", check_strike_off},
        Check{"starved", "figures weakened by what another draws", check_starved},
        Check{"end_of_stroke", "speed and energy at the stop against the rating", check_end_of_stroke},
        Check{"first_stroke", "the first stroke after the air is let on against the rating",
              check_first_stroke},
        Check{"compressor", "duty and starts of the compressor, the sequence repeated at its lockout",
              check_compressor},
        Check{"base", "bases that a stroke may tip", check_base},
        Check{"failure", "what each figure does when power or air is lost", check_failure},
        Check{"supply", "supplies over their rating at the worst moment and over the night", check_supply},
        Check{"supply_loop", "supplies that feed each other in a ring", check_supply_loop},
        Check{"joined_supplies", "circuits that join different supplies", check_joined_supplies},
        Check{"mains", "voltages that are work for a licensed electrician", check_mains},
        Check{"drop", "voltage lost on the way to a load", check_drop},
        Check{"wire_current", "wires that carry more than they bear", check_wire_current},
        Check{"fuse", "fuses against the wire behind them and what flows", check_fuse},
        Check{"contact_rating", "contacts and transistors against the kind of their load",
              check_contact_rating},
        Check{"suppression", "coils without suppression", check_suppression},
        Check{"coil_duty", "coils held longer than they are rated for", check_coil_duty},
        Check{"flashes", "lamps that flash too often in a second, alone and together", check_flashes},
    };
    return checks;
}

std::vector<Finding> check(const Show& show, const Sequence& sequence, const CheckSetting& setting) {
    AirMemo own;
    AirMemo& memo = setting.memo != nullptr ? *setting.memo : own;
    SequenceRun run = work_out(show, sequence, memo);
    add_bands(run, show, memo);
    return check(show, sequence, run, memo, setting);
}

std::vector<Finding> check(const Show& show, const Sequence& sequence, const SequenceRun& run, AirMemo& memo,
                           const CheckSetting& setting) {
    return check(show, sequence, run, air_facts(show, run.played(sequence), run, memo), memo, setting);
}

std::vector<Finding> check(const Show& show, const Sequence& sequence, const SequenceRun& run,
                           const AirFacts& facts, AirMemo& memo, const CheckSetting& setting) {
    const Sequence& played = run.played(sequence);
    const auto dwells = dwells_by_channel(run.schedule);
    const auto cue_faults = CueIndex(show, played, cue_spans(show, played)).faults();
    const CheckInput input{show,   played,       run,        memo.model(),  facts,          run.schedule,
                           dwells, run.commands, cue_faults, setting.units, setting.sounds, setting.stopped};
    std::vector<Finding> findings;
    for (const Check& one : all_checks()) {
        if (setting.stopped && setting.stopped()) {
            return {};
        }
        auto found = one.run(input);
        std::move(found.begin(), found.end(), std::back_inserter(findings));
    }
    if (setting.stopped && setting.stopped()) {
        return {};  // the last may have given up
    }
    put_in_order(findings);
    return findings;
}

std::vector<Finding> check_together(const Show& show, std::span<const PowerRun> runs,
                                    const std::optional<PowerTogether>& power,
                                    std::span<const EventTable> tables, UnitSystem units) {
    std::vector<Finding> findings = check_at_once(show, runs, power, units);
    join_findings(findings, check_table_room(show, tables));
    return findings;
}

ShowFindings check_whole(const Show& show, const CheckSetting& setting) {
    AirMemo own;
    AirMemo& memo = setting.memo != nullptr ? *setting.memo : own;
    ShowFindings findings;
    std::vector<SequencePower> powers;
    powers.reserve(show.sequences.size());  // the runs point into it
    std::vector<PowerRun> runs;
    std::vector<EventTable> tables;
    for (const Sequence& sequence : show.sequences) {
        SequenceRun run = work_out(show, sequence, memo);
        add_bands(run, show, memo);
        join_findings(findings.all, check(show, sequence, run, memo, setting));
        tables.push_back(tabulate(show, sequence, run.schedule));
        powers.push_back(std::move(run.power));
        runs.push_back({sequence.id, &powers.back()});
        if (setting.stopped && setting.stopped()) {
            return {};
        }
    }
    findings.power = power_together(show, runs);
    findings.together = check_together(show, runs, findings.power, tables, setting.units);
    join_findings(findings.all, findings.together);
    put_by_severity(findings.all);
    return findings;
}

std::vector<Finding> check(const Show& show, const CheckSetting& setting) {
    return check_whole(show, setting).all;
}

}  // namespace gasp
