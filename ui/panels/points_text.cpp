// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/points_text.hpp"

#include "core/show/limits.hpp"

#include <QRegularExpression>

#include <fmt/format.h>

#include <algorithm>

namespace gasp {
namespace {

bool is_blank(const QStringList& cells) {
    return std::ranges::all_of(cells, [](const QString& cell) { return cell.trimmed().isEmpty(); });
}

bool has_digit(const QStringList& cells) {
    static const QRegularExpression digit("\\d");
    return cells.join(' ').contains(digit);
}

QStringList cells_of_line(const QString& line) {
    static const QRegularExpression blanks(R"(\s+(?=[-+.,\d]))");  // a unit may stand apart from its number
    if (line.contains('\t')) {
        return line.split('\t');
    }
    return line.contains(';') ? line.split(';') : line.trimmed().split(blanks);
}

tl::unexpected<Error> in_row(std::size_t row, const std::string& what, const std::string& remedy) {
    return fail(fmt::format("row {}: {}", row + 1, what), {}, remedy);
}

/// One cell, within its range.
Result<double> read_cell(const QStringList& cells, int column, std::size_t row, UnitSystem units) {
    const bool travel = column == 0;
    const Quantity quantity = travel ? Quantity::small_length : Quantity::angle;
    const char* name = travel ? "travel" : "slope";
    const QString text = column < cells.size() ? cells[column].trimmed() : QString();
    if (text.isEmpty()) {
        return in_row(row, fmt::format("no {}", name), "Fill it in, or remove the row");
    }
    const auto value = parse_quantity(quantity, text.toStdString(), units);
    if (!value) {
        return in_row(row, value.error().what, value.error().remedy);
    }
    const double least = travel ? 0.0 : -most_point_deg;
    const double most = travel ? most_point_travel_mm : most_point_deg;
    if (*value < least || *value > most) {
        return in_row(row, fmt::format("{} is out of range", print_quantity(quantity, *value, units)),
                      fmt::format("Enter {} to {}", print_quantity(quantity, least, units),
                                  print_quantity(quantity, most, units)));
    }
    return *value;
}

}  // namespace

std::vector<QStringList> rows_of_text(const QString& text) {
    static const QRegularExpression line_end("\r\n|\r|\n");
    std::vector<QStringList> rows;
    for (const QString& line : text.split(line_end)) {
        const QStringList cells = cells_of_line(line);
        if (!is_blank(cells) && (!rows.empty() || has_digit(cells))) {
            rows.push_back(cells);
        }
    }
    return rows;
}

Result<std::vector<LinkagePoint>> read_points(std::span<const QStringList> rows, UnitSystem units) {
    std::vector<LinkagePoint> points;
    for (std::size_t row = 0; row < rows.size(); ++row) {
        if (is_blank(rows[row])) {
            continue;
        }
        const auto travel = read_cell(rows[row], 0, row, units);
        if (!travel) {
            return tl::unexpected(travel.error());
        }
        const auto slope = read_cell(rows[row], 1, row, units);
        if (!slope) {
            return tl::unexpected(slope.error());
        }
        if (!points.empty() && *travel <= points.back().travel_mm) {
            const auto printed = [&](double mm) { return print_quantity(Quantity::small_length, mm, units); };
            return in_row(row,
                          fmt::format("{} of travel does not come after {}", printed(*travel),
                                      printed(points.back().travel_mm)),
                          "Give the points from rod in to rod out, each at more travel");
        }
        points.push_back({*travel, *slope});
    }
    if (points.size() > most_points) {
        return in_row(most_points, "too many points", fmt::format("Keep at most {}", most_points));
    }
    return points;
}

QStringList cells_of(const LinkagePoint& point, UnitSystem units) {
    return {QString::fromStdString(print_number(Quantity::small_length, point.travel_mm, units)),
            QString::fromStdString(print_number(Quantity::angle, point.arm_deg, units))};
}

}  // namespace gasp
