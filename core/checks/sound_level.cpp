// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/sound_shelf.hpp"
#include "core/checks/wording.hpp"

#include <fmt/format.h>

#include <cmath>

namespace gasp {

std::vector<Finding> check_sound_level(const CheckInput& input) {
    if (input.sounds == nullptr || input.sequence.clips.empty()) {
        return {};
    }
    const MixReport& mix = input.sounds->mix(input.sequence, input.stopped);
    if (mix.clipped_samples == 0) {
        return {};
    }
    Finding finding{"sound_level", Severity::warn, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    const double above_db = std::ceil(*mix.peak_dbfs * 10.0) / 10.0;
    finding.what = "The mix of " + gasp::quoted(input.sequence.name) + " clips";
    finding.figure = fmt::format("peak {:.1f} dB above full scale", above_db);
    finding.limit = "at most 0 dBFS";
    finding.remedy = fmt::format("Lower the gain of its clips by {:.1f} dB", above_db);
    return {std::move(finding)};
}

}  // namespace gasp
