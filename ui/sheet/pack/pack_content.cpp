// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/pack_content.hpp"

#include "core/air/budget/band.hpp"
#include "core/checks/check.hpp"
#include "core/checks/sound_shelf.hpp"
#include "core/file/show_file.hpp"
#include "core/schedule/night_sequences.hpp"
#include "core/table/event_table.hpp"
#include "core/units/fnv.hpp"
#include "ui/sheet/missing_letters.hpp"
#include "ui/sheet/picture_peaks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace gasp {

namespace {

using Progress = std::function<void(double)>;

/// Beyond that a forecast takes longer than anybody waits for a page.
constexpr std::size_t most_strokes = 20'000;
constexpr double share_of_sequences = 0.5;

void tell(const Progress& progress, double share) {
    if (progress) {
        progress(share);
    }
}

void forecast(PackContent& content, const PackWish& wish, const std::atomic<bool>& cancel,
              const Progress& progress) {
    const Show& show = content.show;
    if (std::ranges::find(show.sequences, SequenceKind::triggered, &Sequence::kind) == show.sequences.end()) {
        content.no_night = "Not forecast: no sequence is started by a trigger.";
        return;
    }
    NightTerms terms = night_terms(show.night);
    terms.runs = std::min(terms.runs, wish.nights);
    NightWork work;
    work.most_strokes = most_strokes;
    Result<NightForecast> night = forecast_night(
        show, night_sequences(show), terms, work, cancel,
        [&](double share) { tell(progress, share_of_sequences + (1.0 - share_of_sequences) * share); });
    if (!night) {
        content.no_night = "Not forecast: " + night.error().text();
    } else if (night->nights.empty()) {
        content.no_night = "Not forecast: a night of this show takes too long to play here.";
    } else {
        content.night = std::move(*night);
    }
}

PackSequence worked_out(const PackContent& content, const Sequence& sequence, const PackWish& wish,
                        AirMemo& memo, SoundShelf& sounds, const std::atomic<bool>& cancel,
                        std::vector<std::string>& messages) {
    PackSequence one;
    one.id = sequence.id;
    one.run = work_out(content.show, sequence, memo);
    add_bands(one.run, content.show, memo);
    one.findings = check(content.show, sequence, one.run, memo,
                         {.units = wish.units, .sounds = &sounds, .stopped = [&] { return cancel.load(); }});
    one.peaks = peaks_of(sequence, wish.folder, cancel, messages);
    return one;
}

std::vector<EventTable> tables_of(const PackContent& content) {
    std::vector<EventTable> tables;
    for (const PackSequence& one : content.sequences) {
        tables.push_back(tabulate(content.show, *find(content.show, one.id), one.run.schedule));
    }
    return tables;
}

}  // namespace

std::vector<PowerRun> power_runs(const std::vector<PackSequence>& sequences) {
    std::vector<PowerRun> runs;
    for (const PackSequence& one : sequences) {
        runs.push_back({one.id, &one.run.power});
    }
    return runs;
}

std::string revision_of(const Show& show) {
    Fnv1a hash;
    hash.add(write_show(show));
    return fmt::format("{:08x}", static_cast<std::uint32_t>(hash.value() ^ (hash.value() >> 32U)));
}

std::shared_ptr<const PackContent> work_out_pack(Show show, const PackWish& wish,
                                                 const std::atomic<bool>& cancel, const Progress& progress) {
    auto content = std::make_shared<PackContent>();
    content->show = std::move(show);
    content->units = wish.units;
    content->revision = revision_of(content->show);
    content->model = fitted_air_model(content->show);
    AirMemo memo;
    SoundShelf sounds(wish.folder);
    double done = 0.0;
    for (const Sequence& sequence : content->show.sequences) {
        if (!wish.sequence || *wish.sequence == sequence.id) {
            PackSequence one = worked_out(*content, sequence, wish, memo, sounds, cancel, content->messages);
            join_findings(content->findings, one.findings);
            content->sequences.push_back(std::move(one));
        }
        if (cancel) {
            return nullptr;
        }
        tell(progress, share_of_sequences * ++done / static_cast<double>(content->show.sequences.size()));
    }
    const std::vector<PowerRun> runs = power_runs(content->sequences);
    content->together = power_together(content->show, runs);
    join_findings(content->findings, check_together(content->show, runs, content->together,
                                                    tables_of(*content), content->units));
    put_by_severity(content->findings);
    if (const std::optional<std::string> missing = letters_missing(content->show)) {
        content->messages.push_back(*missing);
    }
    forecast(*content, wish, cancel, progress);
    if (cancel) {
        return nullptr;
    }
    return content;
}

}  // namespace gasp
