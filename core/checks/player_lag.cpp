// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// The name of this file is the check's; what hears a lag is core/sound/player_lag.hpp.
#include "core/checks/all_checks.hpp"
#include "core/checks/sound_shelf.hpp"
#include "core/checks/wording.hpp"
#include "core/sound/mix_file.hpp"

#include <chrono>

namespace gasp {

std::vector<Finding> check_player_lag(const CheckInput& input) {
    if (input.sequence.clips.empty()) {
        return {};
    }
    if (!input.show.rig.speaker.player_lag_ms) {
        Place place;
        place.field = "speaker.player_lag_ms";
        return {not_checked("player_lag", "lag of the sound's player", std::move(place))};
    }
    const Micros lag = player_lag(input.show.rig.speaker);
    if (input.sounds == nullptr || lag == Micros{0}) {
        return {};
    }
    const MixReport& mix = input.sounds->mix(input.sequence, input.stopped);
    const Micros lost = lost_to_lag(mix, lag);
    if (lost == Micros{0}) {
        return {};
    }
    Finding finding{"player_lag", Severity::warn, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.place.time = *mix.first_sound;
    finding.place.field = "speaker.player_lag_ms";
    finding.what = "The player starts too late for the first sound of " + gasp::quoted(input.sequence.name);
    finding.figure = print_duration(*mix.first_sound);
    finding.limit = at_least(lag);
    finding.remedy = "Begin all sound and cues later by " +
                     print_duration(std::chrono::ceil<std::chrono::milliseconds>(lost));
    return {std::move(finding)};
}

}  // namespace gasp
