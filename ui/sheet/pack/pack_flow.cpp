// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/pack_flow.hpp"

#include <algorithm>
#include <utility>

namespace gasp {

namespace {

constexpr double column_gap = 26.0;
constexpr double cell_pad = 9.0;
constexpr double fine = 1.5;
constexpr double firm = 4.0;

}  // namespace

/// Where the columns of a table stand.
struct PackFlow::Grid {
    const std::vector<PackColumn>& columns;
    std::vector<double> lefts;
    std::vector<double> widths;
};

QSizeF PackFlow::page_size() const {
    const QSizeF upright = size_of(paper_);
    return landscape_ ? upright.transposed() : upright;
}

void PackFlow::add_page() {
    PackPage page;
    page.landscape = landscape_;
    page.section = sections_.size() - 1;
    pages_.push_back(std::move(page));
    ++sections_.back().pages;
    y_ = top();
}

void PackFlow::section(const QString& title, bool landscape) {
    landscape_ = landscape;
    sections_.push_back({title, page_count() + 1, 0});
    add_page();
}

void PackFlow::new_page() {
    if (y_ > top()) {
        add_page();
    }
}

void PackFlow::need(double height) {
    if (room() < height) {
        new_page();
    }
}

void PackFlow::words(double x, double top, const QString& text, const PrintFace& face) {
    if (!text.isEmpty()) {
        const double line = print_line(face.size);
        const double ascent = measure_.ascent(face);
        const double base = top + (line - ascent - measure_.descent(face)) / 2 + ascent;
        page().words.push_back({{x, base}, text, face});
    }
}

void PackFlow::heading(const QString& text) {
    const PrintFace face{PrintSize::head, true};
    need(print_line(face.size) * 4);
    if (y_ > top()) {
        y_ += print_line(PrintSize::body);
    }
    words(margin, y_, measure_.cut(face, text, width()), face);
    y_ += print_line(face.size) + cell_pad;
}

void PackFlow::paragraph(const QString& text, PrintFace face, int most_lines) {
    for (const QString& line : measure_.lines(face, text, width(), most_lines)) {
        need(print_line(face.size));
        words(margin, y_, line, face);
        y_ += print_line(face.size);
    }
    y_ += cell_pad;
}

void PackFlow::tick_box(const QString& text) {
    constexpr double side = 34.0;
    constexpr double indent = 62.0;
    const PrintFace face;
    const double line = print_line(face.size);
    const QStringList lines = measure_.lines(face, text, width() - indent, std::numeric_limits<int>::max());
    need(line * static_cast<double>(std::min<qsizetype>(lines.size(), 4)));
    const double box_top = y_ + (line - side) / 2;
    const QRectF box(margin, box_top, side, side);
    for (const QLineF& edge :
         {QLineF(box.topLeft(), box.topRight()), QLineF(box.topRight(), box.bottomRight()),
          QLineF(box.bottomRight(), box.bottomLeft()), QLineF(box.bottomLeft(), box.topLeft())}) {
        page().lines.push_back({edge, 3.0, false});
    }
    for (const QString& one : lines) {
        need(line);
        words(margin + indent, y_, one, face);
        y_ += line;
    }
    y_ += cell_pad * 1.6;
}

QRectF PackFlow::drawing(double height, std::function<void(QPainter&, const QRectF&)> paint) {
    need(height);
    const QRectF box(margin, y_, width(), height);
    page().drawings.push_back({box, std::move(paint)});
    y_ += height;
    return box;
}

void PackFlow::table_head(const Grid& grid) {
    const PrintFace face{PrintSize::small, true};
    for (std::size_t i = 0; i < grid.columns.size(); ++i) {
        const QString text = measure_.cut(face, grid.columns[i].title, grid.widths[i]);
        const double indent = grid.columns[i].right ? grid.widths[i] - measure_.width(face, text) : 0.0;
        words(grid.lefts[i] + indent, y_, text, face);
    }
    y_ += print_line(face.size) + cell_pad / 2;
    page().lines.push_back({{margin, y_, margin + width(), y_}, firm, false});
}

void PackFlow::table_row(const Grid& grid, const PackRow& row) {
    const double line = print_line(PrintSize::body);
    const double sign = line;
    std::vector<QStringList> cells(row.size());
    qsizetype most = 1;
    const auto face_of = [&](std::size_t i) {
        return PrintFace{PrintSize::body, grid.columns[i].strong || row[i].strong, row[i].soft};
    };
    for (std::size_t i = 0; i < row.size(); ++i) {
        const double beside = row[i].sign ? sign : 0.0;
        cells[i] =
            measure_.lines(face_of(i), row[i].text, grid.widths[i] - beside, grid.columns[i].most_lines);
        most = std::max(most, cells[i].size());
    }
    const double height = static_cast<double>(most) * line + 2 * cell_pad;
    if (room() < height) {
        new_page();
        table_head(grid);
    }
    for (std::size_t i = 0; i < row.size(); ++i) {
        const double beside = row[i].sign ? sign : 0.0;
        double y = y_ + cell_pad;
        if (row[i].sign) {
            const double side = line * 0.68;
            page().drawings.push_back({{grid.lefts[i], y + (line - side) / 2, side, side}, row[i].sign});
        }
        for (const QString& text : cells[i]) {
            const double indent =
                grid.columns[i].right ? grid.widths[i] - measure_.width(face_of(i), text) : beside;
            words(grid.lefts[i] + indent, y, text, face_of(i));
            y += line;
        }
    }
    y_ += height;
    page().lines.push_back({{margin, y_, margin + width(), y_}, fine, true});
}

void PackFlow::table(const std::vector<PackColumn>& columns, const std::vector<PackRow>& rows) {
    double fixed = column_gap * static_cast<double>(columns.size() - 1);
    double weights = 0.0;
    for (const PackColumn& column : columns) {
        fixed += column.width;
        weights += column.weight;
    }
    Grid grid{columns, {}, {}};
    double x = margin;
    for (const PackColumn& column : columns) {
        const double own = column.weight > 0.0 ? (width() - fixed) * column.weight / weights : column.width;
        grid.lefts.push_back(x);
        grid.widths.push_back(own);
        x += own + column_gap;
    }
    need(print_line(PrintSize::small) + 3 * print_line(PrintSize::body));
    table_head(grid);
    for (const PackRow& row : rows) {
        table_row(grid, row);
    }
    y_ += print_line(PrintSize::body) / 2;
}

}  // namespace gasp
