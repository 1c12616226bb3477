// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/link/byte_stream.hpp"
#include "tests/board/simulated_chip.hpp"

#include <string>

namespace gasp::board_test {

/// The program's way to a board, with a simulated chip at its end. Time passes at the chip while it is waited
/// for: as much as the deadline leaves, not as much as really passes.
class ChipStream : public ByteStream {
  public:
    explicit ChipStream(SimulatedChip& chip) : chip_(chip) {}

    Result<std::size_t> read(std::span<std::uint8_t> into, Deadline until) override;
    Result<void> write(std::span<const std::uint8_t> bytes, Deadline until) override;
    [[nodiscard]] const std::string& name() const override { return name_; }

  private:
    SimulatedChip& chip_;
    Bytes waiting_;
    std::string name_ = "simulated chip";
};

}  // namespace gasp::board_test
