// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/words_of_cues.hpp"

namespace gasp {
namespace {

bool of_channel(CueFaultKind kind) {
    return kind == CueFaultKind::channel_on || kind == CueFaultKind::channel_off;
}

void note_blank(const Channel& channel, const Figure& figure, std::string_view field, std::string_view label,
                std::vector<Finding>& findings) {
    if (!figure) {
        Place place;
        place.channel = channel.id;
        place.field = field;
        findings.push_back(
            not_checked("channel_dwell", std::string(label) + " of channel " + quoted(channel.name), place));
    }
}

}  // namespace

Finding word_channel_dwell(const Show& show, const Sequence& sequence, const CueFault& fault) {
    Finding finding = about(sequence, fault, "channel_dwell", Severity::warn);
    word_short_dwell(sequence, fault, "channel " + quoted(find(show, fault.channel)->name),
                     fault.kind == CueFaultKind::channel_on, finding);
    return finding;
}

std::vector<Finding> check_channel_dwell(const CheckInput& input) {
    std::vector<Finding> findings = worded(input, of_channel);
    for_each_used(input, [&](const Channel& channel) {
        note_blank(channel, channel.shortest_on_ms, "shortest_on_ms", "shortest on", findings);
        note_blank(channel, channel.shortest_off_ms, "shortest_off_ms", "shortest off", findings);
    });
    return findings;
}

}  // namespace gasp
