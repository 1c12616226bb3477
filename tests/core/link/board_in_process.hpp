// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/link/byte_stream.hpp"

#include <cstdint>
#include <deque>
#include <string>
#include <vector>

namespace gasp::testing {

/// The board player itself, compiled into the test, at the other end of a stream. Its clock goes on only
/// while it is waited for, so that time-outs cost no time. One at a time.
class BoardInProcess : public ByteStream {
  public:
    BoardInProcess();
    ~BoardInProcess() override;

    Result<std::size_t> read(std::span<std::uint8_t> into, Deadline until) override;
    Result<void> write(std::span<const std::uint8_t> bytes, Deadline until) override;
    [[nodiscard]] const std::string& name() const override { return name_; }

    /// Power goes and comes back; what is kept is kept.
    void power_cycle();
    void pass(std::chrono::microseconds time);
    void trip() { trigger_us_ = 100'000; }
    void open_output_enable(bool open) { open_ = open; }
    [[nodiscard]] std::uint32_t levels() const { return levels_; }
    [[nodiscard]] const std::vector<std::uint8_t>& store() const { return store_; }

    // What the player asks of its port:
    std::vector<std::uint8_t> store_;
    std::vector<std::uint8_t> kept_;
    std::deque<std::uint8_t> to_host_;
    std::uint32_t levels_ = 0;
    std::uint64_t clock_us_ = 0;
    std::uint64_t since_power_up_ = 0;
    std::uint64_t tick_us_ = 1000;

  private:
    std::string name_ = "board in process";
    std::uint64_t next_tick_ = 0;
    std::uint64_t trigger_us_ = 0;
    bool open_ = false;
    bool sampling_ = false;
    bool was_active_ = false;
};

}  // namespace gasp::testing
