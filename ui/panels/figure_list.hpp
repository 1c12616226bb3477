// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"

#include <QString>
#include <QWidget>

#include <optional>
#include <vector>

class QVBoxLayout;

namespace gasp {

/// A result in a line: what it is, the figure, and what is to be known of it.
struct FigureLine {
    QString words;
    QString figure;
    QString beside;                    ///< its spread, its limit
    std::optional<Severity> severity;  ///< its sign stands before `beside`
    QString below{};                   ///< more words, in lines of their own
    bool operator==(const FigureLine&) const = default;
};

/// Lines of results under a title, figures in a column of their own.
class FigureList : public QWidget {
    Q_OBJECT

  public:
    /// `empty`: what is said while there are none.
    FigureList(const QString& title, const QString& empty, QWidget* parent = nullptr);

    void set(std::vector<FigureLine> lines);
    [[nodiscard]] const std::vector<FigureLine>& lines() const { return lines_; }
    /// A widget below the lines.
    void put_below(QWidget* widget);

  private:
    void build();

    QString empty_;
    std::vector<FigureLine> lines_;
    QWidget* body_ = nullptr;
    QVBoxLayout* column_;
};

}  // namespace gasp
