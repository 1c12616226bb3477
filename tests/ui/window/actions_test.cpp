// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/ui/window/open_window.hpp"
#include "ui/window/help_windows.hpp"

#include <QAbstractButton>
#include <QComboBox>
#include <QMenu>
#include <QMenuBar>
#include <QTreeWidget>

#include <map>
#include <memory>

using namespace gasp;

namespace {

/// Actions a menu leads to, whatever the depth.
void collect(const QList<QAction*>& actions, QList<QAction*>& all) {
    for (QAction* action : actions) {
        if (action->menu() != nullptr) {
            collect(action->menu()->actions(), all);
        } else if (!action->isSeparator()) {
            all << action;
        }
    }
}

}  // namespace

TEST_CASE("no key means two things at once") {
    OpenWindow desk;
    std::map<QString, QString> everywhere;
    std::map<std::pair<QObject*, QString>, QString> in_a_panel;
    for (const QAction* action : desk.window.findChildren<QAction*>()) {
        for (const QKeySequence& key : action->shortcuts()) {
            INFO(action->text().toStdString() << ": " << key.toString().toStdString());
            const auto [it, fresh] =
                in_a_panel.try_emplace({action->parent(), key.toString()}, action->text());
            CHECK(fresh);
            if (action->shortcutContext() == Qt::WindowShortcut) {
                CHECK(everywhere.try_emplace(key.toString(), action->text()).second);
            }
        }
    }
    for (const QAction* action : desk.window.findChildren<QAction*>()) {
        if (action->shortcutContext() != Qt::WindowShortcut) {
            for (const QKeySequence& key : action->shortcuts()) {
                INFO(action->text().toStdString() << ": " << key.toString().toStdString());
                CHECK(everywhere.count(key.toString()) == 0);
            }
        }
    }
}

// Qt's documentation of QKeySequence, "Standard Shortcuts", lists both for X11, where a text field takes them
// before the window does. Seen so with Qt 6.4.2.
TEST_CASE("no key of the window ends or clears a line that is being typed") {
    OpenWindow desk;
    for (const QAction* action : desk.window.findChildren<QAction*>()) {
        INFO(action->text().toStdString());
        CHECK_FALSE(action->shortcuts().contains(QKeySequence("Ctrl+E")));
        CHECK_FALSE(action->shortcuts().contains(QKeySequence("Ctrl+U")));
    }
}

TEST_CASE("every action of the menus has words, and the list of keys has every key") {
    OpenWindow desk;
    QList<QAction*> all;
    collect(desk.window.menuBar()->actions(), all);
    CHECK(all.size() > 40);
    const std::unique_ptr<QDialog> keys(make_keys_window(&desk.window));
    auto* list = keys->findChild<QTreeWidget*>();
    for (const QAction* action : all) {
        INFO(action->text().toStdString());
        CHECK_FALSE(plain_text(*action).isEmpty());
        CHECK_FALSE(action->toolTip().isEmpty());
        if (!action->shortcut().isEmpty()) {
            CHECK_FALSE(list->findItems(plain_text(*action), Qt::MatchExactly).isEmpty());
        }
    }
}

TEST_CASE("every widget that takes the focus has a name for those who cannot see it") {
    OpenWindow desk;
    desk.window.rig().add(PartKind::channel);
    for (const QWidget* widget : desk.window.findChildren<QWidget*>()) {
        if (!widget->isVisible() || (widget->focusPolicy() & Qt::TabFocus) == 0 ||
            widget->focusProxy() != nullptr) {
            continue;
        }
        const auto* button = qobject_cast<const QAbstractButton*>(widget);
        const bool named = !widget->accessibleName().isEmpty() ||
                           (button != nullptr && !button->text().isEmpty()) || !widget->toolTip().isEmpty();
        INFO(widget->metaObject()->className() << " in " << widget->parent()->metaObject()->className());
        CHECK(named);
    }
}

TEST_CASE("the cautions defer to codes and people, and promise nothing") {
    const QString text = cautions_text();
    CHECK(text.contains("no protective system"));
    CHECK(text.contains("hardware"));
    CHECK(text.contains("Local codes"));
    CHECK_FALSE(text.contains("safe", Qt::CaseInsensitive));
}
