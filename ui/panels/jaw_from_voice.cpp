// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/jaw_from_voice.hpp"

#include "core/air/fitting/fitting.hpp"
#include "core/schedule/jaw_opening.hpp"
#include "core/show/edits.hpp"

#include <algorithm>
#include <utility>
#include <vector>

namespace gasp {

namespace {

double larger(const Figure& one, const Figure& other, double least) {
    return std::max({one.value_or(0.0), other.value_or(0.0), least});
}

/// The options with what this channel and its valve need.
JawOptions options_for(const Show& show, const Channel& channel, JawOptions options) {
    const Actuator* actuator =
        channel.kind == ChannelKind::valve && channel.actuator ? find(show, *channel.actuator) : nullptr;
    const Valve valve = actuator != nullptr ? actuator->valve : Valve{};
    options.shortest_open_ms = larger(channel.shortest_on_ms, valve.shortest_on_ms, options.shortest_open_ms);
    options.shortest_shut_ms =
        larger(channel.shortest_off_ms, valve.shortest_off_ms, options.shortest_shut_ms);
    if (actuator != nullptr) {
        if (const Result<StrokeTimes> times = stroke_times(show, actuator->id)) {
            options.open_lead_ms = (times->out_delay_ms + times->out_ms) / 2.0;
            options.close_lead_ms = (times->back_delay_ms + times->back_ms) / 2.0;
        }
    }
    return options;
}

using Stretches = std::vector<std::pair<Micros, Micros>>;

/// Where the clip plays them, on the ruler.
void append_played(const SoundClip& clip, const std::vector<JawStretch>& driven, Stretches& stretches) {
    const Micros shift = clip.start - clip.from;
    for (const JawStretch& stretch : driven) {
        const Micros begin = std::max(stretch.begin + shift, clip.start);
        const Micros end = std::min(stretch.end + shift, clip.start + clip.length);
        if (begin < end) {
            stretches.emplace_back(begin, end);
        }
    }
}

/// Clips may sound at once: what overlaps or follows too closely is one.
Stretches joined(Stretches stretches, Micros shortest_gap) {
    std::ranges::sort(stretches);
    Stretches joined;
    for (const auto& stretch : stretches) {
        if (!joined.empty() && stretch.first < joined.back().second + shortest_gap) {
            joined.back().second = std::max(joined.back().second, stretch.second);
        } else {
            joined.push_back(stretch);
        }
    }
    return joined;
}

}  // namespace

Result<JawCues> jaw_from_voice(const Show& show, const Sequence& sequence, ChannelId id, Moments& moments) {
    const Channel* channel = find(show, id);
    if (channel == nullptr) {
        return fail("the channel is gone", {}, "Select the lane of the jaw");
    }
    const JawOptions options = options_for(show, *channel, moments.options().jaw);
    Stretches stretches;
    for (const SoundClip& clip : sequence.clips) {
        if (const Heard* heard = moments.heard(clip)) {
            const Result<std::vector<JawStretch>> driven = jaw_stretches(heard->envelope, options);
            if (!driven) {
                return tl::unexpected(driven.error());
            }
            append_played(clip, *driven, stretches);
        }
    }
    if (stretches.empty()) {
        return fail("nothing is heard that would open a jaw", {},
                    "Put a voice on the sequence, or wait until it was listened to");
    }
    stretches = joined(std::move(stretches), from_ms(options.shortest_shut_ms));
    Edit edit = set_voice_cues(show, sequence.id, id, stretches);
    const std::size_t put = edit.ids_taken;  // none where a cue made by hand stands
    Show with_cues = show;
    apply(edit, with_cues);
    const Sequence& played = *find(with_cues, sequence.id);
    return JawCues{std::move(edit), put, score_of_jaw(with_cues, played, id, moments).value_or(JawScore{})};
}

std::optional<JawScore> score_of_jaw(const Show& show, const Sequence& sequence, ChannelId id,
                                     Moments& moments) {
    const Channel* channel = find(show, id);
    if (channel == nullptr ||
        std::ranges::none_of(sequence.cues, [id](const Cue& cue) { return cue.channel == id; })) {
        return std::nullopt;
    }
    std::vector<const Envelope*> envelopes;
    for (const SoundClip& clip : sequence.clips) {
        const Heard* heard = moments.heard(clip);
        envelopes.push_back(heard != nullptr ? &heard->envelope : nullptr);
    }
    if (std::ranges::count(envelopes, nullptr) == std::ssize(envelopes)) {
        return std::nullopt;
    }
    const Envelope heard = heard_along(sequence, envelopes);
    const JawOptions& options = moments.options().jaw;
    AirMemo memo;
    const JawLeads leads{from_ms(options.open_lead_ms), from_ms(options.close_lead_ms)};
    const std::vector<float> opening =
        jaw_opening(show, work_out(show, sequence, memo), id, leads, Envelope::step, heard.dbfs.size());
    return jaw_score(heard, opening, options.open_db);
}

}  // namespace gasp
