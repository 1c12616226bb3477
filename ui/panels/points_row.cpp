// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/points_row.hpp"

#include "ui/look/icons.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/linkage_plot.hpp"
#include "ui/panels/points_text.hpp"

#include <QAction>
#include <QClipboard>
#include <QGridLayout>
#include <QGuiApplication>
#include <QHeaderView>
#include <QKeyEvent>
#include <QScopedValueRollback>
#include <QTableWidget>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>
#include <set>
#include <utility>

namespace gasp {
namespace {

constexpr int most_rows_seen = 9;

QString unit_text(Quantity quantity, UnitSystem units) {
    const auto name = shown_unit(quantity, units).name;
    return QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
}

}  // namespace

PointsRow::PointsRow(Document& document, const Settings& settings, PointsEntry entry, QWidget* parent)
    : FormRow(document, entry.key, entry.label, entry.help, parent),
      settings_(settings),
      entry_(std::move(entry)),
      table_(new QTableWidget(0, 2, this)),
      plot_(new LinkagePlot(this)) {
    table_->setSelectionBehavior(QAbstractItemView::SelectItems);
    table_->setEditTriggers(QAbstractItemView::AnyKeyPressed | QAbstractItemView::DoubleClicked |
                            QAbstractItemView::EditKeyPressed);
    table_->setTabKeyNavigation(false);
    table_->setContextMenuPolicy(Qt::ActionsContextMenu);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    table_->horizontalHeader()->setHighlightSections(false);
    table_->verticalHeader()->setDefaultSectionSize(row_px);
    table_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    place(table_, nullptr, true);
    auto* below = new QWidget(this);
    auto* column = new QVBoxLayout(below);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(grid_px / 2);
    auto* bar = new QWidget(below);
    column->addWidget(bar);
    column->addWidget(plot_);
    qobject_cast<QGridLayout*>(layout())->addWidget(below, 3, 0, 1, 3);
    make_actions(bar);
    connect(table_, &QTableWidget::itemChanged, this, [this] {
        if (!filling_) {
            // Not while the table still holds the item: what follows puts others in its place.
            QMetaObject::invokeMethod(this, &PointsRow::commit, Qt::QueuedConnection);
        }
    });
    refresh();
}

void PointsRow::make_actions(QWidget* bar) {
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(grid_px / 2);
    const auto add = [&](Icon sign, const QString& text, const QString& help, const QKeySequence& key,
                         void (PointsRow::*act)()) {
        auto* action = new QAction(icon(sign), text, this);
        action->setShortcut(key);
        action->setShortcutContext(Qt::WidgetShortcut);
        action->setToolTip(QStringLiteral("%1 (%2)").arg(help, key.toString(QKeySequence::NativeText)));
        connect(action, &QAction::triggered, this, act);
        table_->addAction(action);
        auto* button = new QToolButton;
        button->setDefaultAction(action);
        button->setFocusPolicy(Qt::TabFocus);
        row->addWidget(button);
    };
    add(Icon::add, "Add a point", "Type the next point", QKeySequence("Ins"), &PointsRow::add_point);
    add(Icon::remove, "Remove points", "Remove the chosen points", QKeySequence("Del"),
        &PointsRow::remove_points);
    add(Icon::paste, "Paste points", "Paste rows of travel and slope, as from a spreadsheet",
        QKeySequence::Paste, &PointsRow::paste);
    auto* copying = new QAction(icon(Icon::copy), "Copy points", this);
    copying->setShortcut(QKeySequence::Copy);
    copying->setShortcutContext(Qt::WidgetShortcut);
    connect(copying, &QAction::triggered, this, &PointsRow::copy);
    table_->addAction(copying);
    row->addStretch(1);
}

QWidget* PointsRow::editor() const {
    return table_;
}

bool PointsRow::eventFilter(QObject* watched, QEvent* event) {
    const bool pressed = event->type() == QEvent::KeyPress;
    // Keys of the table go before those of the panel it stands in.
    if (watched == table_ && table_->hasFocus() && (pressed || event->type() == QEvent::ShortcutOverride)) {
        const auto& key = dynamic_cast<QKeyEvent&>(*event);
        if (QAction* action = action_of(key)) {
            event->accept();
            if (pressed) {
                action->trigger();
            }
            return true;
        }
        const bool enter = key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter;
        if (pressed && enter && table_->currentItem() != nullptr) {
            table_->editItem(table_->currentItem());
            return true;
        }
    }
    return FormRow::eventFilter(watched, event);
}

QAction* PointsRow::action_of(const QKeyEvent& key) const {
    const QKeySequence pressed(key.keyCombination());
    const QList<QAction*> actions = table_->actions();
    const auto found = std::ranges::find_if(
        actions, [&](const QAction* action) { return action->shortcuts().contains(pressed); });
    return found != actions.end() ? *found : nullptr;
}

std::vector<QStringList> PointsRow::rows() const {
    std::vector<QStringList> rows;
    for (int row = 0; row < table_->rowCount(); ++row) {
        QStringList cells;
        for (int column = 0; column < 2; ++column) {
            const QTableWidgetItem* item = table_->item(row, column);
            cells << (item != nullptr ? item->text() : QString());
        }
        rows.push_back(std::move(cells));
    }
    return rows;
}

std::vector<int> PointsRow::selected_rows() const {
    std::set<int> chosen;
    for (const QTableWidgetItem* item : table_->selectedItems()) {
        chosen.insert(item->row());
    }
    return {chosen.begin(), chosen.end()};
}

void PointsRow::put_row(int row, const QStringList& cells) {
    for (int column = 0; column < 2; ++column) {
        auto* item = new QTableWidgetItem(column < cells.size() ? cells[column].trimmed() : QString());
        item->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
        table_->setItem(row, column, item);
    }
}

void PointsRow::show_points() {
    const QScopedValueRollback quiet(filling_, true);
    const std::vector<LinkagePoint> points = entry_.get(document().show());
    const int row = table_->currentRow();
    const int column = table_->currentColumn();
    shown_in_ = settings_.units();
    table_->setRowCount(static_cast<int>(points.size()) + 1);
    for (std::size_t i = 0; i < points.size(); ++i) {
        put_row(static_cast<int>(i), cells_of(points[i], shown_in_));
    }
    put_row(static_cast<int>(points.size()), {});
    table_->setHorizontalHeaderLabels({"Rod, " + unit_text(Quantity::small_length, shown_in_),
                                       "Arm, " + unit_text(Quantity::angle, shown_in_)});
    if (row >= 0 && row < table_->rowCount()) {
        table_->setCurrentCell(row, column);
    }
    const int seen = std::clamp(table_->rowCount(), 3, most_rows_seen);
    table_->setFixedHeight(row_px * (seen + 1) + grid_px);
}

void PointsRow::refresh() {
    plot_->set(entry_.curve(document().show()), settings_.units());
    const bool same = entry_.get(document().show()) == refused_over_ && shown_in_ == settings_.units();
    if (!error().isEmpty() && same) {
        return;
    }
    show_error({});
    show_points();
}

void PointsRow::take_back() {
    show_error({});
    refresh();
}

void PointsRow::commit() {
    const auto typed = rows();
    auto points = read_points(typed, settings_.units());
    if (!points) {
        refused_over_ = entry_.get(document().show());
        QString text = QString::fromStdString(points.error().text());
        text[0] = text[0].toUpper();
        show_error(text);
        const QScopedValueRollback quiet(filling_, true);
        if (!typed.back().join(QString()).isEmpty()) {
            table_->setRowCount(table_->rowCount() + 1);
            put_row(table_->rowCount() - 1, {});
        }
        return;
    }
    show_error({});
    Edit edit = entry_.set(document().show(), std::move(*points));
    if (edit.empty()) {
        show_points();
    } else {
        document().perform(std::move(edit));
    }
}

void PointsRow::add_point() {
    const int row = table_->currentRow() >= 0 ? table_->currentRow() : table_->rowCount() - 1;
    const QScopedValueRollback quiet(filling_, true);
    if (row < table_->rowCount() - 1) {
        table_->insertRow(row);
        put_row(row, {});
    }
    table_->setFocus();
    table_->setCurrentCell(row, 0);
    table_->editItem(table_->item(row, 0));
}

void PointsRow::remove_points() {
    const std::vector<int> chosen = selected_rows();
    {
        const QScopedValueRollback quiet(filling_, true);
        for (auto row = chosen.rbegin(); row != chosen.rend(); ++row) {
            table_->removeRow(*row);
        }
        if (table_->rowCount() == 0) {
            table_->setRowCount(1);
            put_row(0, {});
        }
    }
    commit();
}

void PointsRow::copy() const {
    const auto all = rows();
    QStringList lines;
    for (const int row : selected_rows()) {
        lines << all[static_cast<std::size_t>(row)].join('\t');
    }
    QGuiApplication::clipboard()->setText(lines.join('\n'));
}

void PointsRow::paste() {
    const auto pasted = rows_of_text(QGuiApplication::clipboard()->text());
    if (pasted.empty()) {
        return;
    }
    if (pasted.size() == 1 && pasted.front().size() == 1 && table_->currentItem() != nullptr) {
        table_->currentItem()->setText(pasted.front().front().trimmed());
        return;
    }
    {
        const QScopedValueRollback quiet(filling_, true);
        const int from = std::max(table_->currentRow(), 0);
        const int least = from + static_cast<int>(pasted.size()) + 1;
        table_->setRowCount(std::max(table_->rowCount(), least));
        for (std::size_t i = 0; i < pasted.size(); ++i) {
            put_row(from + static_cast<int>(i), pasted[i]);
        }
        for (int row = 0; row < table_->rowCount(); ++row) {
            if (table_->item(row, 0) == nullptr) {
                put_row(row, {});
            }
        }
    }
    commit();
}

}  // namespace gasp
