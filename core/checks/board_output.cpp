// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace gasp {
namespace {

Finding about(const Channel& channel, Severity severity, std::string_view field) {
    Finding finding{"board_output", severity, false, {}, {}, {}, {}, {}};
    finding.place.channel = channel.id;
    finding.place.board = channel.board;
    finding.place.field = field;
    return finding;
}

using Outputs = std::map<std::pair<BoardId, std::uint32_t>, const Channel*>;

/// The lowest output of a board that no channel has; counted from 1.
std::uint32_t free_output(const Outputs& taken, BoardId board) {
    std::uint32_t output = 1;
    while (taken.contains({board, output})) {
        ++output;
    }
    return output;
}

Outputs outputs_taken(const Show& show) {
    Outputs taken;
    for (const Channel& channel : show.rig.channels) {
        if (channel.board && channel.output) {
            taken.insert({{*channel.board, *channel.output}, &channel});
        }
    }
    return taken;
}

void check_used(const Show& show, const Channel& channel, const Outputs& taken,
                std::vector<Finding>& findings) {
    const Board* board = channel.board ? find(show, *channel.board) : nullptr;
    if (board == nullptr) {
        Finding finding = about(channel, Severity::warn, "board");
        finding.what = "Channel " + quoted(channel.name) + " has cues and no board";
        finding.remedy = "Choose the board that switches it";
        findings.push_back(std::move(finding));
    } else if (!channel.output) {
        Finding finding = about(channel, Severity::warn, "output");
        finding.what =
            "Channel " + quoted(channel.name) + " has cues and no output on " + quoted(board->name);
        finding.remedy = "Give it output " + std::to_string(free_output(taken, board->id));
        findings.push_back(std::move(finding));
    } else if (!board->outputs) {
        Place place;
        place.board = board->id;
        place.field = "outputs";
        Finding finding = not_checked("board_output", "number of outputs of " + quoted(board->name), place);
        if (std::find(findings.begin(), findings.end(), finding) == findings.end()) {
            findings.push_back(std::move(finding));
        }
    }
}

}  // namespace

std::vector<Finding> check_board_output(const CheckInput& input) {
    std::vector<Finding> findings;
    const Outputs taken = outputs_taken(input.show);
    for (const Channel& channel : input.show.rig.channels) {
        const Board* board = channel.board ? find(input.show, *channel.board) : nullptr;
        if (board == nullptr || !channel.output) {
            continue;
        }
        const std::string free = std::to_string(free_output(taken, board->id));
        const Channel* first = taken.at({board->id, *channel.output});
        if (first->id != channel.id) {
            Finding finding = about(channel, Severity::stop, "output");
            finding.what = "Channels " + quoted(first->name) + " and " + quoted(channel.name) +
                           " share an output of " + quoted(board->name);
            finding.figure = "output " + std::to_string(*channel.output);
            finding.limit = "one channel each";
            finding.remedy = "Give " + quoted(channel.name) + " output " + free;
            findings.push_back(std::move(finding));
        }
        if (board->outputs && (*channel.output < 1 || *channel.output > *board->outputs)) {
            Finding finding = about(channel, Severity::stop, "output");
            finding.what = "Channel " + quoted(channel.name) + " is on an output that " +
                           quoted(board->name) + " does not have";
            finding.figure = "output " + std::to_string(*channel.output);
            finding.limit = "1 to " + std::to_string(static_cast<std::uint32_t>(*board->outputs));
            finding.remedy = "Give it output " + free;
            findings.push_back(std::move(finding));
        }
    }
    for_each_used(input, [&](const Channel& channel) { check_used(input.show, channel, taken, findings); });
    return findings;
}

}  // namespace gasp
