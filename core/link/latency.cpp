// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/conversation.hpp"
#include "core/link/refusal.hpp"

#include <algorithm>

namespace gasp {

namespace {

using std::chrono::duration_cast;
using std::chrono::microseconds;

}  // namespace

Deadline LinkLatency::host_time(std::uint32_t board_clock_us) const {
    // The board's clock goes round after 71 minutes: the difference is the short way.
    const auto away = static_cast<std::int32_t>(board_clock_us - board_us);
    return host + microseconds(away);
}

Result<LinkLatency> Conversation::measure_latency(int times) {
    LinkLatency latency;
    std::vector<microseconds> trips;
    for (int time = 0; time < times; ++time) {
        const LinkBytes payload = WireWriter().u32(static_cast<std::uint32_t>(time)).bytes();
        // Once only: which of two requests an answer belongs to could not be told.
        const Result<BoardReply> answer =
            exchange_.ask(Request::echo, payload, 4 + payload.size(), std::chrono::milliseconds(250), 1);
        if (exchange_.stopped()) {
            break;
        }
        if (!answer || answer->result != BoardAnswer::done) {
            continue;
        }
        WireReader in(answer->bytes);
        const std::uint32_t board_us = in.u32();
        if (!std::ranges::equal(in.rest(), payload)) {
            continue;
        }
        const auto trip = duration_cast<microseconds>(answer->came - answer->sent);
        if (trips.empty() || trip < latency.least) {
            latency.least = trip;
            latency.host = answer->sent + trip / 2;
            latency.board_us = board_us;
        }
        trips.push_back(trip);
    }
    if (trips.empty()) {
        return fail("the board answers no echo", exchange_.name(), "Look at its cable, then connect again");
    }
    std::ranges::sort(trips);
    latency.median = trips[trips.size() / 2];
    latency.most = trips.back();
    latency.answers = trips.size();
    return latency;
}

}  // namespace gasp
