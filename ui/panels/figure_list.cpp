// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/figure_list.hpp"

#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"

#include <QGridLayout>
#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace gasp {
namespace {

constexpr int sign_px = 14;
constexpr int words_least_px = 132;  // shorter ones are not broken

QLabel* selectable(const QString& text) {
    auto* label = new QLabel(text);
    label->setTextFormat(Qt::PlainText);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

void add_line(QGridLayout& grid, int row, const FigureLine& line) {
    auto* words = selectable(line.words);
    words->setWordWrap(true);
    words->setMinimumWidth(std::min(words->fontMetrics().horizontalAdvance(line.words) + 2, words_least_px));
    auto* figure = selectable(line.figure);
    figure->setFont(gasp::font(TypeSize::body, true));
    figure->setAlignment(Qt::AlignRight | Qt::AlignTop);
    figure->setAccessibleName(line.words + ": " + line.figure);
    auto* beside = selectable(line.beside);
    beside->setProperty("look", "soft");
    beside->setWordWrap(true);
    if (line.severity) {
        auto* sign = new QLabel;
        sign->setPixmap(severity_icon(*line.severity).pixmap(sign_px));
        grid.addWidget(sign, row, 2, Qt::AlignTop);
    }
    words->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    beside->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    grid.addWidget(words, row, 0);
    grid.addWidget(figure, row, 1);
    grid.addWidget(beside, row, 3);
    if (!line.below.isEmpty()) {
        auto* below = selectable(line.below);
        below->setProperty("look", "soft");
        below->setWordWrap(true);
        below->setFont(gasp::font(TypeSize::small));
        below->setContentsMargins(grid_px, 0, 0, grid_px / 2);
        grid.addWidget(below, row + 1, 0, 1, 4);
    }
}

}  // namespace

FigureList::FigureList(const QString& title, const QString& empty, QWidget* parent)
    : QWidget(parent), empty_(empty), column_(new QVBoxLayout(this)) {
    setAccessibleName(title);
    column_->setContentsMargins(0, 0, 0, 0);
    column_->setSpacing(grid_px / 2);
    auto* head = new QLabel(title);
    head->setFont(gasp::font(TypeSize::body, true));
    column_->addWidget(head);
    column_->addStretch(1);
    build();
}

void FigureList::put_below(QWidget* widget) {
    column_->insertWidget(column_->count() - 1, widget);
}

void FigureList::set(std::vector<FigureLine> lines) {
    if (lines != lines_) {
        lines_ = std::move(lines);
        build();
    }
}

void FigureList::build() {
    delete body_;
    body_ = new QWidget;
    auto* grid = new QGridLayout(body_);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(grid_px);
    grid->setVerticalSpacing(2);
    grid->setColumnStretch(0, 2);
    grid->setColumnStretch(3, 3);
    if (lines_.empty()) {
        auto* label = new QLabel(empty_);
        label->setProperty("look", "soft");
        label->setWordWrap(true);
        grid->addWidget(label, 0, 0, 1, 4);
    }
    for (std::size_t i = 0; i < lines_.size(); ++i) {
        add_line(*grid, 2 * static_cast<int>(i), lines_[i]);
    }
    column_->insertWidget(1, body_);
}

}  // namespace gasp
