// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/sheet/print_type.hpp"

#include <QLineF>
#include <QRectF>

#include <functional>
#include <limits>
#include <vector>

class QPainter;

namespace gasp {

/// One line of words, its left end on its base line.
struct PackWords {
    QPointF at;
    QString text;
    PrintFace face;
};

struct PackLine {
    QLineF line;
    double width = 2.0;
    bool soft = false;
};

/// Anything else: painted within a box of the page.
struct PackDrawing {
    QRectF box;
    std::function<void(QPainter&, const QRectF&)> paint;
};

struct PackPage {
    bool landscape = false;
    std::size_t section = 0;
    std::vector<PackWords> words;
    std::vector<PackLine> lines;
    std::vector<PackDrawing> drawings;
};

/// A part of the pack that begins on a page of its own.
struct PackSection {
    QString title;
    int first_page = 1;
    int pages = 0;
};

struct PackColumn {
    QString title;
    double width = 0.0;   ///< fixed; or
    double weight = 0.0;  ///< its part of what the fixed ones leave
    bool right = false;   ///< figures stand at the right
    bool strong = false;
    int most_lines = 4;
};

struct PackCell {
    QString text;
    bool soft = false;
    bool strong = false;
    /// A sign at its left, in a square of a line's height; may be empty.
    std::function<void(QPainter&, const QRectF&)> sign = {};

    PackCell(QString words = {}) : text(std::move(words)) {}         // NOLINT: a cell is its words
    PackCell(const char* words) : text(QString::fromUtf8(words)) {}  // NOLINT
    PackCell(QString words, bool in_grey) : text(std::move(words)), soft(in_grey) {}
};

using PackRow = std::vector<PackCell>;

/// The pages as they fill: sections begin a page, everything else stands below what was put before it, on a
/// new page where there is no room. Nothing is painted.
class PackFlow {
  public:
    static constexpr double margin = 150.0;
    static constexpr double head_height = 110.0;  ///< of the page's head above the margin's inside
    static constexpr double foot_height = 90.0;

    explicit PackFlow(Paper paper) : paper_(paper) {}

    void section(const QString& title, bool landscape = false);
    void heading(const QString& text);
    void paragraph(const QString& text, PrintFace face = {},
                   int most_lines = std::numeric_limits<int>::max());
    /// A line to be ticked, a box at its left.
    void tick_box(const QString& text);
    void table(const std::vector<PackColumn>& columns, const std::vector<PackRow>& rows);
    /// The box it will have.
    QRectF drawing(double height, std::function<void(QPainter&, const QRectF&)> paint);
    void gap(double height) { y_ += height; }
    /// A new page of the same section, unless this one is empty.
    void new_page();
    /// A new page where less than this is left.
    void need(double height);

    [[nodiscard]] double room() const { return bottom() - y_; }
    [[nodiscard]] double width() const { return page_size().width() - 2 * margin; }
    [[nodiscard]] double y() const { return y_; }
    [[nodiscard]] double left() const { return margin; }
    [[nodiscard]] QSizeF page_size() const;
    [[nodiscard]] PackPage& page() { return pages_.back(); }
    [[nodiscard]] PrintMeasure& measure() { return measure_; }
    [[nodiscard]] int page_count() const { return static_cast<int>(pages_.size()); }

    [[nodiscard]] std::vector<PackPage>& pages() { return pages_; }
    [[nodiscard]] std::vector<PackSection>& sections() { return sections_; }

  private:
    struct Grid;
    void add_page();
    void words(double x, double top, const QString& text, const PrintFace& face);
    void table_head(const Grid& grid);
    void table_row(const Grid& grid, const PackRow& row);
    [[nodiscard]] double top() const { return margin + head_height; }
    [[nodiscard]] double bottom() const { return page_size().height() - margin - foot_height; }

    Paper paper_;
    bool landscape_ = false;
    double y_ = 0.0;
    PrintMeasure measure_;
    std::vector<PackPage> pages_;
    std::vector<PackSection> sections_;
};

}  // namespace gasp
