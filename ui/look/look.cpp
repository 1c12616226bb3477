// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/look.hpp"

#include "ui/look/drawn_style.hpp"

#include <QApplication>
#include <QPalette>

namespace gasp {

namespace {

Theme& worn() {
    static Theme theme = Theme::dark;
    return theme;
}

QPalette qt_palette(const Palette& p) {
    QPalette q;
    q.setColor(QPalette::Window, p.ground);
    q.setColor(QPalette::WindowText, p.text);
    q.setColor(QPalette::Base, p.canvas);
    q.setColor(QPalette::AlternateBase, p.canvas_soft);
    q.setColor(QPalette::Text, p.text);
    q.setColor(QPalette::PlaceholderText, p.text_soft);
    q.setColor(QPalette::Button, p.raised);
    q.setColor(QPalette::ButtonText, p.text);
    q.setColor(QPalette::BrightText, p.stop_text);
    q.setColor(QPalette::ToolTipBase, p.raised);
    q.setColor(QPalette::ToolTipText, p.text);
    q.setColor(QPalette::Highlight, p.selection);
    q.setColor(QPalette::HighlightedText, p.text);
    q.setColor(QPalette::Link, p.brass_text);
    q.setColor(QPalette::LinkVisited, p.brass_text);
    q.setColor(QPalette::Light, p.raised.lighter(120));
    q.setColor(QPalette::Midlight, p.raised);
    q.setColor(QPalette::Mid, p.rule);
    q.setColor(QPalette::Dark, p.rule_strong);
    q.setColor(QPalette::Shadow, p.canvas.darker(140));
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        q.setColor(QPalette::Disabled, role, p.text_soft);
    }
    return q;
}

/// What the palette cannot say. %1 to %6: ground, canvas, raised, rule, rule_strong, text; %7 to %9:
/// text_soft, brass, selection.
constexpr const char* style_sheet = R"(
QToolTip { background: %3; color: %6; border: 1px solid %5; padding: 4px 6px; }
QMainWindow::separator { background: %4; width: 1px; height: 1px; }
QMainWindow::separator:hover { background: %8; }
QToolBar { background: %1; border: none; border-bottom: 1px solid %4; spacing: 4px; padding: 4px 8px; }
QToolBar::separator { background: %4; width: 1px; margin: 4px 4px; }
QToolButton { background: transparent; border: 1px solid transparent; border-radius: 2px; padding: 4px; }
QToolButton:hover { background: %3; border-color: %4; }
QToolButton:pressed, QToolButton:checked { background: %9; border-color: %8; }
QToolButton:focus { border-color: %8; }
QStatusBar { background: %1; border-top: 1px solid %4; }
QStatusBar::item { border: none; }
QMenuBar { background: %1; } QMenuBar::item { padding: 4px 8px; background: transparent; }
QMenuBar::item:selected { background: %9; }
QMenu { background: %3; border: 1px solid %5; padding: 4px 0; }
QMenu::item { padding: 4px 24px 4px 8px; } QMenu::item:selected { background: %9; }
QMenu::icon { padding-left: 8px; }
QMenu::item:disabled { color: %7; } QMenu::separator { height: 1px; background: %4; margin: 4px 0; }
QDockWidget { titlebar-close-icon: none; titlebar-normal-icon: none; }
QDockWidget::title { background: %1; padding: 6px 8px; border-bottom: 1px solid %4; }
QTabBar::tab { background: %1; color: %7; padding: 6px 16px; border: none; border-bottom: 2px solid transparent; }
QTabBar::tab:selected { color: %6; border-bottom-color: %8; }
QTabBar::tab:hover { color: %6; } QTabWidget::pane { border: none; border-top: 1px solid %4; }
QHeaderView::section { background: %1; color: %7; border: none; border-bottom: 1px solid %4; padding: 4px 8px; }
QTreeView, QTableView, QListView { border: 1px solid transparent; outline: none; }
QTreeView:focus, QTableView:focus, QListView:focus { border-color: %8; }
QTreeView::item, QListView::item, QTableView::item { min-height: 24px; }
QLineEdit, QSpinBox, QDoubleSpinBox, QComboBox, QPlainTextEdit {
  background: %2; border: 1px solid %5; border-radius: 2px; padding: 2px 6px; min-height: 18px; }
QLineEdit:focus, QSpinBox:focus, QDoubleSpinBox:focus, QComboBox:focus, QPlainTextEdit:focus { border-color: %8; }
QPushButton { background: %3; border: 1px solid %5; border-radius: 2px; padding: 4px 16px; min-height: 18px; }
QPushButton:hover { border-color: %8; } QPushButton:pressed { background: %9; }
QPushButton:focus { border-color: %8; } QPushButton:default { border-color: %8; }
QPushButton:disabled { color: %7; border-color: %4; }
QScrollBar { background: %1; border: none; } QScrollBar:horizontal { height: 12px; } QScrollBar:vertical { width: 12px; }
QScrollBar::handle { background: %4; border: 2px solid %1; border-radius: 4px; min-width: 32px; min-height: 32px; }
QScrollBar::handle:hover { background: %5; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QLabel[look="soft"] { color: %7; }
QLabel[look="head"] { font-size: 16px; }
)";

QString sheet_for(const Palette& p) {
    QString text = QString::fromLatin1(style_sheet);
    return text.arg(p.ground.name(), p.canvas.name(), p.raised.name(), p.rule.name(), p.rule_strong.name(),
                    p.text.name(), p.text_soft.name(), p.brass.name(), p.selection.name());
}

}  // namespace

void set_theme(Theme theme) {
    worn() = theme;
    static bool dressed = false;
    if (!dressed) {
        QApplication::setStyle(new DrawnStyle);
        QApplication::setFont(font(TypeSize::body));
        dressed = true;
    }
    const Palette& colours = palette(theme);
    QApplication::setPalette(qt_palette(colours));
    qApp->setStyleSheet(sheet_for(colours));
}

Theme theme() {
    return worn();
}

const Palette& look() {
    return palette(worn());
}

}  // namespace gasp
