// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/link/byte_stream.hpp"
#include "core/link/requests.hpp"
#include "core/link/wire.hpp"

#include <chrono>
#include <cstdint>
#include <optional>
#include <span>
#include <stop_token>

#include "player/frame.h"

namespace gasp {

/// What a board gave to a request.
struct BoardReply {
    BoardAnswer result = BoardAnswer::done;
    LinkBytes bytes;         ///< what follows the result
    Deadline sent;           ///< when the request that was answered went out
    Deadline came;           ///< when its answer was complete
    bool understood = true;  ///< the answer is of the version that was asked
};

/// How much went wrong on the line so far.
struct LineTrouble {
    std::size_t repeated = 0;  ///< requests sent again
    std::size_t damaged = 0;   ///< frames that came damaged
    std::size_t strange = 0;   ///< good frames that answer nothing that was asked
};

/// Requests and their answers over a stream: frames, sequence numbers, waiting, asking again. It stops
/// waiting as soon as `stop` is asked for.
class LinkExchange {
  public:
    LinkExchange(ByteStream& stream, std::stop_token stop);

    /// Asks up to `times` times, waiting `wait` for each answer. An answer of another size than `size` bytes
    /// behind its result, or than its result has when it is not done, is none: a CRC of 16 bits lets one in
    /// 65536 damaged frames through, and this most of what is left. Error: nothing answers, something else
    /// does, the board fell silent, it is gone, or `stop` was asked for.
    [[nodiscard]] Result<BoardReply> ask(Request request, std::span<const std::uint8_t> payload,
                                         std::optional<std::size_t> size, std::chrono::milliseconds wait,
                                         int times);

    [[nodiscard]] const std::string& name() const { return stream_.name(); }
    [[nodiscard]] const LineTrouble& trouble() const { return trouble_; }
    /// The board is gone, or has fallen silent: a later answer makes it false again.
    [[nodiscard]] bool lost() const { return lost_; }
    [[nodiscard]] bool stopped() const { return stop_.stop_requested(); }

  private:
    [[nodiscard]] Result<void> send(Request request, std::span<const std::uint8_t> payload);
    [[nodiscard]] Result<bool> await(Request request, Deadline until, BoardReply& answer);
    [[nodiscard]] bool take(std::uint8_t byte, Request request, BoardReply& answer);
    [[nodiscard]] bool answers(Request request, BoardReply& answer);
    [[nodiscard]] Error silence() const;

    ByteStream& stream_;
    std::stop_token stop_;
    gb_frame frame_{};
    std::uint8_t sequence_ = 0;
    std::optional<std::size_t> size_;  ///< of the answer that is waited for
    bool answered_ = false;            ///< ever
    std::size_t strange_bytes_ = 0;    ///< since the last good answer
    bool lost_ = false;
    LineTrouble trouble_;
};

}  // namespace gasp
