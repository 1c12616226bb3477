// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace gasp {

/// Lines of cells in aligned columns, for people. Cells are made fit for a terminal.
class TextGrid {
  public:
    enum class Align { left, right };

    explicit TextGrid(std::vector<Align> columns, std::string_view indent = "")
        : columns_(std::move(columns)), indent_(indent) {}

    /// As many cells as columns, or fewer.
    void add(std::vector<std::string> cells);
    [[nodiscard]] std::string text() const;

  private:
    std::vector<Align> columns_;
    std::string indent_;
    std::vector<std::vector<std::string>> lines_;
};

}  // namespace gasp
