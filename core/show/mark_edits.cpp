// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edit_building.hpp"

namespace gasp {
Edit add_mark(const Show& show, SequenceId sequence, Micros time, std::string name) {
    const std::pair<Micros, std::string> mark{time, std::move(name)};
    return add_marks(show, sequence, std::span(&mark, 1));
}

Edit add_marks(const Show& show, SequenceId sequence, std::span<const std::pair<Micros, std::string>> marks) {
    Edit edit{counted("add", "mark", marks.size()), {}, 0};
    if (find(show, sequence) && ids_left(show, marks.size())) {
        std::vector<Exchange<Mark>> exchanges;
        for (const auto& [time, name] : marks) {
            const MarkId id{show.next_id + edit.ids_taken++};
            exchanges.push_back({std::nullopt, Mark{id, name, within_day(time), {}}});
        }
        add_change<Mark>(edit, sequence, std::move(exchanges));
    }
    return edit;
}

Edit move_mark(const Show& show, SequenceId id, MarkId mark, Micros time) {
    const Sequence* sequence = find(show, id);
    if (!sequence) {
        return {};
    }
    Micros earliest{0};
    Micros latest = longest_sequence;
    for (const Cue& cue : sequence->cues) {
        if (cue.mark == mark) {
            earliest = std::max(earliest, -cue.at);
            latest = std::min(latest, longest_sequence - cue.at - cue.length);
        }
    }
    return edit_one<Mark>(show, id, mark, "move mark",
                          [&](Mark& after) { after.time = std::clamp(time, earliest, latest); });
}

Edit rename_mark(const Show& show, SequenceId sequence, MarkId mark, std::string name) {
    return edit_one<Mark>(show, sequence, mark, "rename mark",
                          [&](Mark& after) { after.name = std::move(name); });
}

Edit remove_mark(const Show& show, SequenceId id, MarkId mark_id) {
    Edit edit{"delete mark", {}, 0};
    const Sequence* sequence = find(show, id);
    const Mark* mark = sequence ? find(*sequence, mark_id) : nullptr;
    if (!mark) {
        return edit;
    }
    std::vector<Exchange<Cue>> freed;
    for (const Cue& cue : sequence->cues) {
        if (cue.mark == mark_id) {
            exchange(freed, cue, [mark](Cue& after) {
                after.at += mark->time;
                after.mark.reset();
            });
        }
    }
    add_change(edit, id, std::move(freed));
    add_change<Mark>(edit, id, {{*mark, std::nullopt}});
    return edit;
}

}  // namespace gasp
