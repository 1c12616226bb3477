// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/form_row.hpp"

#include <QLineEdit>
#include <QRegularExpression>

#include <utility>

namespace gasp {

ListRow::ListRow(Document& document, ListEntry entry, QWidget* parent)
    : FormRow(document, entry.key, entry.label, entry.help, parent),
      entry_(std::move(entry)),
      edit_(new QLineEdit(this)) {
    constexpr int longest_list = 1 << 20;
    edit_->setMaxLength(longest_list);
    edit_->setPlaceholderText(entry_.unit.isEmpty() ? QString("not given")
                                                    : QStringLiteral("not given (%1)").arg(entry_.unit));
    place(edit_, nullptr, true);
    connect(edit_, &QLineEdit::editingFinished, this, &ListRow::commit);
    refresh();
}

QWidget* ListRow::editor() const {
    return edit_;
}

QString ListRow::shown() const {
    QStringList words;
    for (const double each : entry_.get(document().show())) {
        words << entry_.print(each);
    }
    return words.join("  ");
}

void ListRow::refresh() {
    const QString now = shown();
    if (!error().isEmpty() && now == refused_over_) {
        return;
    }
    show_error({});
    if (edit_->text() != now) {
        edit_->setText(now);
        edit_->setCursorPosition(0);
    }
    edit_->setModified(false);
}

void ListRow::take_back() {
    show_error({});
    refresh();
}

Result<std::vector<double>> ListRow::read(const QString& text) const {
    // A unit may stand apart from its number.
    static const QRegularExpression between(R"([;\s]*;[;\s]*|\s+(?=[-+.,\d]))");
    std::vector<double> list;
    for (const QString& word : text.trimmed().split(between, Qt::SkipEmptyParts)) {
        const auto value = entry_.read(word.toStdString());
        if (!value) {
            return tl::unexpected(value.error());
        }
        list.push_back(*value);
    }
    if (const QString trouble = entry_.trouble(list); !trouble.isEmpty()) {
        return fail(trouble.toStdString());
    }
    return list;
}

void ListRow::commit() {
    if (!edit_->isModified()) {
        return;
    }
    auto list = read(edit_->text());
    if (!list) {
        refused_over_ = shown();
        QString text = QString::fromStdString(list.error().text());
        text[0] = text[0].toUpper();
        show_error(text);
        return;
    }
    show_error({});
    edit_->setModified(false);
    document().perform(entry_.set(document().show(), std::move(*list)));
    refresh();
}

}  // namespace gasp
