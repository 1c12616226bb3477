// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/conversation.hpp"

#include "core/link/refusal.hpp"

#include <fmt/format.h>

#include <utility>

namespace gasp {

namespace {

using std::chrono::milliseconds;

constexpr milliseconds answer_time{250};
constexpr int times_asked = 5;
constexpr int times_asked_first = 12;  // 3 s: a board may be starting
constexpr std::uint32_t no_output = 0xFF;

Error another_version(const BoardReply& answer, const std::string& port) {
    std::string versions;
    if (answer.result == BoardAnswer::other_version && answer.bytes.size() == 2) {
        versions = fmt::format(": it speaks {} to {}, this program {}", answer.bytes[0], answer.bytes[1],
                               link_version);
    }
    Error error = refusal({BoardAnswer::other_version, {}, {}, {}, false}, port);
    error.what += versions;
    return error;
}

}  // namespace

Conversation::Conversation(ByteStream& stream, std::stop_token stop) : exchange_(stream, std::move(stop)) {}

/// An answer that is not done is left to the caller, but for those that end the conversation.
Result<BoardReply> Conversation::ask(Request request, std::optional<std::size_t> size,
                                     std::span<const std::uint8_t> payload) {
    const bool slow = request == Request::begin_load || request == Request::commit;
    Result<BoardReply> answer = exchange_.ask(request, payload, size, slow ? milliseconds(3000) : answer_time,
                                              request == Request::identify ? times_asked_first : times_asked);
    if (answer && (!answer->understood || answer->result == BoardAnswer::other_version)) {
        return tl::unexpected(another_version(*answer, exchange_.name()));
    }
    if (answer && answer->result == BoardAnswer::not_armed) {
        token_.reset();
    }
    return answer;
}

Result<void> Conversation::command(Request request, const LinkBytes& payload) {
    const Result<BoardReply> answer = ask(request, 0, payload);
    if (!answer) {
        return tl::unexpected(answer.error());
    }
    if (answer->result != BoardAnswer::done) {
        return tl::unexpected(refusal(*answer, exchange_.name()));
    }
    return {};
}

Result<BoardIdentity> Conversation::identify() {
    const Result<BoardReply> answer = ask(Request::identify, identity_bytes);
    if (!answer) {
        return tl::unexpected(answer.error());
    }
    if (answer->result != BoardAnswer::done) {
        return tl::unexpected(refusal(*answer, exchange_.name()));
    }
    return read_identity(answer->bytes, exchange_.name());
}

Result<void> Conversation::arm() {
    const Result<BoardReply> answer = ask(Request::arm, 2);
    if (!answer) {
        return tl::unexpected(answer.error());
    }
    if (answer->result != BoardAnswer::done) {
        return tl::unexpected(refusal(*answer, exchange_.name()));
    }
    WireReader in(answer->bytes);
    token_ = in.u16();
    if (!in.at_end()) {
        token_.reset();
        return fail("what the board says of its arming makes no sense", exchange_.name(),
                    "Put the player of this program on it (resources/board-player)");
    }
    return {};
}

Result<void> Conversation::disarm() {
    token_.reset();
    return command(Request::disarm, {});
}

Result<std::uint32_t> Conversation::token() const {
    if (!token_) {
        return tl::unexpected(refusal({BoardAnswer::not_armed, {}, {}, {}, true}, exchange_.name()));
    }
    return *token_;
}

Result<void> Conversation::hold(std::uint8_t output) {
    return token().and_then([&](std::uint32_t token) {
        return command(Request::hold, WireWriter().u16(token).u8(output).bytes());
    });
}

Result<void> Conversation::let_go() {
    return token().and_then([&](std::uint32_t token) {
        return command(Request::hold, WireWriter().u16(token).u8(no_output).bytes());
    });
}

Result<void> Conversation::run(std::uint8_t sequence) {
    return token().and_then([&](std::uint32_t token) {
        return command(Request::run, WireWriter().u16(token).u8(sequence).bytes());
    });
}

Result<void> Conversation::stop() {
    token_.reset();
    return command(Request::stop, {});
}

Result<void> Conversation::go_on() {
    return token().and_then(
        [&](std::uint32_t token) { return command(Request::go_on, WireWriter().u16(token).bytes()); });
}

Result<BoardStatus> Conversation::status() {
    const Result<BoardReply> answer = ask(Request::status, status_bytes);
    if (!answer) {
        return tl::unexpected(answer.error());
    }
    if (answer->result != BoardAnswer::done) {
        return tl::unexpected(refusal(*answer, exchange_.name()));
    }
    return read_status(answer->bytes, exchange_.name());
}

Result<std::vector<LogEntry>> Conversation::read_log(const LinkProgress& progress) {
    std::vector<LogEntry> entries;
    for (;;) {
        const auto next = static_cast<std::uint32_t>(entries.size());
        const Result<BoardReply> answer =
            ask(Request::read_log, std::nullopt, WireWriter().u16(next).bytes());
        if (!answer) {
            return tl::unexpected(answer.error());
        }
        if (answer->result != BoardAnswer::done) {
            return tl::unexpected(refusal(*answer, exchange_.name()));
        }
        const Result<LogPart> part = read_log_part(answer->bytes, exchange_.name());
        if (!part) {
            return tl::unexpected(part.error());
        }
        entries.insert(entries.end(), part->entries.begin(), part->entries.end());
        if (progress) {
            progress(entries.size(), part->kept);
        }
        if (part->entries.empty() || entries.size() >= part->kept) {
            return entries;
        }
    }
}

Result<void> Conversation::clear_log() {
    return command(Request::clear_log, {});
}

}  // namespace gasp
