// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/sequence_bar.hpp"

#include "core/show/edits.hpp"
#include "core/show/fields.hpp"
#include "core/show/validity.hpp"
#include "ui/look/icons.hpp"
#include "ui/look/look.hpp"

#include <QAction>
#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QSignalBlocker>
#include <QToolButton>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace gasp {
namespace {

constexpr Micros new_length{10'000'000};

std::vector<std::string> names(const Show& show) {
    std::vector<std::string> list;
    for (const Sequence& sequence : show.sequences) {
        list.push_back(sequence.name);
    }
    return list;
}

QLabel* caption(const QString& text, QWidget* buddy) {
    auto* label = new QLabel(text);
    label->setProperty("look", "soft");
    label->setBuddy(buddy);
    return label;
}

}  // namespace

SequenceBar::SequenceBar(Document& document, QWidget* parent)
    : QWidget(parent),
      document_(document),
      choice_(new QComboBox),
      name_(new QLineEdit),
      kind_(new QComboBox),
      length_(new QLineEdit),
      error_(new QLabel) {
    for (const auto& label : sequence_kind_labels()) {
        kind_->addItem(QString::fromUtf8(label.data(), static_cast<qsizetype>(label.size())));
    }
    choice_->setAccessibleName("Sequence looked at");
    choice_->setToolTip("The sequence looked at (Ctrl+PgUp, Ctrl+PgDown)");
    choice_->setMinimumWidth(120);
    name_->setAccessibleName("Name of the sequence");
    name_->setToolTip("Name of the sequence (F2)");
    name_->setMaximumWidth(144);
    kind_->setAccessibleName("What starts the sequence");
    kind_->setToolTip("What starts the sequence");
    length_->setAccessibleName("Length of the sequence");
    length_->setToolTip("Length of the sequence, as 12.5 s or 1:02.500");
    length_->setFixedWidth(112);
    length_->setAlignment(Qt::AlignRight);

    make_actions();
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(grid_px, grid_px / 2, grid_px, grid_px / 2);
    row->setSpacing(grid_px / 2);
    row->addWidget(choice_);
    for (QAction* action : {actions_[0], remove_}) {
        auto* button = new QToolButton;
        button->setDefaultAction(action);
        row->addWidget(button);
    }
    row->addSpacing(grid_px);
    row->addWidget(caption("Name", name_));
    row->addWidget(name_);
    row->addSpacing(grid_px / 2);
    row->addWidget(caption("Starts", kind_));
    row->addWidget(kind_);
    row->addSpacing(grid_px / 2);
    row->addWidget(caption("Length", length_));
    row->addWidget(length_);
    row->addWidget(error_, 1);

    connect(choice_, &QComboBox::activated, this, [this](int index) {
        document_.look_at(document_.show().sequences[static_cast<std::size_t>(index)].id);
    });
    for (QLineEdit* field : {name_, length_}) {
        field->installEventFilter(this);
        connect(field, &QLineEdit::returnPressed, this, [this, field] {
            field == name_ ? rename() : set_length();
            if (error_->text().isEmpty()) {
                emit left();
            }
        });
    }
    connect(name_, &QLineEdit::editingFinished, this, &SequenceBar::rename);
    connect(length_, &QLineEdit::editingFinished, this, &SequenceBar::set_length);
    connect(kind_, &QComboBox::activated, this, &SequenceBar::set_kind);
    connect(&document_, &Document::replaced, this, &SequenceBar::refresh);
    connect(&document_, &Document::changed, this, [this](const Edit& edit) {
        const auto about_sequences = [](const Change& change) {
            return std::holds_alternative<Exchange<Sequence>>(change) ||
                   std::holds_alternative<Replacement<SequenceHead>>(change);
        };
        if (std::any_of(edit.changes.begin(), edit.changes.end(), about_sequences)) {
            refresh();
        }
    });
    refresh();
}

void SequenceBar::make_actions() {
    const auto make = [this](Icon sign, const QString& text, const QString& key, auto slot) {
        auto* action = new QAction(icon(sign), text, this);
        action->setShortcut(QKeySequence(key));
        action->setToolTip(key.isEmpty() ? text : QStringLiteral("%1 (%2)").arg(text, key));
        connect(action, &QAction::triggered, this, slot);
        actions_ << action;
        return action;
    };
    make(Icon::add, "Add a sequence", "Ctrl+Shift+N", [this] { add(); });
    remove_ = make(Icon::remove, "Remove this sequence", "Ctrl+Shift+Del",
                   [this] { document_.perform(remove_sequence(document_.show(), document_.sequence_id())); });
    make(Icon::rename, "Rename this sequence", "Shift+F2", [this] {
        name_->setFocus();
        name_->selectAll();
    });
    make(Icon::up, "Look at the sequence before", "Ctrl+PgUp", [this] { look_at_neighbour(-1); });
    make(Icon::down, "Look at the next sequence", "Ctrl+PgDown", [this] { look_at_neighbour(1); });
}

void SequenceBar::refresh() {
    const QSignalBlocker quiet_choice(choice_);
    const QSignalBlocker quiet_kind(kind_);
    choice_->clear();
    for (const Sequence& sequence : document_.show().sequences) {
        choice_->addItem(QString::fromStdString(sequence.name));
        if (sequence.id == document_.sequence_id()) {
            choice_->setCurrentIndex(choice_->count() - 1);
        }
    }
    const Sequence& sequence = document_.sequence();
    name_->setText(QString::fromStdString(sequence.name));
    kind_->setCurrentIndex(static_cast<int>(sequence.kind));
    length_->setText(QString::fromStdString(print_duration(sequence.length)));
    remove_->setEnabled(document_.show().sequences.size() > 1);
    show_error({});
}

bool SequenceBar::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress && dynamic_cast<QKeyEvent&>(*event).key() == Qt::Key_Escape) {
        refresh();
        emit left();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

SequenceHead SequenceBar::head() const {
    return head_of(document_.sequence());
}

void SequenceBar::add() {
    const auto taken = names(document_.show());
    const Edit edit =
        add_sequence(document_.show(), free_name("Sequence", taken), SequenceKind::triggered, new_length);
    document_.perform(edit);
    document_.look_at(document_.show().sequences.back().id);
    name_->setFocus();
    name_->selectAll();
}

void SequenceBar::look_at_neighbour(int by) {
    const auto& all = document_.show().sequences;
    const int count = static_cast<int>(all.size());
    const int next = (choice_->currentIndex() + by + count) % count;
    document_.look_at(all[static_cast<std::size_t>(next)].id);
}

void SequenceBar::show_error(const QString& text) {
    QPalette colours = error_->palette();
    colours.setColor(QPalette::WindowText, look().stop_text);
    error_->setPalette(colours);
    error_->setText(text);
}

void SequenceBar::rename() {
    if (!name_->isModified()) {
        return;
    }
    SequenceHead renamed = head();
    const std::string name = name_->text().trimmed().toStdString();
    auto taken = names(document_.show());
    std::erase(taken, renamed.name);
    if (name.empty()) {
        show_error("A sequence needs a name.");
    } else if (std::count(taken.begin(), taken.end(), name) > 0) {
        show_error("This name is taken.");
    } else {
        renamed.name = name;
        document_.perform(set_sequence_head(document_.show(), document_.sequence_id(), renamed));
        refresh();
    }
}

void SequenceBar::set_kind(int index) {
    SequenceHead changed = head();
    changed.kind = static_cast<SequenceKind>(index);
    document_.perform(set_sequence_head(document_.show(), document_.sequence_id(), changed));
}

void SequenceBar::set_length() {
    if (!length_->isModified()) {
        return;
    }
    const auto length = parse_time(length_->text().toStdString());
    if (!length) {
        show_error(QString::fromStdString(length.error().text()));
    } else if (*length <= Micros{0} || *length > longest_sequence) {
        show_error("Enter a length above 0 and at most 24 h.");
    } else {
        SequenceHead changed = head();
        changed.length = *length;
        document_.perform(set_sequence_head(document_.show(), document_.sequence_id(), changed));
        refresh();
    }
}

}  // namespace gasp
