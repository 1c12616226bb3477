// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/return_time.hpp"

#include "core/air/run/travel.hpp"
#include "core/checks/wording.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

std::optional<ReturnTime> return_time(const CheckInput& input, const Actuator& actuator) {
    const Coil home = rests_out(input.show, actuator) ? Coil::out : Coil::back;
    double slowest = 0.0;
    bool measured = false;
    const auto& run = input.facts.played_on;
    for (std::size_t i = 0; run && i < run->strokes.size(); ++i) {
        const Stroke& stroke = run->strokes[i];
        if (stroke.command.actuator == actuator.id && stroke.command.way == home && stroke.reached_s[3]) {
            const bool banded = i < input.facts.bands_on.size() && input.facts.bands_on[i].reached_s[3];
            const double high = banded ? input.facts.bands_on[i].reached_s[3]->high : *stroke.reached_s[3];
            slowest = std::max(slowest, std::isfinite(high) ? high : *stroke.reached_s[3]);
            measured = banded && input.facts.bands_on[i].measured;
        }
    }
    const auto alone = input.facts.alone.find({actuator.id, home});
    if (slowest == 0.0 && alone != input.facts.alone.end()) {
        slowest = alone->second.latest_s.value_or(alone->second.arrival_s.value_or(0.0));
        measured = alone->second.measured;
    }
    if (slowest > 0.0) {
        return ReturnTime{from_ms(std::ceil(slowest * 1e3)), true, measured};
    }
    const Figure& stated = home == Coil::back ? actuator.motion.back_ms : actuator.motion.out_ms;
    if (!stated) {
        return {};
    }
    return ReturnTime{from_ms(*stated), false, false};
}

Finding no_return_time(std::string_view check, const Actuator& actuator) {
    Place place;
    place.actuator = actuator.id;
    place.field = "motion.back_ms";
    return not_checked(check, "time back of " + quoted(actuator.name), place);
}

std::string how_known(const ReturnTime& time) {
    return time.simulated && !time.measured ? " (not measured)" : "";
}

}  // namespace gasp
