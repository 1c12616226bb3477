// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/paper.hpp"

#include <QColor>
#include <QFont>
#include <QFontMetricsF>
#include <QHash>
#include <QSizeF>
#include <QString>
#include <QStringList>

#include <array>
#include <optional>

namespace gasp {

// Pages are measured in tenths of a millimetre, type as well.

/// Upright.
[[nodiscard]] QSizeF size_of(Paper paper);

/// One family in four sizes on paper.
enum class PrintSize {
    small,  ///< 7 pt: heads of columns, second lines, labels in drawings
    body,   ///< 8.5 pt: everything else
    head,   ///< 11.5 pt: headings
    title,  ///< 20 pt: the name of a section, of the show, of a notice
};

inline constexpr std::size_t print_sizes = 4;

[[nodiscard]] int print_px(PrintSize size);
/// The distance from line to line.
[[nodiscard]] double print_line(PrintSize size);
/// Digits are all of one width.
[[nodiscard]] QFont print_font(PrintSize size, bool strong = false);

/// Ink of the pages: black on white, and one grey that is 4.5:1 against it.
[[nodiscard]] QColor print_ink(bool soft = false);
/// Of thin rules between rows.
[[nodiscard]] QColor print_rule();

struct PrintFace {
    PrintSize size = PrintSize::body;
    bool strong = false;
    bool soft = false;
};

/// How wide words are on the page, and how they fall into lines. Remembers widths: tables say the same words
/// again and again. One for each thread.
class PrintMeasure {
  public:
    PrintMeasure();

    [[nodiscard]] double width(const PrintFace& face, const QString& text);
    /// The height of its letters above the line, and below it.
    [[nodiscard]] double ascent(const PrintFace& face) const;
    [[nodiscard]] double descent(const PrintFace& face) const;
    /// The text, cut with an ellipsis where it is too long; at least the ellipsis.
    [[nodiscard]] QString cut(const PrintFace& face, const QString& text, double width);
    /// In lines no wider than that, broken between words where it can be; what does not go into `most_lines`
    /// is cut with an ellipsis. At least one line.
    [[nodiscard]] QStringList lines(const PrintFace& face, const QString& text, double width, int most_lines);

  private:
    struct Style {
        QFont font;
        std::optional<QFontMetricsF> metrics;
        QHash<QString, double> widths;
    };
    [[nodiscard]] Style& style(const PrintFace& face);

    std::array<Style, 2 * print_sizes> styles_;
};

}  // namespace gasp
