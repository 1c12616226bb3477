// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/hold_button.hpp"

#include <QEvent>
#include <QKeyEvent>

#include <utility>

namespace gasp {

namespace {

/// A held key repeats every 30 ms or so: up for longer, it is up.
constexpr int surely_up_ms = 100;

bool holds(const QKeyEvent& event) {
    return event.key() == Qt::Key_Space || event.key() == Qt::Key_Select;
}

}  // namespace

HoldButton::HoldButton(const QIcon& icon, const QString& text, QWidget* parent)
    : QPushButton(icon, text, parent) {
    key_up_.setSingleShot(true);
    key_up_.setInterval(surely_up_ms);
    connect(&key_up_, &QTimer::timeout, this, &HoldButton::end);
    connect(this, &QPushButton::pressed, this, &HoldButton::held);
    connect(this, &QPushButton::released, this, &HoldButton::let_go);
}

void HoldButton::keyPressEvent(QKeyEvent* event) {
    if (!holds(*event)) {
        QPushButton::keyPressEvent(event);
        return;
    }
    key_up_.stop();
    if (!event->isAutoRepeat() && !isDown()) {
        by_key_ = true;
        setDown(true);
        emit held();
    }
}

void HoldButton::keyReleaseEvent(QKeyEvent* event) {
    if (!holds(*event)) {
        QPushButton::keyReleaseEvent(event);
    } else if (!event->isAutoRepeat() && by_key_) {
        key_up_.start();
    }
}

/// Ends what a key began; a mouse button is let go by the button itself.
void HoldButton::end() {
    key_up_.stop();
    if (std::exchange(by_key_, false)) {
        setDown(false);
        emit let_go();
    }
}

void HoldButton::focusOutEvent(QFocusEvent* event) {
    const bool was_held = isDown();
    end();
    QPushButton::focusOutEvent(event);
    if (was_held) {
        emit interrupted();
    }
}

void HoldButton::hideEvent(QHideEvent* event) {
    end();
    QPushButton::hideEvent(event);
}

void HoldButton::changeEvent(QEvent* event) {
    if (event->type() == QEvent::EnabledChange && !isEnabled()) {
        end();
    }
    QPushButton::changeEvent(event);
}

}  // namespace gasp
