// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/wiring_panel.hpp"

#include "ui/look/look.hpp"
#include "ui/panels/panel_parts.hpp"

#include <QAction>
#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QStyledItemDelegate>
#include <QTableView>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>

namespace gasp {
namespace {

constexpr int least_column_px = 72;
constexpr int rows_looked_at = 100;  // for the width of a column, so that long tables stay quick
constexpr int most_column_px = 240;  // a long name must not push the other columns out of sight

/// Choices are picked from a list, all else is typed.
class CellEditors : public QStyledItemDelegate {
  public:
    explicit CellEditors(WiringModel& model, QObject* parent) : QStyledItemDelegate(parent), model_(model) {}

    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override {
        const QStringList words = model_.choices(index);
        QWidget* editor = nullptr;
        if (words.isEmpty()) {
            editor = QStyledItemDelegate::createEditor(parent, option, index);
        } else {
            auto* box = new QComboBox(parent);
            box->addItems(words);
            connect(box, &QComboBox::activated, this, [this, box, table = parent->parentWidget()] {
                auto* self = const_cast<CellEditors*>(this);  // the signals of a delegate are not const
                emit self->commitData(box);
                emit self->closeEditor(box);
                table->setFocus();  // the list that was chosen from had it, and with the list it is gone
            });
            editor = box;
        }
        editor->setAccessibleName(
            model_.headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString());
        return editor;
    }

    void setEditorData(QWidget* editor, const QModelIndex& index) const override {
        if (auto* box = qobject_cast<QComboBox*>(editor)) {
            box->setCurrentText(index.data(Qt::EditRole).toString());
            box->showPopup();
        } else {
            QStyledItemDelegate::setEditorData(editor, index);
        }
    }

    void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override {
        if (auto* box = qobject_cast<QComboBox*>(editor)) {
            model->setData(index, box->currentText(), Qt::EditRole);
        } else {
            QStyledItemDelegate::setModelData(editor, model, index);
        }
    }

  private:
    WiringModel& model_;
};

}  // namespace

WiringPanel::WiringPanel(Document& document, Analysis& analysis, Settings& settings, QWidget* parent)
    : QWidget(parent),
      document_(document),
      model_(document, analysis, settings),
      table_(new QTableView),
      state_(new QLabel) {
    make_table();
    make_actions();
    auto* bar = new QHBoxLayout;
    bar->setContentsMargins(grid_px, grid_px / 2, grid_px, grid_px / 2);
    bar->addWidget(state_, 1);
    for (QAction* action : actions_) {
        auto* button = new QToolButton;
        button->setDefaultAction(action);
        button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
        bar->addWidget(button);
    }
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addLayout(bar);
    column->addWidget(table_, 1);
    setFocusProxy(table_);
    connect(&model_, &WiringModel::refused, this, [this](const QString& why) {
        state_->setText(why);
        state_->setStyleSheet(QStringLiteral("color: %1").arg(look().stop_text.name()));
        emit said(why);
    });
    connect(&model_, &QAbstractItemModel::modelReset, this, &WiringPanel::show_state);
    connect(&model_, &QAbstractItemModel::dataChanged, this, &WiringPanel::show_state);
    show_state();
}

void WiringPanel::make_table() {
    table_->setModel(&model_);
    table_->setItemDelegate(new CellEditors(model_, this));
    table_->setAccessibleName(tr("Wiring"));
    table_->setTabKeyNavigation(false);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                            QAbstractItemView::AnyKeyPressed | QAbstractItemView::SelectedClicked);
    table_->setWordWrap(false);
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    table_->verticalHeader()->setDefaultSectionSize(row_px);
    table_->horizontalHeader()->setHighlightSections(false);
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table_->horizontalHeader()->setMinimumSectionSize(least_column_px);
    table_->horizontalHeader()->setResizeContentsPrecision(rows_looked_at);
    for (int column = 0; column < model_.columnCount({}); ++column) {
        table_->setColumnWidth(column, least_column_px);
    }
    connect(table_->horizontalHeader(), &QHeaderView::sectionResized, this, [this](int column) {
        if (!fitting_) {
            widths_by_hand_.insert(column);
        }
    });
    fit_columns();
    connect(&model_, &QAbstractItemModel::modelReset, this, &WiringPanel::fit_columns);
    connect(&model_, &QAbstractItemModel::dataChanged, this, &WiringPanel::fit_columns);
    table_->setContextMenuPolicy(Qt::ActionsContextMenu);
    table_->installEventFilter(this);
}

/// What is typed goes into the cell, also where a letter alone is a key of the window.
bool WiringPanel::eventFilter(QObject* watched, QEvent* event) {
    if (watched == table_ && event->type() == QEvent::ShortcutOverride) {
        const auto& key = dynamic_cast<QKeyEvent&>(*event);
        const bool alone = (key.modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier)) == Qt::NoModifier;
        if (alone && !key.text().isEmpty() && key.text().front().isPrint()) {
            event->accept();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void WiringPanel::make_actions() {
    const auto act = [this](Icon sign, const QString& text, const char* key, const QString& help,
                            bool (WiringModel::*take)(int), const QString& none) {
        QAction* action = make_action(this, sign, text, key, help);
        connect(action, &QAction::triggered, this, [this, take, none] {
            const QModelIndex now = table_->currentIndex();
            if (!now.isValid() || !(model_.*take)(now.row())) {
                emit said(now.isValid() ? none : tr("Choose a channel in the wiring table first"));
            }
        });
        actions_ << action;
        table_->addAction(action);
    };
    act(Icon::channel, tr("Take the &wire needed"), "Ctrl+Shift+W",
        tr("Give the chosen channel the smallest wire that will do"), &WiringModel::take_wire,
        tr("No wire is known that will do: give its supply, current and length, or thicken what it shares"));
    act(Icon::supply, tr("Take the &fuse that fits"), "Ctrl+Shift+F",
        tr("Give the chosen channel the smallest fuse that fits its load and its wire"),
        &WiringModel::take_fuse, tr("No fuse fits: give its current, or a thicker wire"));
}

void WiringPanel::show_state() {
    state_->setStyleSheet({});
    state_->setText(
        model_.rowCount() == 0
            ? tr("No channel in the rig. Add one with Edit, Rig.")
            : tr("Type into a cell, as 18 AWG or 0.75 mm2. Mains is work for a licensed electrician."));
}

/// Each as wide as its head and what stands in it; one of a width set by hand stays so.
void WiringPanel::fit_columns() {
    fitting_ = true;
    for (int column = 0; column < model_.columnCount({}); ++column) {
        if (!widths_by_hand_.contains(column)) {
            const int before = table_->columnWidth(column);
            table_->resizeColumnToContents(column);
            table_->setColumnWidth(column,
                                   std::max(before, std::min(table_->columnWidth(column), most_column_px)));
        }
    }
    fitting_ = false;
}

}  // namespace gasp
