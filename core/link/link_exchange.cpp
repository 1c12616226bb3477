// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/link_exchange.hpp"

#include <algorithm>
#include <array>
#include <random>
#include <utility>

namespace gasp {

namespace {

/// Between two looks at `stop`.
constexpr std::chrono::milliseconds slice{50};
/// A longest frame takes 12 ms on the line; a port that takes nothing for so long is stuck.
constexpr std::chrono::seconds writing{2};

/// What follows a result that is not done.
std::size_t bytes_behind(BoardAnswer result) {
    switch (result) {
        case BoardAnswer::other_version:
            return 2;
        case BoardAnswer::too_long:
        case BoardAnswer::out_of_order:
            return 4;
        case BoardAnswer::bad_image:
            return 1;
        default:
            return 0;
    }
}

}  // namespace

LinkExchange::LinkExchange(ByteStream& stream, std::stop_token stop)
    : stream_(stream), stop_(std::move(stop)), sequence_(static_cast<std::uint8_t>(std::random_device{}())) {
    gb_frame_begin(&frame_);
}

Result<BoardReply> LinkExchange::ask(Request request, std::span<const std::uint8_t> payload,
                                     std::optional<std::size_t> size, std::chrono::milliseconds wait,
                                     int times) {
    ++sequence_;
    size_ = size;
    for (int done = 0; done < times; ++done) {
        trouble_.repeated += done > 0 ? 1 : 0;
        BoardReply answer;
        answer.sent = LinkClock::now();
        if (Result<void> sent = send(request, payload); !sent) {
            lost_ = true;
            return tl::unexpected(sent.error());
        }
        const Result<bool> came = await(request, LinkClock::now() + wait, answer);
        if (!came) {
            lost_ = lost_ || !stopped();
            return tl::unexpected(came.error());
        }
        if (*came) {
            lost_ = false;
            answered_ = true;
            strange_bytes_ = 0;
            return answer;
        }
    }
    lost_ = true;
    return tl::unexpected(silence());
}

Result<void> LinkExchange::send(Request request, std::span<const std::uint8_t> payload) {
    gb_frame frame{};
    frame.bytes[gb_frame_version] = link_version;
    frame.bytes[gb_frame_type] = static_cast<std::uint8_t>(request);
    frame.bytes[gb_frame_sequence] = sequence_;
    std::ranges::copy(payload, frame.bytes + gb_frame_payload);
    frame.count = static_cast<std::uint8_t>(payload.size());
    gb_frame_close(&frame);
    LinkBytes line{0};  // ends whatever noise stood before
    line.insert(line.end(), frame.bytes, frame.bytes + frame.count);
    return stream_.write(line, LinkClock::now() + writing);
}

/// Whether the answer came before the deadline.
Result<bool> LinkExchange::await(Request request, Deadline until, BoardReply& answer) {
    std::array<std::uint8_t, 256> bytes{};
    for (Deadline now = LinkClock::now(); now < until;) {
        if (stopped()) {
            return fail("stopped", stream_.name());
        }
        const Deadline look = std::min(until, now + slice);
        const Result<std::size_t> count = stream_.read(bytes, look);
        if (!count) {
            return tl::unexpected(count.error());
        }
        for (const std::uint8_t byte : std::span(bytes).first(*count)) {
            // What stands behind an answer belongs to no question that is still open.
            if (take(byte, request, answer)) {
                return true;
            }
        }
        now = *count == 0 ? look : LinkClock::now();
    }
    return false;
}

bool LinkExchange::take(std::uint8_t byte, Request request, BoardReply& answer) {
    ++strange_bytes_;
    if (!gb_frame_take(&frame_, byte)) {
        return false;
    }
    const bool good = gb_frame_open(&frame_);
    const bool ours = good && answers(request, answer);
    trouble_.damaged += good ? 0 : 1;
    trouble_.strange += good && !ours ? 1 : 0;
    gb_frame_begin(&frame_);
    return ours;
}

bool LinkExchange::answers(Request request, BoardReply& answer) {
    const std::span<const std::uint8_t> payload(frame_.bytes + gb_frame_payload, frame_.count);
    if (frame_.bytes[gb_frame_sequence] != sequence_ ||
        frame_.bytes[gb_frame_type] != (static_cast<std::uint8_t>(request) | answer_bit) || payload.empty()) {
        return false;
    }
    const auto result = static_cast<BoardAnswer>(payload.front());
    const auto wanted = result == BoardAnswer::done ? size_ : std::optional(bytes_behind(result));
    if (wanted && payload.size() - 1 != *wanted) {
        return false;
    }
    answer.came = LinkClock::now();
    answer.understood = frame_.bytes[gb_frame_version] == link_version;
    answer.result = result;
    answer.bytes.assign(payload.begin() + 1, payload.end());
    return true;
}

Error LinkExchange::silence() const {
    if (answered_) {
        return {"the board has stopped answering", stream_.name(),
                "Look at its power and its cable, then connect again; a load goes on where it was"};
    }
    if (trouble_.strange > 0) {
        return {"what answers here mixes up what it is asked", stream_.name(),
                "Choose the port of a board with the player of this program on it"};
    }
    if (strange_bytes_ > 0) {
        return {"what answers here is no board with the player of this program", stream_.name(),
                "Choose another port, or put the player on the board (resources/board-player)"};
    }
    return {"nothing answers on this port", stream_.name(),
            "Look whether the board has power and its player, and whether this is its port"};
}

}  // namespace gasp
