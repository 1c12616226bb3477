// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/strikes.hpp"

#include "core/schedule/cue_strike.hpp"
#include "core/show/validity.hpp"
#include "core/units/rounded.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/lane_painter.hpp"

#include <QStringList>

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr double handle_half_px = 6.0;
constexpr double handle_high_px = 10.0;
constexpr double least_lead_px = 5.0;  // else it would lie on the cue's own edge

Micros micros(double seconds) {
    return Micros{std::llround(seconds * 1e6)};
}

void take_stroke(SeenStrike& seen, const Stroke& stroke, const StrokeBand* band) {
    seen.simulated = true;
    seen.lead = micros(*stroke.strike_s());
    seen.soonest = seen.lead;
    seen.latest = seen.lead;
    seen.receiver_kpa_gauge = stroke.receiver_at_strike_kpa;
    seen.working_kpa_gauge = stroke.working_at_strike_kpa;
    if (band != nullptr && band->strike_s()) {
        seen.measured = band->measured;
        seen.soonest = micros(band->strike_s()->low);
        seen.latest = band->arrives && std::isfinite(band->strike_s()->high)
                          ? std::optional(micros(band->strike_s()->high))
                          : std::nullopt;
    }
}

}  // namespace

std::optional<SeenStrike> seen_strike(const Scene& scene, CueId id) {
    const Show& show = scene.document().show();
    const Cue* cue = find(scene.document().sequence(), id);
    const PlacedCue* placed = scene.cues().find(id);
    const Channel* channel = cue != nullptr ? find(show, cue->channel) : nullptr;
    const auto way = channel != nullptr ? way_of(show, *channel) : std::nullopt;
    const auto result = scene.result();
    if (!way || placed == nullptr || result == nullptr) {
        return {};
    }
    SeenStrike seen;
    seen.start = placed->begin;
    const PlacedStrike* by_strike = cue->strikes ? result->strike_of(id) : nullptr;
    const MotionPreview* ahead = scene.ahead_of(*channel->actuator);
    const std::span<const Stroke> strokes = ahead != nullptr ? std::span<const Stroke>(ahead->strokes)
                                            : result->air.run
                                                ? std::span<const Stroke>(result->air.run->strokes)
                                                : std::span<const Stroke>();
    const bool as_placed = ahead == nullptr && by_strike != nullptr;
    const auto stroke =
        stroke_near(strokes, *channel->actuator, *way, as_placed ? by_strike->start : seen.start);
    if (stroke && strokes[*stroke].strike_s()) {
        const bool banded = ahead == nullptr && *stroke < result->air.bands.size();
        take_stroke(seen, strokes[*stroke], banded ? &result->air.bands[*stroke] : nullptr);
        seen.ahead = ahead != nullptr;
    } else if (by_strike != nullptr && by_strike->lead) {
        seen.lead = seen.soonest = *by_strike->lead;
        seen.latest = seen.lead;
    } else {
        return {};
    }
    if (by_strike != nullptr && ahead == nullptr) {
        seen.fault = by_strike->fault;
        seen.earliest = by_strike->earliest;
        // The schedule's lead is what the cue was placed by.
        seen.lead = by_strike->lead.value_or(seen.lead);
    }
    return seen;
}

QRectF handle_of(const Scene& scene, CueId id) {
    const Cue* cue = find(scene.document().sequence(), id);
    const Lane* lane = cue != nullptr ? scene.lanes().of(cue->channel) : nullptr;
    const auto strike = lane != nullptr ? seen_strike(scene, id) : std::nullopt;
    if (!strike || scene.view().px_of(strike->lead) < least_lead_px) {
        return {};
    }
    const double top = scene.top_of(*lane) + bands_of(lane->height).cue_top;
    return {scene.view().x_of(strike->time()) - handle_half_px, top, 2 * handle_half_px, handle_high_px};
}

std::optional<Micros> first_after_air_on(const Scene& scene, const Cue& cue) {
    const Show& show = scene.document().show();
    const Channel* channel = find(show, cue.channel);
    const auto result = scene.result();
    if (channel == nullptr || way_of(show, *channel) != Coil::out || !result || result->facts == nullptr) {
        return {};
    }
    const auto first = result->facts->firsts.find(*channel->actuator);
    const bool strikes = first != result->facts->firsts.end() && first->second.stroke.strike_s();
    return strikes ? std::optional(micros(*first->second.stroke.strike_s())) : std::nullopt;
}

QString strike_text(const Scene& scene, const Cue& cue, const SeenStrike& strike) {
    // A simulation is not worth more than whole milliseconds.
    const auto duration = [](Micros time) {
        return QString::fromStdString(print_duration(from_ms(std::round(to_ms(time)))));
    };
    const auto pressure = [&scene](double kpa) {
        return QString::fromStdString(print_rounded(Quantity::gauge_pressure, kpa, scene.units()));
    };
    QStringList lines;
    lines << QStringLiteral("%1 at %2, %3 after the valve")
                 .arg(cue.strikes ? "Placed by its strike" : "Strikes",
                      QString::fromStdString(print_time(strike.time())), duration(strike.lead));
    if (strike.ahead) {
        lines << "being worked out";
    } else if (strike.simulated) {
        const QString sure = strike.measured ? QString() : QString(" (not measured)");
        lines << (strike.latest ? QStringLiteral("between %1 and %2 after it%3")
                                      .arg(duration(strike.soonest), duration(*strike.latest), sure)
                                : QStringLiteral("from %1 after it, or not at all%2")
                                      .arg(duration(strike.soonest), sure));
        lines << QStringLiteral("receiver %1, working %2 at the strike")
                     .arg(pressure(strike.receiver_kpa_gauge), pressure(strike.working_kpa_gauge));
    } else {
        lines << "by the stated stroke time";
    }
    if (const auto first = first_after_air_on(scene, cue)) {
        lines << QStringLiteral("first after air-on %1 after it, apart from this run").arg(duration(*first));
    }
    if (strike.fault != StrikeFault::none && strike.earliest) {
        lines << QStringLiteral("cannot strike before %1")
                     .arg(QString::fromStdString(print_time(*strike.earliest)));
    }
    if (cue.freedom > Micros{0}) {
        lines << QStringLiteral("may be staggered by %1 either way").arg(duration(cue.freedom));
    }
    return lines.join('\n');
}

Edit place_strike(const Show& show, SequenceId sequence_id, CueId id, Micros time,
                  std::optional<MarkId> mark_id) {
    const Sequence* sequence = find(show, sequence_id);
    const Cue* cue = sequence != nullptr ? find(*sequence, id) : nullptr;
    if (cue == nullptr) {
        return {};
    }
    Cue after = *cue;
    after.strikes = true;
    if (mark_id && find(*sequence, *mark_id) != nullptr) {
        after.mark = mark_id;
    }
    const Mark* mark = after.mark ? find(*sequence, *after.mark) : nullptr;
    const Micros to = std::clamp(time, Micros{0}, longest_sequence - cue->length);
    after.at = mark != nullptr ? to - mark->time : to;
    if (after == *cue) {
        return {};
    }
    return {"place strike", {InSequence<Cue>{sequence_id, {{*cue, std::move(after), 0, 0}}}}, 0};
}

}  // namespace gasp
