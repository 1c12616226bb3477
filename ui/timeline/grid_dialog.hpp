// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/grid.hpp"

#include <QDialog>
#include <QElapsedTimer>

class QComboBox;
class QDoubleSpinBox;
class QLineEdit;
class QPushButton;
class QSpinBox;

namespace gasp {

/// The figures of a grid by frames or beats. The tempo may be tapped in time with the music.
class GridDialog : public QDialog {
    Q_OBJECT

  public:
    /// "Here" takes the playhead's time for the first beat.
    GridDialog(const Grid& grid, Micros playhead, QWidget* parent = nullptr);

    [[nodiscard]] Grid grid() const;

  private:
    void tap();
    void check();

    QComboBox* kind_;
    QComboBox* rate_;
    QDoubleSpinBox* tempo_;
    QSpinBox* bar_;
    QLineEdit* first_;
    QPushButton* good_ = nullptr;
    QElapsedTimer since_first_tap_;
    qint64 last_tap_ms_ = 0;
    int taps_ = 0;
};

}  // namespace gasp
