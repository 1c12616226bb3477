// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/conversation.hpp"
#include "core/link/refusal.hpp"
#include "core/table/board_image.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gasp {

namespace {

constexpr std::size_t crc_bytes = 4;
constexpr std::size_t read_at_once = 128;
/// How often a load is begun anew, as after the board lost its power in the middle.
constexpr int times_begun = 3;

std::span<const std::uint8_t> bytes_of(std::string_view text) {
    return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()};
}

/// Length and CRC, by which a board knows an image.
LinkBytes name_of(std::string_view image) {
    return WireWriter()
        .u32(static_cast<std::uint32_t>(image.size()))
        .raw(bytes_of(image.substr(image.size() - crc_bytes)))
        .bytes();
}

/// Whether a board can take an image at all.
Result<void> check_fit(const BoardImage& image, std::size_t bytes, const BoardIdentity& board,
                       const std::string& port) {
    if (bytes > board.store) {
        return fail(fmt::format("the table takes {} bytes and the board has room for {}: {} too many", bytes,
                                board.store, bytes - board.store),
                    port, "Leave out sequences, flashes or cues, or take a board with more room");
    }
    if (image.outputs.size() > board.outputs) {
        return fail(
            fmt::format("the table uses output {} and the board has {}", image.outputs.size(), board.outputs),
            port, "Load the table of this board, or take a board with more outputs");
    }
    return {};
}

}  // namespace

Result<std::size_t> Conversation::begin_load(std::string_view image) {
    const Result<BoardReply> answer = ask(Request::begin_load, 4, name_of(image));
    if (!answer) {
        return tl::unexpected(answer.error());
    }
    WireReader in(answer->bytes);
    const std::size_t number = in.u32();
    if (answer->result == BoardAnswer::too_long && in.good()) {
        return fail(
            fmt::format("the table takes {} bytes and the board has room for {}", image.size(), number),
            exchange_.name(), "Leave out sequences, flashes or cues, or take a board with more room");
    }
    if (answer->result != BoardAnswer::done) {
        return tl::unexpected(refusal(*answer, exchange_.name()));
    }
    return in.at_end() && number <= image.size() ? number : 0;
}

Result<void> Conversation::send_chunks(std::string_view image, std::size_t from, std::size_t chunk,
                                       const LinkProgress& progress) {
    // A board that asks for the same over and over is not waited for.
    std::size_t left = 4 * (image.size() / chunk + 4);
    for (std::size_t offset = from; offset < image.size(); --left) {
        if (left == 0) {
            return fail("the board asks for the same pieces over and over", exchange_.name(),
                        "Put the player of this program on it (resources/board-player)");
        }
        const std::string_view piece = image.substr(offset, chunk);
        const Result<BoardReply> answer =
            ask(Request::chunk, 4,
                WireWriter().u32(static_cast<std::uint32_t>(offset)).raw(bytes_of(piece)).bytes());
        if (!answer) {
            return tl::unexpected(answer.error());
        }
        if (answer->result != BoardAnswer::done && answer->result != BoardAnswer::out_of_order) {
            return tl::unexpected(refusal(*answer, exchange_.name()));
        }
        WireReader in(answer->bytes);
        const std::size_t next = in.u32();
        offset = in.at_end() && next <= image.size() ? next : 0;
        if (progress) {
            progress(offset, 2 * image.size());
        }
    }
    return {};
}

Result<void> Conversation::commit(std::string_view image) {
    return command(Request::commit, name_of(image));
}

Result<LoadReport> Conversation::load(std::string_view image, const LinkProgress& progress) {
    const Deadline begun = LinkClock::now();
    const Result<BoardImage> taken_apart = read_image(image, "the table to load");
    if (!taken_apart) {
        return tl::unexpected(taken_apart.error());
    }
    const Result<BoardIdentity> board = identify();
    if (!board) {
        return tl::unexpected(board.error());
    }
    if (Result<void> fits = check_fit(*taken_apart, image.size(), *board, exchange_.name()); !fits) {
        return tl::unexpected(fits.error());
    }
    LoadReport report{image.size(), 0, {}};
    Result<void> taken;
    for (int time = 0; time < times_begun; ++time) {
        const Result<std::size_t> from = begin_load(image);
        if (!from) {
            return tl::unexpected(from.error());
        }
        report.resumed_at = time == 0 ? *from : report.resumed_at;
        taken = send_chunks(image, *from, board->chunk, progress).and_then([&] { return commit(image); });
        if (taken || lost() || exchange_.stopped()) {
            break;
        }
    }
    if (!taken) {
        return tl::unexpected(taken.error());
    }
    const Result<std::string> back = read_bytes(image.size(), [&](std::size_t done, std::size_t all) {
        if (progress) {
            progress(all + done, 2 * all);
        }
    });
    if (!back) {
        return tl::unexpected(back.error());
    }
    if (*back != image) {
        return fail("what the board keeps is not what was loaded", exchange_.name(),
                    "Load again; if it comes again, its store is worn out: take another board");
    }
    report.took = std::chrono::duration_cast<std::chrono::milliseconds>(LinkClock::now() - begun);
    return report;
}

Result<std::string> Conversation::read_bytes(std::size_t count, const LinkProgress& progress) {
    std::string bytes;
    while (bytes.size() < count) {
        const std::size_t wanted = std::min(read_at_once, count - bytes.size());
        const Result<BoardReply> answer = ask(Request::read_back, wanted,
                                              WireWriter()
                                                  .u32(static_cast<std::uint32_t>(bytes.size()))
                                                  .u8(static_cast<std::uint32_t>(wanted))
                                                  .bytes());
        if (!answer) {
            return tl::unexpected(answer.error());
        }
        if (answer->result != BoardAnswer::done) {
            return tl::unexpected(refusal(*answer, exchange_.name()));
        }
        bytes.append(answer->bytes.begin(), answer->bytes.end());
        if (progress) {
            progress(bytes.size(), count);
        }
    }
    return bytes;
}

Result<std::string> Conversation::read_image_back(const LinkProgress& progress) {
    const Result<BoardIdentity> board = identify();
    if (!board) {
        return tl::unexpected(board.error());
    }
    if (board->image != 1) {
        return fail(fmt::format("the board has no good table: {}", reason_words(board->image)),
                    exchange_.name(), "Load the table");
    }
    return read_bytes(board->image_bytes, progress).and_then([&](std::string bytes) -> Result<std::string> {
        return read_image(bytes, exchange_.name()).map([&](const BoardImage&) { return std::move(bytes); });
    });
}

}  // namespace gasp
