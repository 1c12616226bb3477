// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>

namespace gasp {

/// FNV-1a of 64 bits (offset basis and prime as its authors published them: G. Fowler, L. C. Noll, K.-P. Vo,
/// draft-eastlake-fnv). Tells bytes apart; no guard against someone who wants two alike.
class Fnv1a {
  public:
    constexpr void add(const auto& bytes) {
        for (const auto byte : bytes) {
            value_ = (value_ ^ static_cast<std::uint8_t>(byte)) * 0x100000001b3U;
        }
    }
    [[nodiscard]] constexpr std::uint64_t value() const { return value_; }

  private:
    std::uint64_t value_ = 0xcbf29ce484222325U;
};

}  // namespace gasp
