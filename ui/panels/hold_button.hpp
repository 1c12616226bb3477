// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QPushButton>
#include <QTimer>

namespace gasp {

/// A button that says when it is held down and when it is let go, by mouse or space bar. The repeats of a
/// held key are no new presses, even where the screen's system shows them as such; whoever loses the focus
/// while it is held did not let go on purpose, and it says so.
class HoldButton : public QPushButton {
    Q_OBJECT

  public:
    HoldButton(const QIcon& icon, const QString& text, QWidget* parent = nullptr);

  signals:
    void held();
    void let_go();
    void interrupted();  ///< after let_go()

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void keyReleaseEvent(QKeyEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void end();
    QTimer key_up_;  ///< runs while it is not known yet whether the key is really up
    bool by_key_ = false;
};

}  // namespace gasp
