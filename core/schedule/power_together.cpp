// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/power_together.hpp"

#include <algorithm>

namespace gasp {
namespace {

/// What the supplies give at rest, and with every load on.
struct Ends {
    std::vector<MicroAmps> rest;
    std::vector<MicroAmps> all;
    std::vector<MicroAmps> all_surging;
};

Ends ends_of(const PowerModel& model) {
    Ends ends{model.standing, model.standing, model.standing};
    for (const LoadDraw& draw : model.draws) {
        ends.rest[draw.supply] += draw.on_at_rest ? draw.steady : 0;
        ends.all[draw.supply] += draw.steady;
        ends.all_surging[draw.supply] += draw.steady + draw.surge;
    }
    return ends;
}

}  // namespace

RunPeaks peaks_of(SequenceId sequence, const SequencePower& power) {
    RunPeaks peaks{sequence, {}, {}};
    for (const CurrentCurve& curve : power.curves) {
        peaks.peak.push_back(curve.peak);
        peaks.steady.push_back(curve.steady_peak);
    }
    return peaks;
}

std::optional<PowerTogether> power_together(const Show& show, std::span<const RunPeaks> runs) {
    if (show.rig.sensor.sharing == TriggerSharing::in_turn) {
        return std::nullopt;
    }
    const Ends ends = ends_of(power_model(show.rig));
    PowerTogether together{{}, ends.rest, ends.rest};
    for (const RunPeaks& run : runs) {
        const Sequence* sequence = find(show, run.sequence);
        if (sequence == nullptr || sequence->kind != SequenceKind::triggered) {
            continue;
        }
        together.sequences.push_back(run.sequence);
        for (std::size_t supply = 0; supply < ends.rest.size(); ++supply) {
            together.peak[supply] += std::max<MicroAmps>(run.peak[supply] - ends.rest[supply], 0);
            together.steady[supply] += std::max<MicroAmps>(run.steady[supply] - ends.rest[supply], 0);
        }
    }
    if (together.sequences.size() < 2) {
        return std::nullopt;
    }
    for (std::size_t supply = 0; supply < ends.rest.size(); ++supply) {
        together.peak[supply] = std::min(together.peak[supply], ends.all_surging[supply]);
        together.steady[supply] = std::min(together.steady[supply], ends.all[supply]);
    }
    return together;
}

}  // namespace gasp
