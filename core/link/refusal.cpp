// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/refusal.hpp"

#include "core/link/board_facts.hpp"

#include <fmt/format.h>

#include <array>

namespace gasp {

namespace {

struct Saying {
    std::string_view words;
    std::string_view remedy;
};

constexpr std::string_view other_player =
    "Put the player on it that comes with this program (resources/board-player)";
constexpr std::string_view fault_in_program = "Tell the makers of this program";

/// By the number of the answer.
constexpr std::array<Saying, 22> sayings{{
    {"done", ""},
    {"its player is of another version", other_player},
    {"its player does not know this request", other_player},
    {"the request has a wrong form", fault_in_program},
    {"it is not armed", "Arm it; it disarms itself after 2 s without a word"},
    {"a run is on", "Stop it, or wait for its end"},
    {"it has no good table", "Load the table"},
    {"its output-enable input is open", "Release the emergency stop, then press re-arm at the prop"},
    {"it waits for its re-arm button", "Press it at the prop, when nobody is in reach"},
    {"it was stopped over the link", "Arm it, then let it back to work"},
    {"the table is too long for it", "Leave out sequences, flashes or cues"},
    {"a piece of the table came out of order", "Load again"},
    {"the table is bad", "Load again"},
    {"its table has no such output or sequence", "Load the table of this show"},
    {"it cannot write its store", "Look at its power; else the store is worn out: take another board"},
    {"its hold-to-run input is not held", "Have somebody hold it who sees the prop"},
    {"a load is not finished", "Finish the load"},
    {"it is armed", "Disarm it first"},
    {"lockout", "Wait for its end"},
    {"warm-up", "Wait for its end"},
    {"it follows a start line", "Start the sequence at the board that leads"},
    {"no load of this table was begun", "Load again"},
}};

std::size_t place_of(BoardAnswer answer) {
    return static_cast<std::size_t>(answer);
}

}  // namespace

std::string_view answer_words(BoardAnswer answer) {
    return place_of(answer) < sayings.size() ? sayings[place_of(answer)].words : "unknown";
}

Error refusal(const BoardReply& answer, const std::string& port) {
    if (!answer.understood || place_of(answer.result) >= sayings.size()) {
        return {"the board's player is of another version", port, std::string(other_player)};
    }
    const Saying& saying = sayings[place_of(answer.result)];
    std::string what = fmt::format("the board refuses: {}", saying.words);
    if (answer.result == BoardAnswer::bad_image && !answer.bytes.empty()) {
        what += fmt::format(", {}", reason_words(answer.bytes.front()));
    }
    return {std::move(what), port, std::string(saying.remedy)};
}

}  // namespace gasp
