// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/night_sequences.hpp"

#include "core/schedule/schedule.hpp"

namespace gasp {

std::vector<NightSequence> night_sequences(const Show& show, std::span<const Sequence* const> sequences) {
    std::vector<NightSequence> all;
    for (const Sequence* sequence : sequences) {
        const Schedule schedule = resolve(show, *sequence);
        all.push_back({sequence->id, sequence->kind, schedule.length, stroke_commands(show, schedule),
                       sequence->trigger_after_s.value_or(0.0), show.rig.sensor.lockout_s.value_or(0.0),
                       show.rig.sensor.sharing == TriggerSharing::in_turn});
    }
    return all;
}

std::vector<NightSequence> night_sequences(const Show& show) {
    std::vector<const Sequence*> all;
    for (const Sequence& sequence : show.sequences) {
        all.push_back(&sequence);
    }
    return night_sequences(show, all);
}

}  // namespace gasp
