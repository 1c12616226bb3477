// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <set>
#include <string>
#include <string_view>

namespace gasp {

/// Names as identifiers, each given once: lower-case ASCII letters, digits and single underscores inside,
/// never one at an end, at most 40 characters and a number behind those that were given before. Made for
/// being put behind a prefix: a name may begin with a digit or be a word of C.
class CNames {
  public:
    [[nodiscard]] std::string give(std::string_view name);

  private:
    std::set<std::string> given_;
};

/// The same for a preprocessor's name.
[[nodiscard]] std::string upper_case(std::string_view identifier);

}  // namespace gasp
