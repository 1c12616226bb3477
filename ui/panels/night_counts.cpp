// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/night_counts.hpp"

namespace gasp {
namespace {

FigureLine counted(const QString& words, std::uint32_t count, const Spread* forecast) {
    FigureLine line{words, QString::number(count), {}, {}};
    if (forecast != nullptr) {
        const auto whole = [](double value) { return QString::number(value, 'f', 0); };
        line.beside = QStringLiteral("forecast %1 to %2").arg(whole(forecast->p5), whole(forecast->p95));
        if (count > forecast->p95 + 0.5) {
            line.severity = Severity::note;
        }
    }
    return line;
}

}  // namespace

std::vector<FigureLine> night_counts(const BoardStatus& status, const NightForecast* forecast) {
    const bool played = forecast != nullptr && !forecast->nights.empty();
    const auto expected = [&](Spread NightForecast::*spread) {
        return played ? &(forecast->*spread) : nullptr;
    };
    std::vector<FigureLine> lines{
        counted("Groups", status.triggers + status.refusals, expected(&NightForecast::groups)),
        counted("Scares", status.triggers, expected(&NightForecast::delivered)),
        counted("Refused", status.refusals, expected(&NightForecast::refused)),
        counted("Faults", status.faults, nullptr),
    };
    if (status.faults > 0) {
        lines.back().beside = "see its log";
        lines.back().severity = Severity::warn;
    }
    lines.front().below =
        played ? QStringLiteral("The forecast is of a whole night of %1 h.").arg(forecast->terms.hours)
               : QStringLiteral("Run the forecast (F5) to see what it expects.");
    return lines;
}

}  // namespace gasp
