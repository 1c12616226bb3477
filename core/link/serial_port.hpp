// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/link/byte_stream.hpp"

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace gasp {

/// A port a board may hang on.
struct PortInfo {
    std::string path;   ///< "/dev/ttyUSB0"
    std::string label;  ///< what the system calls the thing that is plugged in; empty where it says nothing
    bool operator==(const PortInfo&) const = default;
};

/// The serial ports of this machine, those that tell what they are first, each by path. Pseudo-terminals are
/// not among them, but can be opened by their path. `root`: where /sys and /dev are looked for.
[[nodiscard]] std::vector<PortInfo> list_ports(const std::filesystem::path& root = "/");

/// A serial port, or a pseudo-terminal, at 115200 baud, 8 data bits, no parity, 1 stop bit, no flow control.
/// It is ours alone while it is open. Opening it resets many boards.
class SerialPort : public ByteStream {
  public:
    /// Error: there is no such port; the user may not open it (the group that may is named); another program
    /// has it; it is no serial port.
    [[nodiscard]] static Result<std::unique_ptr<SerialPort>> open(const std::string& path);
    ~SerialPort() override;

    Result<std::size_t> read(std::span<std::uint8_t> into, Deadline until) override;
    Result<void> write(std::span<const std::uint8_t> bytes, Deadline until) override;
    [[nodiscard]] const std::string& name() const override { return path_; }

  private:
    SerialPort(int file, std::string path) : file_(file), path_(std::move(path)) {}
    [[nodiscard]] Result<void> settle() const;
    [[nodiscard]] tl::unexpected<Error> gone() const;

    int file_;
    std::string path_;
};

}  // namespace gasp
