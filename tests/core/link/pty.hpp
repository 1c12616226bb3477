// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <fcntl.h>
#include <stdlib.h>
#include <unistd.h>

#include <stdexcept>
#include <string>

namespace gasp::testing {

/// A pseudo-terminal: we hold the end of the board, the program opens the other by its path.
class Pty {
  public:
    Pty() : board_(::posix_openpt(O_RDWR | O_NOCTTY)) {
        if (board_ < 0 || ::grantpt(board_) != 0 || ::unlockpt(board_) != 0) {
            throw std::runtime_error("no pseudo-terminal");
        }
        path_ = ::ptsname(board_);
    }
    ~Pty() { unplug(); }
    Pty(const Pty&) = delete;
    Pty& operator=(const Pty&) = delete;

    [[nodiscard]] int board() const { return board_; }
    [[nodiscard]] const std::string& path() const { return path_; }
    void unplug() {
        if (board_ >= 0) {
            ::close(board_);
            board_ = -1;
        }
    }

  private:
    int board_;
    std::string path_;
};

}  // namespace gasp::testing
