// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/name_editor.hpp"

#include <QKeyEvent>

#include <algorithm>
#include <utility>

namespace gasp {

namespace {

constexpr int least_width_px = 120;
constexpr int longest_name = 200;

}  // namespace

NameEditor::NameEditor(QWidget* parent) : QLineEdit(parent) {
    setMaxLength(longest_name);
    setAccessibleName(tr("Name"));
    connect(this, &QLineEdit::editingFinished, this, [this] { close_with(true); });
    hide();
}

void NameEditor::open(const QRect& box, const QString& name, std::function<void(const QString&)> keep) {
    close_with(true);
    keep_ = std::move(keep);
    QRect place(box.topLeft(),
                QSize(std::max(box.width(), least_width_px), std::max(box.height(), sizeHint().height())));
    place.moveLeft(std::clamp(place.left(), 0, std::max(0, parentWidget()->width() - place.width())));
    setGeometry(place);
    setText(name);
    selectAll();
    show();
    raise();
    setFocus(Qt::OtherFocusReason);
}

void NameEditor::close_with(bool keep) {
    // Taken first: hiding the field makes it lose the focus, which comes here again.
    const auto told = std::exchange(keep_, nullptr);
    if (!told) {
        return;
    }
    if (keep) {
        told(text().trimmed());
    }
    hide();
}

void NameEditor::keyPressEvent(QKeyEvent* event) {
    const int key = event->key();
    if (key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Escape) {
        close_with(key != Qt::Key_Escape);
        parentWidget()->setFocus(Qt::OtherFocusReason);
    } else {
        QLineEdit::keyPressEvent(event);
    }
}

void NameEditor::focusOutEvent(QFocusEvent* event) {
    QLineEdit::focusOutEvent(event);
    if (event->reason() != Qt::PopupFocusReason) {
        close_with(true);
    }
}

}  // namespace gasp
