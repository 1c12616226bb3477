// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <atomic>
#include <functional>
#include <string_view>

namespace gasp {

/// Work that takes a while. How far it is goes to standard error where that is a terminal; Ctrl-C asks it to
/// stop, a second one ends the program. One at a time.
class LongWork {
  public:
    explicit LongWork(std::string_view name);
    /// Clears what it wrote and gives Ctrl-C back.
    ~LongWork();
    LongWork(const LongWork&) = delete;
    LongWork& operator=(const LongWork&) = delete;

    [[nodiscard]] const std::atomic<bool>& stop() const;
    /// Takes the share done, 0..1, from any thread, but one at a time.
    [[nodiscard]] std::function<void(double)> progress();

  private:
    std::string_view name_;
    bool shown_;
    int percent_ = -1;
};

}  // namespace gasp
