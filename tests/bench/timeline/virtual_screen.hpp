// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <sys/types.h>

namespace gasp {

/// An X server of our own without a screen, for as long as this lives; DISPLAY names it. Needs Xvfb.
class VirtualScreen {
  public:
    VirtualScreen();
    ~VirtualScreen();
    VirtualScreen(const VirtualScreen&) = delete;
    VirtualScreen& operator=(const VirtualScreen&) = delete;

    [[nodiscard]] bool running() const { return running_; }

  private:
    pid_t server_ = -1;
    bool running_ = false;
};

}  // namespace gasp
