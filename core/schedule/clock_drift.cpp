// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/clock_drift.hpp"

#include <algorithm>
#include <unordered_map>

namespace gasp {

namespace {

/// The last change of each board, in the sequence and while its sound plays.
struct LastChange {
    const Board* board = nullptr;
    std::optional<Micros> of_all;
    std::optional<Micros> in_sound;
};

std::vector<LastChange> last_changes(const Show& show, const Schedule& schedule, Micros end_of_sound) {
    std::vector<LastChange> boards;
    std::unordered_map<ChannelId, std::size_t> places;
    for (const Board& board : show.rig.boards) {
        for (const Channel& channel : show.rig.channels) {
            if (channel.board == board.id) {
                places.insert({channel.id, boards.size()});
            }
        }
        boards.push_back({&board, {}, {}});
    }
    for (const SwitchEvent& event : schedule.events) {
        if (const auto place = places.find(event.channel); place != places.end()) {
            LastChange& last = boards[place->second];
            last.of_all = event.time;
            last.in_sound = event.time <= end_of_sound ? std::optional(event.time) : last.in_sound;
        }
    }
    std::erase_if(boards, [](const LastChange& last) { return !last.of_all; });
    return boards;
}

Figure drift(const Figure& ppm, const Figure& other_ppm, Micros at) {
    return ppm && other_ppm ? Figure((*ppm + *other_ppm) * 1e-6 * static_cast<double>(at.count()) * 1e-3)
                            : std::nullopt;
}

}  // namespace

std::vector<ClockDrift> clock_drifts(const Show& show, const Sequence& sequence, const Schedule& schedule) {
    const Micros sound = end_of_sound(sequence);
    const std::vector<LastChange> boards = last_changes(show, schedule, sound);
    std::vector<ClockDrift> drifts;
    for (std::size_t first = 0; first < boards.size(); ++first) {
        for (std::size_t second = first + 1; second < boards.size(); ++second) {
            const Micros at = std::max(*boards[first].of_all, *boards[second].of_all);
            const Board& other = *boards[second].board;
            drifts.push_back({boards[first].board->id, other.id, at,
                              drift(boards[first].board->clock_ppm, other.clock_ppm, at)});
        }
    }
    for (const LastChange& last : boards) {
        if (sound > Micros{0} && last.in_sound) {
            drifts.push_back({last.board->id, std::nullopt, *last.in_sound,
                              drift(last.board->clock_ppm, show.rig.speaker.clock_ppm, *last.in_sound)});
        }
    }
    return drifts;
}

}  // namespace gasp
