// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/cue_strike.hpp"
#include "core/show/fields.hpp"
#include "ui/sheet/pack/pack_parts.hpp"
#include "ui/sheet/pack/pack_words.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace gasp {

namespace {

QString pattern_of(const Cue& cue) {
    return cue.flashes ? QStringLiteral("%1 Hz, %2 %")
                             .arg(cue.flashes->rate_hz, 0, 'g', 3)
                             .arg(cue.flashes->duty_percent, 0, 'g', 3)
                       : QStringLiteral("steady");
}

/// The mark a cue hangs on, and how far from it its start or its strike is.
QString mark_of(const Sequence& sequence, const Cue& cue) {
    const Mark* mark = cue.mark ? find(sequence, *cue.mark) : nullptr;
    if (mark == nullptr) {
        return {};
    }
    QString text = text_of(mark->name);
    if (cue.at != Micros{0}) {
        text += QStringLiteral(" %1%2").arg(cue.at > Micros{0} ? "+" : QString(QChar(0x2212)),
                                            span_text(std::chrono::abs(cue.at)));
    }
    return text;
}

std::vector<const Cue*> in_order(const Sequence& sequence) {
    std::vector<const Cue*> cues;
    cues.reserve(sequence.cues.size());
    for (const Cue& cue : sequence.cues) {
        cues.push_back(&cue);
    }
    std::ranges::sort(cues, {},
                      [&](const Cue* cue) { return std::tuple(start_of(sequence, *cue), cue->id); });
    return cues;
}

QString facts_of(const Show& show, const Sequence& sequence) {
    const std::string_view kind = sequence_kind_labels()[static_cast<std::size_t>(sequence.kind)];
    QString text = text_of(kind) + ", " + span_text(sequence.length) + " long";
    if (sequence.kind == SequenceKind::triggered) {
        text += show.rig.sensor.lockout_s
                    ? QStringLiteral(", further triggers ignored for %1 s from its start")
                          .arg(*show.rig.sensor.lockout_s, 0, 'g', 6)
                    : QStringLiteral(", lockout not given");
    }
    return text + '.';
}

void add_sounds(PackFlow& flow, const Sequence& sequence) {
    for (const SoundClip& clip : sequence.clips) {
        flow.paragraph(QStringLiteral("Sound %1 starts at %2, %3 long.")
                           .arg(text_of(clip.file), time_text(clip.start), span_text(clip.length)));
    }
}

/// To the millisecond, which is finer than any valve.
Micros whole_ms(Micros time) {
    return from_ms(std::round(to_ms(time)));
}

PackRow row_of(const Show& show, const Sequence& played, const Sequence& written, const SequenceRun& run,
               const Cue& cue, std::size_t number) {
    const Channel* channel = find(show, cue.channel);
    const Cue* as_written = find(written, cue.id);
    const Micros start = start_of(played, cue);
    const std::optional<Micros> lead = lead_of(show, played, run, cue);
    return {QString::number(number),
            time_text(start),
            {name_of(cue), cue.name.empty()},
            channel != nullptr ? text_of(channel->name) : QString(),
            span_text(cue.length),
            pattern_of(cue),
            as_written != nullptr ? mark_of(written, *as_written) : QString(),
            lead ? span_text(whole_ms(*lead)) : QString(),
            lead ? time_text(start + *lead) : QString()};
}

}  // namespace

void add_cue_sheet(PackFlow& flow, const PackSource& source, const PackSequence& one) {
    const Show& show = source.content.show;
    const Sequence& written = *find(show, one.id);
    const Sequence& played = one.run.played(written);
    flow.section(QStringLiteral("Cue sheet: %1").arg(text_of(written.name)));
    flow.heading(text_of(written.name));
    flow.paragraph(facts_of(show, written));
    add_sounds(flow, written);
    if (played.cues.empty()) {
        flow.paragraph(QStringLiteral("It has no cues."));
        return;
    }
    flow.paragraph(
        QStringLiteral("Times count from the start of the sequence, in min:s. A cue begins when its "
                       "output is driven; the strike is when the figure has reached 95 % of its "
                       "travel, the lead is the time between."),
        {PrintSize::small, false, true});
    std::vector<PackRow> rows;
    rows.reserve(played.cues.size());
    for (const Cue* cue : in_order(played)) {
        rows.push_back(row_of(show, played, written, one.run, *cue, rows.size() + 1));
    }
    flow.table({{"No.", 66, 0, true},
                {"Time", 150, 0, true, true},
                {"Cue", 0, 4.2, false, true},
                {"Channel", 0, 2.7},
                {"Length", 192, 0, true},
                {"Pattern", 0, 1.7},
                {"Mark", 0, 2.0},
                {"Lead", 120, 0, true},
                {"Strike", 150, 0, true}},
               rows);
}

}  // namespace gasp
