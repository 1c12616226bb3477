// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>

namespace gasp {

using LinkClock = std::chrono::steady_clock;
using Deadline = LinkClock::time_point;

/// Bytes to a board and back: a serial port, or what a test puts in its place. Every wait has an end.
class ByteStream {
  public:
    ByteStream() = default;
    ByteStream(const ByteStream&) = delete;
    ByteStream& operator=(const ByteStream&) = delete;
    virtual ~ByteStream() = default;

    /// Takes what has come, waiting for its first byte until the deadline. 0: nothing came in time.
    /// Error: the other end is gone for good.
    virtual Result<std::size_t> read(std::span<std::uint8_t> into, Deadline until) = 0;
    /// Writes all bytes. Error: the other end is gone, or does not take them until the deadline.
    virtual Result<void> write(std::span<const std::uint8_t> bytes, Deadline until) = 0;
    /// What errors call it: the port's path.
    [[nodiscard]] virtual const std::string& name() const = 0;
};

}  // namespace gasp
