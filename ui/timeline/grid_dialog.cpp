// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/grid_dialog.hpp"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>

#include <algorithm>

namespace gasp {

namespace {

/// Whoever pauses for longer begins to tap anew.
constexpr qint64 longest_beat_ms = 3000;

QWidget* side_by_side(QWidget* first, QWidget* second) {
    auto* both = new QWidget;
    auto* row = new QHBoxLayout(both);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(first, 1);
    row->addWidget(second);
    return both;
}

}  // namespace

GridDialog::GridDialog(const Grid& grid, Micros playhead, QWidget* parent)
    : QDialog(parent),
      kind_(new QComboBox),
      rate_(new QComboBox),
      tempo_(new QDoubleSpinBox),
      bar_(new QSpinBox),
      first_(new QLineEdit(QString::fromStdString(print_time(grid.first_beat)))) {
    setWindowTitle(tr("Grid of the ruler"));
    kind_->addItems({tr("Seconds"), tr("Frames"), tr("Beats")});
    kind_->setCurrentIndex(static_cast<int>(grid.kind));
    rate_->addItems({tr("24 a second (film)"), tr("25 a second"), tr("29.97 a second, drop frame"),
                     tr("29.97 a second, non-drop"), tr("30 a second")});
    rate_->setCurrentIndex(static_cast<int>(grid.rate));
    tempo_->setButtonSymbols(QAbstractSpinBox::NoButtons);
    bar_->setButtonSymbols(QAbstractSpinBox::NoButtons);
    tempo_->setRange(fewest_beats_a_minute, most_beats_a_minute);
    tempo_->setDecimals(2);
    tempo_->setSuffix(tr(" a minute"));
    tempo_->setValue(grid.beats_a_minute);
    bar_->setRange(1, most_beats_a_bar);
    bar_->setValue(grid.beats_a_bar);
    first_->setObjectName("first beat");
    auto* tap = new QPushButton(tr("&Tap"));
    tap->setToolTip(tr("Press this (Alt+T) on each beat: the tempo becomes the mean of what was tapped"));
    auto* here = new QPushButton(tr("At the &playhead"));
    connect(tap, &QPushButton::pressed, this, &GridDialog::tap);
    connect(here, &QPushButton::clicked, this,
            [this, playhead] { first_->setText(QString::fromStdString(print_time(playhead, 6))); });
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    good_ = buttons->button(QDialogButtonBox::Ok);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(first_, &QLineEdit::textChanged, this, &GridDialog::check);
    auto* form = new QFormLayout(this);
    form->addRow(tr("&Divide by"), kind_);
    form->addRow(tr("&Frames"), rate_);
    form->addRow(tr("&Beats"), side_by_side(tempo_, tap));
    form->addRow(tr("Beats in a b&ar"), bar_);
    form->addRow(tr("F&irst beat"), side_by_side(first_, here));
    form->addRow(buttons);
    // A row of two widgets names neither by itself.
    tempo_->setAccessibleName(tr("Beats a minute"));
    first_->setAccessibleName(tr("First beat"));
}

Grid GridDialog::grid() const {
    Grid grid;
    grid.kind = static_cast<Grid::Kind>(kind_->currentIndex());
    grid.rate = static_cast<FrameRate>(rate_->currentIndex());
    grid.beats_a_minute = tempo_->value();
    grid.beats_a_bar = bar_->value();
    grid.first_beat = parse_time(first_->text().toStdString()).value_or(Micros{-1});
    return grid;
}

void GridDialog::tap() {
    const qint64 now_ms = since_first_tap_.isValid() ? since_first_tap_.elapsed() : 0;
    if (!since_first_tap_.isValid() || now_ms - last_tap_ms_ > longest_beat_ms) {
        since_first_tap_.start();
        taps_ = 0;
        last_tap_ms_ = 0;
        return;
    }
    last_tap_ms_ = now_ms;
    ++taps_;
    constexpr double minute_ms = 60'000.0;
    tempo_->setValue(minute_ms * taps_ / static_cast<double>(std::max<qint64>(now_ms, 1)));
}

void GridDialog::check() {
    const bool good = valid(grid());
    good_->setEnabled(good);
    first_->setToolTip(good ? QString() : tr("Write a time from 0 to 24 h, as 1:02.5 or 250 ms"));
}

}  // namespace gasp
