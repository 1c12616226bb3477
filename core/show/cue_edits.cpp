// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edit_building.hpp"

#include <unordered_map>

namespace gasp {
namespace {

constexpr Micros shortest_cue{1000};

/// One step on some cues of a sequence, by hand, the same `change` to each: void(const Sequence&, Cue&).
template <class F>
Edit edit_cues(const Show& show, SequenceId id, std::span<const CueId> ids, std::string_view verb,
               F&& change) {
    Edit edit;
    const Sequence* sequence = find(show, id);
    if (!sequence) {
        return edit;
    }
    std::vector<Exchange<Cue>> exchanges;
    exchanges.reserve(ids.size());
    for (const CueId cue_id : in_order(ids)) {
        if (const Cue* cue = find(*sequence, cue_id)) {
            exchange(exchanges, *cue, [&](Cue& after) {
                change(*sequence, after);
                after.from_voice = after.from_voice && after == *cue;
            });
        }
    }
    edit.sentence = counted(verb, "cue", exchanges.size());
    add_change(edit, id, std::move(exchanges));
    return edit;
}

/// Puts a cue's start on the ruler where `start` says, keeping its tie.
void place_at(const Sequence& sequence, Cue& cue, Micros start) {
    cue.at += start - start_of(sequence, cue);
}

/// The cue with its ties, times and flashes made fit for the sequence.
Cue fitted(const Sequence& sequence, Cue cue) {
    cue.at = std::clamp(cue.at, -longest_sequence, longest_sequence);
    if (cue.mark && !find(sequence, *cue.mark)) {
        cue.mark.reset();
    }
    const Micros start = std::clamp(start_of(sequence, cue), Micros{0}, longest_sequence - shortest_cue);
    place_at(sequence, cue, start);
    cue.length = std::clamp(cue.length, shortest_cue, longest_sequence - start);
    if (cue.flashes && !flashes_allowed(*cue.flashes)) {
        cue.flashes.reset();
    }
    cue.freedom = std::clamp(cue.freedom, Micros{0}, most_freedom);
    return cue;
}

}  // namespace

Edit add_cues(const Show& show, SequenceId id, std::vector<Cue> cues) {
    Edit edit;
    const Sequence* sequence = find(show, id);
    if (!sequence || !ids_left(show, cues.size())) {
        return edit;
    }
    std::vector<Exchange<Cue>> exchanges;
    exchanges.reserve(cues.size());
    for (Cue& cue : cues) {
        if (find(show, cue.channel)) {
            cue.id = CueId{show.next_id + edit.ids_taken++};
            exchanges.push_back({std::nullopt, fitted(*sequence, std::move(cue))});
        }
    }
    edit.sentence = counted("add", "cue", exchanges.size());
    add_change(edit, id, std::move(exchanges));
    return edit;
}

Edit remove_cues(const Show& show, SequenceId id, std::span<const CueId> ids) {
    Edit edit;
    const Sequence* sequence = find(show, id);
    if (!sequence) {
        return edit;
    }
    std::vector<Exchange<Cue>> exchanges;
    exchanges.reserve(ids.size());
    for (const CueId cue_id : in_order(ids)) {
        if (const Cue* cue = find(*sequence, cue_id)) {
            exchanges.push_back({*cue, std::nullopt});
        }
    }
    edit.sentence = counted("delete", "cue", exchanges.size());
    add_change(edit, id, std::move(exchanges));
    return edit;
}

Edit move_cues(const Show& show, SequenceId id, std::span<const CueId> ids, Micros by) {
    const Sequence* sequence = find(show, id);
    if (!sequence) {
        return {};
    }
    Micros earliest = -longest_sequence;
    Micros latest = longest_sequence;
    for (const CueId cue_id : ids) {
        if (const Cue* cue = find(*sequence, cue_id)) {
            const Micros start = start_of(*sequence, *cue);
            earliest = std::max(earliest, -start);
            latest = std::min(latest, longest_sequence - start - cue->length);
        }
    }
    const Micros shift = std::clamp(by, earliest, latest);
    return edit_cues(show, id, ids, "move", [shift](const Sequence&, Cue& cue) { cue.at += shift; });
}

Edit stretch_cue(const Show& show, SequenceId id, CueId cue_id, Micros start, Micros length) {
    const Sequence* sequence = find(show, id);
    const Cue* cue = sequence ? find(*sequence, cue_id) : nullptr;
    if (!cue) {
        return {};
    }
    const bool start_held = start == start_of(*sequence, *cue);
    start = std::clamp(start, -longest_sequence, longest_sequence);
    Micros end = start + std::clamp(length, Micros{0}, longest_sequence);
    end = std::clamp(end, shortest_cue, longest_sequence);
    if (start_held) {
        end = std::max(end, start + shortest_cue);
    } else {
        start = std::min(start, end - shortest_cue);
    }
    start = std::max(start, Micros{0});
    return edit_cues(show, id, std::span(&cue_id, 1), "stretch", [&](const Sequence& in, Cue& after) {
        place_at(in, after, start);
        after.length = end - start;
    });
}

Edit put_cues_on_channel(const Show& show, SequenceId id, std::span<const CueId> ids, ChannelId channel) {
    const Channel* target = find(show, channel);
    if (!target) {
        return {};
    }
    Edit edit =
        edit_cues(show, id, ids, "move", [channel](const Sequence&, Cue& cue) { cue.channel = channel; });
    edit.sentence += " to " + quoted(target->name);
    return edit;
}

Edit tie_cues(const Show& show, SequenceId id, std::span<const CueId> ids, std::optional<MarkId> mark) {
    const Sequence* sequence = find(show, id);
    const Mark* to = sequence && mark ? find(*sequence, *mark) : nullptr;
    if (mark && !to) {
        return {};
    }
    Edit edit = edit_cues(show, id, ids, mark ? "tie" : "free", [&](const Sequence& in, Cue& cue) {
        cue.at = start_of(in, cue) - (to ? to->time : Micros{0});
        cue.mark = mark;
    });
    const bool one = edit.sentence == "free cue";
    edit.sentence += to ? " to mark " + quoted(to->name) : one ? " from its mark" : " from their mark";
    return edit;
}

Edit set_flashes(const Show& show, SequenceId id, std::span<const CueId> ids,
                 std::optional<Flashes> flashes) {
    if (flashes && !flashes_allowed(*flashes)) {
        return {};
    }
    Edit edit = edit_cues(show, id, ids, "set", [&](const Sequence&, Cue& cue) { cue.flashes = flashes; });
    edit.sentence += flashes ? " flashing" : " steady";
    return edit;
}

Edit set_strikes(const Show& show, SequenceId id, std::span<const CueLead> cues, bool strikes) {
    std::vector<CueId> ids;
    std::unordered_map<CueId, Micros> leads;
    for (const CueLead& cue : cues) {
        ids.push_back(cue.cue);
        leads.insert({cue.cue, std::clamp(cue.lead, Micros{0}, longest_sequence)});
    }
    Edit edit = edit_cues(show, id, ids, "place", [&](const Sequence& in, Cue& cue) {
        if (cue.strikes != strikes) {
            const Micros lead = leads.at(cue.id);
            const Micros moment = start_of(in, cue) + (strikes ? lead : -lead);
            cue.strikes = strikes;
            place_at(in, cue, std::clamp(moment, Micros{0}, longest_sequence - cue.length));
        }
    });
    edit.sentence += strikes ? " by strike" : " by start";
    return edit;
}

Edit set_freedom(const Show& show, SequenceId id, std::span<const CueId> ids, Micros freedom) {
    return edit_cues(show, id, ids, "set freedom of", [freedom](const Sequence&, Cue& cue) {
        cue.freedom = std::clamp(freedom, Micros{0}, most_freedom);
    });
}

Edit set_voice_cues(const Show& show, SequenceId id, ChannelId channel,
                    std::span<const std::pair<Micros, Micros>> stretches) {
    const Sequence* sequence = find(show, id);
    if (!sequence || !find(show, channel) || !ids_left(show, stretches.size())) {
        return {};
    }
    Edit edit{"open the jaw with the voice", {}, 0};
    std::vector<Exchange<Cue>> exchanges;
    std::vector<std::pair<Micros, Micros>> by_hand;
    for (const Cue& cue : sequence->cues) {
        if (cue.channel == channel && cue.from_voice) {
            exchanges.push_back({cue, std::nullopt});
        } else if (cue.channel == channel) {
            const Micros start = start_of(*sequence, cue);
            by_hand.emplace_back(start, start + cue.length);
        }
    }
    for (const auto& [begin, end] : stretches) {
        const bool taken = std::ranges::any_of(by_hand, [begin = begin, end = end](const auto& hand) {
            return hand.first < end && begin < hand.second;
        });
        if (!taken) {
            Cue cue;
            cue.id = CueId{show.next_id + edit.ids_taken++};
            cue.channel = channel;
            cue.at = std::clamp(begin, Micros{0}, longest_sequence);
            cue.length = std::clamp(end, Micros{0}, longest_sequence) - cue.at;
            cue.from_voice = true;
            exchanges.push_back({std::nullopt, fitted(*sequence, std::move(cue))});
        }
    }
    add_change(edit, id, std::move(exchanges));
    return edit;
}

Edit rename_cue(const Show& show, SequenceId id, CueId cue, std::string name) {
    return edit_cues(show, id, std::span(&cue, 1), "rename",
                     [&](const Sequence&, Cue& after) { after.name = std::move(name); });
}

}  // namespace gasp
