// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/band_wording.hpp"

#include "core/units/rounded.hpp"

#include <cmath>

namespace gasp {
namespace {

std::string whole_ms(double seconds) {
    return print_duration(from_ms(std::round(seconds * 1e3)));
}

template <class Print>
std::string range(const Band& band, bool measured, Print print) {
    const std::string figure = print(band.nominal);
    const std::string low = print(band.low);
    const std::string high = std::isfinite(band.high) ? print(band.high) : "never";
    std::string inner = low == high ? std::string() : low + " to " + high;
    if (!measured) {
        inner += inner.empty() ? "not measured" : ", not measured";
    }
    return inner.empty() ? figure : figure + " (" + inner + ")";
}

}  // namespace

std::string times(const Band& seconds, bool measured) {
    return range(seconds, measured, whole_ms);
}

std::string banded(Quantity quantity, const Band& band, bool measured, UnitSystem units) {
    return range(band, measured, [&](double value) { return print_rounded(quantity, value, units); });
}

Finding about_stroke(const CheckInput& input, const Stroke& stroke, std::string_view check,
                     Severity severity) {
    Finding finding{check, severity, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.place.time = stroke.command.time;
    finding.place.actuator = stroke.command.actuator;
    if (const Channel* channel = channel_of(input.show, stroke.command.actuator, Coil::out)) {
        finding.place.channel = channel->id;
    }
    return finding;
}

}  // namespace gasp
