// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/travel.hpp"
#include "core/checks/all_checks.hpp"
#include "core/checks/return_time.hpp"
#include "core/checks/wording.hpp"
#include "core/units/quantity.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

/// The last time an actuator is sent to where it rests.
std::optional<Micros> last_sent_back(const CheckInput& input, ActuatorId actuator) {
    std::optional<Micros> last;
    const Coil home = rests_out(input.show, *find(input.show, actuator)) ? Coil::out : Coil::back;
    for (const StrokeCommand& command : input.strokes) {
        if (command.actuator == actuator && command.way == home) {
            last = command.time;
        }
    }
    return last;
}

Finding too_short(const CheckInput& input, Micros lockout, Micros ready, const Actuator* last,
                  const std::string& known) {
    Finding finding{"lockout", Severity::stop, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.place.time = lockout;
    finding.place.field = "sensor.lockout_s";
    finding.what = "The lockout of " + quoted(input.sequence.name) + " ends before " +
                   (last != nullptr ? quoted(last->name) + " is back" : std::string("the run does"));
    finding.figure = print_duration(lockout);
    finding.limit = at_least(ready) + known;
    // Tenths of a second are what a person sets; rounded up, so that the remedy passes.
    const double tenths = std::ceil(to_s(ready) * 10.0) / 10.0;
    finding.remedy = "Set the lockout to " + print_quantity(Quantity::time_s, tenths, UnitSystem::metric);
    return finding;
}

}  // namespace

std::vector<Finding> check_lockout(const CheckInput& input) {
    if (input.sequence.kind != SequenceKind::triggered) {
        return {};
    }
    std::vector<Finding> findings;
    Micros ready = end_of_sound(input.sequence);
    if (!input.schedule.events.empty()) {
        ready = std::max(ready, input.schedule.events.back().time);
    }
    const Actuator* last = nullptr;
    std::string known;
    for_each_moved(input, [&](const Actuator& actuator) {
        const auto sent = last_sent_back(input, actuator.id);
        const auto back = return_time(input, actuator);
        if (sent && !back) {
            findings.push_back(no_return_time("lockout", actuator));
        } else if (sent && *sent + back->time > ready) {
            ready = *sent + back->time;
            last = &actuator;
            known = how_known(*back);
        }
    });
    const Figure& lockout_s = input.show.rig.sensor.lockout_s;
    if (ready == Micros{0}) {
        return findings;  // nothing runs
    }
    if (!lockout_s) {
        Place place;
        place.field = "sensor.lockout_s";
        findings.push_back(not_checked("lockout", "lockout of the sensor", place));
    } else if (const Micros lockout = from_ms(*lockout_s * 1000.0); lockout < ready) {
        findings.push_back(too_short(input, lockout, ready, last, known));
    }
    return findings;
}

}  // namespace gasp
