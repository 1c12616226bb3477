// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/panel_parts.hpp"

#include "ui/look/look.hpp"

#include <QAction>
#include <QApplication>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QVBoxLayout>

namespace gasp {
namespace {

constexpr int form_px = 288;

}  // namespace

QAction* make_action(QObject* parent, Icon sign, const QString& text, const char* key, const QString& help) {
    auto* action = new QAction(icon(sign), text, parent);
    action->setShortcut(QKeySequence(key));
    const QString shown = action->shortcut().toString(QKeySequence::NativeText);
    action->setToolTip(shown.isEmpty() ? help : QStringLiteral("%1 (%2)").arg(help, shown));
    action->setStatusTip(help);
    return action;
}

QString sentence_of(const Error& error) {
    QString text = QString::fromStdString(error.text());
    text[0] = text[0].toUpper();
    return text;
}

QWidget* scrolled_form(QWidget* page) {
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setFocusPolicy(Qt::NoFocus);
    area->setFixedWidth(form_px);
    area->setWidget(page);
    // A field that is given the focus because something is wrong with it may lie outside what is seen.
    QObject::connect(qApp, &QApplication::focusChanged, area, [area, page](QWidget*, QWidget* now) {
        if (now != nullptr && page->isAncestorOf(now)) {
            area->ensureWidgetVisible(now);
        }
    });
    return area;
}

void lay_panel(QWidget* panel, QWidget* form, QWidget* bar, QWidget* results) {
    auto* right = new QVBoxLayout;
    right->setSpacing(0);
    bar->setContentsMargins(grid_px, grid_px / 2, grid_px, grid_px / 2);
    right->addWidget(bar);
    right->addWidget(results, 1);
    auto* row = new QHBoxLayout(panel);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(form);
    row->addLayout(right, 1);
}

}  // namespace gasp
