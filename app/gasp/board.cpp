// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/board_actions.hpp"
#include "core/link/serial_port.hpp"

#include <algorithm>
#include <array>

namespace gasp {

namespace {

Result<Outcome> clear_log(Conversation& board, const BoardOptions& options) {
    if (Result<void> cleared = board.clear_log(); !cleared) {
        return tl::unexpected(cleared.error());
    }
    Outcome outcome;
    outcome.text = options.json ? "{\n  \"cleared\": true\n}\n" : "log cleared\n";
    return outcome;
}

}  // namespace

std::span<const BoardAction> board_actions() {
    static constexpr std::array actions{
        BoardAction{"identify", "who is there, and which table it has", &report_identity},
        BoardAction{"load", "load the table of SHOW, read it back and compare", &load_table},
        BoardAction{"read", "read its table back, as csv or by --as", &read_table},
        BoardAction{"fire", "drive one output by hand, after you have confirmed", &fire_output},
        BoardAction{"run", "start one sequence, after you have confirmed", &run_sequence},
        BoardAction{"stop", "end whatever runs, everything to rest", &stop_board},
        BoardAction{"go-on", "back to work after a stop, after you have confirmed", &go_on},
        BoardAction{"status", "what it does just now", &report_status},
        BoardAction{"log", "its log of triggers, refusals and faults", &report_log},
        BoardAction{"clear", "clear that log", &clear_log},
        BoardAction{"latency", "how long the way to it is", &report_latency},
    };
    return actions;
}

Result<Outcome> run(const BoardOptions& options) {
    if (options.port == "list") {
        return report_ports(options);
    }
    const std::string_view key = options.action.empty() ? "identify" : std::string_view(options.action);
    const Result<std::unique_ptr<SerialPort>> port = SerialPort::open(options.port);
    if (!port) {
        return tl::unexpected(port.error());
    }
    Conversation board(**port);
    return std::ranges::find(board_actions(), key, &BoardAction::key)->run(board, options);
}

}  // namespace gasp
