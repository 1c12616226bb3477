// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QLineEdit>

#include <functional>

namespace gasp {

/// A line to type a new name in, over the thing that is named. Enter and leaving it keep the name, Escape
/// does not.
class NameEditor : public QLineEdit {
    Q_OBJECT

  public:
    explicit NameEditor(QWidget* parent);

    void open(const QRect& box, const QString& name, std::function<void(const QString&)> keep);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    void close_with(bool keep);

    std::function<void(const QString&)> keep_;
};

}  // namespace gasp
