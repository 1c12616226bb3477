// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/board_facts.hpp"
#include "core/link/refusal.hpp"

#include <fmt/format.h>

#include <array>
#include <span>

namespace gasp {

namespace {

using Words = std::span<const std::string_view>;

std::string_view word_of(Words words, std::size_t number) {
    return number < words.size() ? words[number] : "unknown";
}

constexpr std::array<std::string_view, 5> reset_words{"power", "reset pin", "brown-out", "watchdog", "other"};
constexpr std::array<std::string_view, 6> fault_words{"none",
                                                      "table bad at power-up",
                                                      "stray pulse on the start line",
                                                      "its store failed in writing",
                                                      "entries lost: more came than could be written",
                                                      "reset by a brown-out or the watchdog"};
constexpr std::array<std::string_view, 6> stop_words{
    "none",      "output-enable input", "over the link", "hold-to-run let go", "link lost while armed",
    "start line"};
constexpr std::array<std::string_view, 3> back_words{"none", "re-arm button", "over the link"};

}  // namespace

std::string_view words(BoardState state) {
    static constexpr std::array<std::string_view, 10> states{"no table",
                                                             "loading",
                                                             "ready",
                                                             "running: triggered",
                                                             "running: idle",
                                                             "running: by hand",
                                                             "stopped: the output-enable input is open",
                                                             "stopped: press the re-arm button",
                                                             "stopped over the link",
                                                             "on the start line"};
    return word_of(states, static_cast<std::size_t>(state));
}

std::string_view reason_words(std::uint8_t reason) {
    static constexpr std::array<std::string_view, 11> reasons{
        "there is none",
        "it is good",
        "nothing is loaded yet, or what is there is no table",
        "it is of another version",
        "its length is wrong",
        "its CRC is wrong",
        "it has more outputs than the board",
        "its tick is one the board cannot keep",
        "its head or outputs are wrong",
        "a sequence is wrong",
        "an event is wrong"};
    return word_of(reasons, reason);
}

std::string words(const LogEntry& entry) {
    const unsigned number = entry.detail + 1U;  // as people count
    switch (entry.kind) {
        case LogKind::power_up:
            return fmt::format("power-up: {}", word_of(reset_words, entry.detail));
        case LogKind::trigger:
            return fmt::format("trigger: sequence {}", number);
        case LogKind::refusal:
            return fmt::format("trigger refused: {}", answer_words(static_cast<BoardAnswer>(entry.detail)));
        case LogKind::fault:
            return fmt::format("fault: {}", word_of(fault_words, entry.detail));
        case LogKind::stopped:
            return fmt::format("stopped: {}", word_of(stop_words, entry.detail));
        case LogKind::back_to_work:
            return fmt::format("back to work: {}", word_of(back_words, entry.detail));
        case LogKind::started_by_link:
            return fmt::format("started over the link: sequence {}", number);
        case LogKind::held_by_link:
            return fmt::format("held over the link: output {}", number);
        default:
            return "table taken";
    }
}

}  // namespace gasp
