// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/wording.hpp"

#include "core/units/rounded.hpp"

#include <cctype>
#include <cmath>
#include <utility>

namespace gasp {

std::string quoted(std::string_view name) {
    return "\"" + std::string(name) + "\"";
}

std::string listed(std::span<const std::string> names) {
    constexpr std::size_t most = 3;
    if (names.size() > most) {
        return names[0] + ", " + names[1] + " and " + std::to_string(names.size() - 2) + " more";
    }
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
    }
    return text;
}

std::string named(const Cue& cue) {
    return "cue " + (cue.name.empty() ? std::to_string(cue.id.value) : quoted(cue.name));
}

std::string capital(std::string sentence) {
    if (!sentence.empty()) {
        sentence.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(sentence.front())));
    }
    return sentence;
}

void set_pressures(Finding& finding, double figure, std::string_view relation, double limit,
                   UnitSystem units) {
    auto [found, held_against] = print_apart(Quantity::gauge_pressure, figure, limit, units);
    finding.figure = std::move(found);
    finding.limit = std::string(relation) + " " + held_against;
}

std::string rounded_down_hertz(double rate) {
    const double step = std::pow(10.0, std::floor(std::log10(rate)) - 2.0);
    return print_quantity(Quantity::frequency, std::floor(rate / step) * step, UnitSystem::metric);
}

std::string at_least(Micros time) {
    return "at least " + print_duration(time);
}

Finding not_checked(std::string_view check, std::string_view label, Place place) {
    Finding finding{check, Severity::note, true, std::move(place), {}, {}, {}, {}};
    finding.what = "Not checked: no " + std::string(label);
    finding.remedy = "Fill in the " + std::string(label);
    return finding;
}

}  // namespace gasp
