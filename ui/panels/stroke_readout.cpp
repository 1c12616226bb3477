// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/stroke_readout.hpp"

#include "core/checks/band_wording.hpp"
#include "ui/editor/document.hpp"

#include <algorithm>
#include <optional>
#include <string>

namespace gasp {
namespace {

QString text(const std::string& words) {
    return QString::fromStdString(words);
}

/// Of the strokes out that reach their end, the one that ends hardest.
const StrokeBand* hardest(const AnalysisResult& result, ActuatorId actuator) {
    const StrokeBand* found = nullptr;
    const auto& strokes = result.air.run->strokes;
    for (std::size_t i = 0; i < std::min(strokes.size(), result.air.bands.size()); ++i) {
        const StrokeBand& band = result.air.bands[i];
        const bool out = strokes[i].command.actuator == actuator && strokes[i].command.way == Coil::out;
        if (out && (found == nullptr || band.end_energy_j.nominal > found->end_energy_j.nominal)) {
            found = &band;
        }
    }
    return found;
}

/// A figure of the sequence, and below it the same of the first stroke.
struct Pair {
    const StrokeBand* usual;
    const StrokeBand* first;
    UnitSystem units;

    [[nodiscard]] FigureLine line(const char* words, Quantity quantity, Band StrokeBand::*member,
                                  const Figure& rated) const {
        const auto print = [&](const StrokeBand& of) {
            return text(banded(quantity, of.*member, of.measured, units));
        };
        FigureLine line{words, {}, print(*usual), {}, {}};
        if (first != nullptr) {
            line.below = "First after air-on " + print(*first);
            if (rated && (first->*member).high > *rated) {
                line.severity = Severity::warn;
            }
        }
        return line;
    }

    [[nodiscard]] FigureLine strike() const {
        const auto print = [](const StrokeBand& of) {
            return of.strike_s() ? text(times(*of.strike_s(), of.measured)) : QString("none");
        };
        return {"Strike",
                {},
                print(*usual),
                {},
                first != nullptr ? "First after air-on " + print(*first) : QString()};
    }
};

}  // namespace

std::vector<FigureLine> stroke_lines(const AnalysisResult& result, const Actuator& actuator,
                                     UnitSystem units) {
    const StrokeBand* usual = result.air.run ? hardest(result, actuator.id) : nullptr;
    if (usual == nullptr) {
        return {};
    }
    const StrokeBand* first = nullptr;
    if (result.facts != nullptr) {
        const auto found = result.facts->firsts.find(actuator.id);
        first = found != result.facts->firsts.end() ? &found->second.band : nullptr;
    }
    const Pair pair{usual, first, units};
    return {pair.strike(),
            pair.line("Speed at the stop", Quantity::speed, &StrokeBand::end_speed_m_s,
                      actuator.cylinder.rated_speed_m_s),
            pair.line("Energy at the stop", Quantity::energy, &StrokeBand::end_energy_j,
                      actuator.cylinder.rated_energy_j)};
}

StrokeReadout::StrokeReadout(Document& document, Analysis& analysis, const Settings& settings,
                             ActuatorId actuator, QWidget* parent)
    : FigureList("As simulated, out", "This sequence does not send it out, or it lacks a figure.", parent),
      document_(document),
      analysis_(analysis),
      settings_(settings),
      actuator_(actuator) {
    connect(&analysis_, &Analysis::ready, this, &StrokeReadout::refresh);
    connect(&settings_, &Settings::units_changed, this, &StrokeReadout::refresh);
    refresh();
}

void StrokeReadout::refresh() {
    const Actuator* actuator = gasp::find(document_.show(), actuator_);
    const auto result = analysis_.result();
    // Until bands are there what is shown stays.
    const bool ready = actuator != nullptr && result->sequence == document_.sequence_id() &&
                       (result->facts != nullptr || lines().empty());
    if (ready) {
        set(stroke_lines(*result, *actuator, settings_.units()));
    }
}

}  // namespace gasp
