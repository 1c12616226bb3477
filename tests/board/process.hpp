// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <sys/types.h>

#include <string>
#include <vector>

namespace gasp::board_test {

/// A program that runs beside the test, its standard input and output in our hands; ended with the object.
class Process {
  public:
    explicit Process(const std::vector<std::string>& command);
    ~Process();
    Process(const Process&) = delete;
    Process& operator=(const Process&) = delete;

    void write(const std::vector<unsigned char>& bytes) const;
    /// What has come since, waiting at most so long for the first byte.
    [[nodiscard]] std::vector<unsigned char> read(int most_ms) const;
    /// Everything up to its end of its own accord, within a minute.
    [[nodiscard]] std::string output() const;

  private:
    pid_t pid_ = -1;
    int in_ = -1;
    int out_ = -1;
};

}  // namespace gasp::board_test
