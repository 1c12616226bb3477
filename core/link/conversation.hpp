// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/link/board_facts.hpp"
#include "core/link/link_exchange.hpp"

#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

/// How far long work is, in bytes or pieces. Called on the thread that talks.
using LinkProgress = std::function<void(std::size_t done, std::size_t all)>;

/// How a load went.
struct LoadReport {
    std::size_t bytes = 0;
    std::size_t resumed_at = 0;  ///< so many bytes the board had of it already
    std::chrono::milliseconds took{0};
};

/// How long the way to the board is, and how its clock stands to ours.
struct LinkLatency {
    std::chrono::microseconds least{0};   ///< of a question and its answer
    std::chrono::microseconds median{0};  ///< likewise
    std::chrono::microseconds most{0};    ///< likewise
    std::size_t answers = 0;
    /// At this moment of ours, give or take half of `least`, the board's clock stood at `board_us`.
    Deadline host;
    std::uint32_t board_us = 0;

    /// The moment of ours at which the board's clock stood at a value, within 35 minutes around `host`.
    [[nodiscard]] Deadline host_time(std::uint32_t board_clock_us) const;
};

/// A conversation with one board, in blocking calls that all end: each returns within 5 s of the last byte of
/// the board, or as soon as `stop` is asked for. Use it from one thread at a time. Every call may fail as
/// LinkExchange::ask() does, or because the board refuses. What moves anything needs arm() first, and the
/// board drops it by itself 2 s after the last call that got through (keep it with status()).
class Conversation {
  public:
    /// The stream must outlive it.
    explicit Conversation(ByteStream& stream, std::stop_token stop = {});

    /// Who is there. Waits up to 3 s for the first answer: many boards start anew when their port is opened.
    [[nodiscard]] Result<BoardIdentity> identify();

    /// Loads an image, reads it back and compares every byte; goes on where an earlier load of the same image
    /// was broken off. Error: it is no image (nothing is sent), it is longer than the board's store (by how
    /// much), it has more outputs than the board, or what is read back differs.
    [[nodiscard]] Result<LoadReport> load(std::string_view image, const LinkProgress& progress = {});
    /// The image the board has. Error: it has no good one, or its bytes are not that image.
    [[nodiscard]] Result<std::string> read_image_back(const LinkProgress& progress = {});

    [[nodiscard]] Result<void> arm();
    [[nodiscard]] Result<void> disarm();
    [[nodiscard]] bool armed() const { return token_.has_value(); }
    /// Drives one output, counted from 0, for the next 500 ms: repeat it at least every 250 ms.
    [[nodiscard]] Result<void> hold(std::uint8_t output);
    [[nodiscard]] Result<void> let_go();
    /// Starts a sequence by its index in the table. It rests when the link goes silent for 2 s.
    [[nodiscard]] Result<void> run(std::uint8_t sequence);
    /// Ends everything and puts all to rest; needs no arming.
    [[nodiscard]] Result<void> stop();
    /// Back to work after stop().
    [[nodiscard]] Result<void> go_on();

    [[nodiscard]] Result<BoardStatus> status();
    [[nodiscard]] Result<std::vector<LogEntry>> read_log(const LinkProgress& progress = {});
    [[nodiscard]] Result<void> clear_log();

    /// Asks so many times for an echo.
    [[nodiscard]] Result<LinkLatency> measure_latency(int times = 20);

    [[nodiscard]] const LineTrouble& trouble() const { return exchange_.trouble(); }
    [[nodiscard]] bool lost() const { return exchange_.lost(); }

  private:
    [[nodiscard]] Result<BoardReply> ask(Request request, std::optional<std::size_t> size,
                                         std::span<const std::uint8_t> payload = {});
    [[nodiscard]] Result<void> command(Request request, const LinkBytes& payload);
    [[nodiscard]] Result<std::uint32_t> token() const;
    [[nodiscard]] Result<std::size_t> begin_load(std::string_view image);
    [[nodiscard]] Result<void> send_chunks(std::string_view image, std::size_t from, std::size_t chunk,
                                           const LinkProgress& progress);
    [[nodiscard]] Result<void> commit(std::string_view image);
    [[nodiscard]] Result<std::string> read_bytes(std::size_t count, const LinkProgress& progress);

    LinkExchange exchange_;
    std::optional<std::uint16_t> token_;
};

}  // namespace gasp
