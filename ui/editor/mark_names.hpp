// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"

#include <set>
#include <string>

namespace gasp {

/// Names that no mark of a sequence has yet, each given once.
class MarkNames {
  public:
    explicit MarkNames(const Sequence& sequence);
    /// "Word 1" of "Word", or the first such name that is free.
    [[nodiscard]] std::string next(const std::string& stem);

  private:
    std::set<std::string> taken_;
};

/// "Mark 1", or the first such name that is free.
[[nodiscard]] std::string next_mark_name(const Sequence& sequence);

}  // namespace gasp
