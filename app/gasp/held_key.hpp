// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <termios.h>

#include <chrono>
#include <optional>

namespace gasp {

/// Whether a key is held on the terminal of standard input. A terminal tells of no key let go: one that is
/// held repeats, and counts as let go when no more comes for 0.7 s (the wait before the first repeat is the
/// longest gap there is). The terminal is put back as it was in the end.
class HeldKey {
  public:
    /// Error: standard input is no terminal.
    [[nodiscard]] static Result<HeldKey> take();
    HeldKey(HeldKey&& other) noexcept;
    HeldKey& operator=(HeldKey&&) = delete;
    ~HeldKey();

    /// Looks for so long; true while a key is held.
    [[nodiscard]] bool held(std::chrono::milliseconds look);
    /// q was pressed, or the terminal is gone.
    [[nodiscard]] bool ended() const { return ended_; }

  private:
    explicit HeldKey(const termios& before) : before_(before) {}

    std::optional<termios> before_;
    std::optional<std::chrono::steady_clock::time_point> last_;
    bool ended_ = false;
};

}  // namespace gasp
