// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QEvent>
#include <QObject>
#include <QTimer>
#include <QWidget>

#include <cstdio>

namespace gasp {

/// Tells once when a window has been painted whole for the first time.
class FirstPaint : public QObject {
    Q_OBJECT

  public:
    explicit FirstPaint(QWidget& window) : QObject(&window) { window.installEventFilter(this); }

  signals:
    void painted();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::Paint) {
            watched->removeEventFilter(this);
            // The parts of the window are painted in the same turn of the event loop.
            QTimer::singleShot(0, this, &FirstPaint::painted);
        }
        return QObject::eventFilter(watched, event);
    }
};

/// What a benchmark waits for.
inline void print_painted() {
    std::puts("painted");
    std::fflush(stdout);
}

}  // namespace gasp
