// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/form_row.hpp"

#include "ui/look/look.hpp"
#include "ui/panels/points_row.hpp"

#include <QComboBox>
#include <QEvent>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QSignalBlocker>

#include <algorithm>
#include <cmath>
#include <utility>

namespace gasp {
namespace {

constexpr int figure_width_px = 88;
constexpr int unit_width_px = 56;  // "L/(s bar)"
constexpr int longest_name = 200;
constexpr int around_words_px = 40;  // frame and arrow of a box

/// Words that would be cut off beside a label.
bool is_wide(const QStringList& words, const QFontMetrics& metrics) {
    return std::ranges::any_of(words, [&](const QString& word) {
        return metrics.horizontalAdvance(word) + around_words_px > figure_width_px + grid_px + unit_width_px;
    });
}

}  // namespace

FormRow::FormRow(Document& document, std::string key, const QString& label, QString help, QWidget* parent)
    : QWidget(parent),
      document_(document),
      key_(std::move(key)),
      help_(std::move(help)),
      label_(new QLabel(label, this)),
      error_(new QLabel(this)) {
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(grid_px);
    grid->setVerticalSpacing(2);
    grid->setColumnStretch(0, 1);
    grid->addWidget(label_, 0, 0);
    grid->addWidget(error_, 2, 0, 1, 3);
    label_->setWordWrap(true);
    error_->setWordWrap(true);
    error_->setFont(gasp::font(TypeSize::small));
    error_->hide();
    setToolTip(help_);
}

void FormRow::place(QWidget* editor, QWidget* unit, bool below) {
    auto* grid = qobject_cast<QGridLayout*>(layout());
    if (below) {
        grid->addWidget(editor, 1, 0, 1, 3);
    } else if (unit != nullptr) {
        grid->addWidget(editor, 0, 1);
        grid->addWidget(unit, 0, 2);
    } else {
        grid->addWidget(editor, 0, 1, 1, 2);
    }
    label_->setBuddy(editor);
    editor->setAccessibleName(label_->text());
    editor->setAccessibleDescription(help_);
    editor->installEventFilter(this);
}

QString FormRow::error() const {
    return error_->isHidden() ? QString() : error_->text();
}

void FormRow::show_error(const QString& text) {
    QPalette colours = error_->palette();
    colours.setColor(QPalette::WindowText, look().stop_text);
    error_->setPalette(colours);
    error_->setText(text);
    error_->setVisible(!text.isEmpty());
    editor()->setAccessibleDescription(text.isEmpty() ? help_ : text);
}

bool FormRow::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::FocusIn) {
        emit entered();
    }
    // A wheel that scrolls the form must not change a choice it happens to pass over.
    if (event->type() == QEvent::Wheel && !editor()->hasFocus()) {
        event->ignore();
        return true;
    }
    if (event->type() == QEvent::KeyPress && dynamic_cast<QKeyEvent&>(*event).key() == Qt::Key_Escape) {
        take_back();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

TextRow::TextRow(Document& document, TextEntry entry, QWidget* parent)
    : FormRow(document, entry.key, entry.label, entry.help, parent),
      entry_(std::move(entry)),
      edit_(new QLineEdit(this)) {
    edit_->setMaxLength(longest_name);
    edit_->setMinimumWidth(figure_width_px + grid_px + unit_width_px);
    place(edit_, nullptr);
    connect(edit_, &QLineEdit::editingFinished, this, &TextRow::commit);
    refresh();
}

QWidget* TextRow::editor() const {
    return edit_;
}

void TextRow::refresh() {
    const QString now = entry_.get(document().show());
    if (!error().isEmpty() && now == refused_over_) {
        return;
    }
    show_error({});
    if (edit_->text() != now) {
        edit_->setText(now);
    }
    edit_->setModified(false);
}

void TextRow::take_back() {
    show_error({});
    refresh();
}

void TextRow::commit() {
    if (!edit_->isModified()) {
        return;
    }
    const QString name = edit_->text().trimmed();
    refused_over_ = entry_.get(document().show());
    if (name.isEmpty() && !entry_.may_be_blank) {
        show_error("A name is needed.");
    } else if (entry_.taken(document().show(), name)) {
        show_error(QStringLiteral("\"%1\" is taken. Choose another name.").arg(name));
    } else {
        show_error({});
        edit_->setModified(false);
        document().perform(entry_.set(document().show(), name));
    }
}

FigureRow::FigureRow(Document& document, const Settings& settings, FigureEntry entry, QWidget* parent)
    : FormRow(document, entry.key, entry.label, entry.help, parent),
      settings_(settings),
      entry_(std::move(entry)),
      edit_(new QLineEdit(this)),
      unit_(new QLabel(this)) {
    edit_->setAlignment(Qt::AlignRight);
    edit_->setFixedWidth(figure_width_px);
    edit_->setPlaceholderText("not given");
    unit_->setFixedWidth(unit_width_px);
    unit_->setProperty("look", "soft");
    place(edit_, unit_);
    connect(edit_, &QLineEdit::editingFinished, this, &FigureRow::commit);
    refresh();
}

QWidget* FigureRow::editor() const {
    return edit_;
}

QString FigureRow::shown() const {
    const Figure figure = entry_.get(document().show());
    return figure ? QString::fromStdString(print_number(entry_.quantity, *figure, settings_.units()))
                  : QString();
}

void FigureRow::refresh() {
    const auto unit = shown_unit(entry_.quantity, settings_.units()).name;
    unit_->setText(QString::fromUtf8(unit.data(), static_cast<qsizetype>(unit.size())));
    const QString now = shown();
    if (!error().isEmpty() && now == refused_over_) {
        return;
    }
    show_error({});
    if (edit_->text() != now) {
        edit_->setText(now);
    }
    edit_->setModified(false);
}

void FigureRow::take_back() {
    show_error({});
    refresh();
}

Result<Figure> FigureRow::read(const QString& text) const {
    if (text.trimmed().isEmpty()) {
        return Figure{};
    }
    const auto value = parse_quantity(entry_.quantity, text.toStdString(), settings_.units());
    if (!value) {
        return tl::unexpected(value.error());
    }
    if (*value < entry_.least || *value > entry_.most) {
        const std::string least = print_quantity(entry_.quantity, entry_.least, settings_.units());
        const std::string most = print_quantity(entry_.quantity, entry_.most, settings_.units());
        return fail("out of range", {}, "Enter " + least + " to " + most);
    }
    if (entry_.whole && std::floor(*value) != *value) {
        return fail("not a whole number", {}, "Enter 1, 2, 3 and so on");
    }
    return Figure{*value};
}

void FigureRow::commit() {
    if (!edit_->isModified()) {
        return;
    }
    const auto figure = read(edit_->text());
    if (!figure) {
        refused_over_ = shown();
        QString text = QString::fromStdString(figure.error().text());
        text[0] = text[0].toUpper();
        show_error(text);
        return;
    }
    show_error({});
    edit_->setModified(false);
    keep(*figure);
    refresh();
}

void FigureRow::keep(Figure figure) {
    document().perform(entry_.set(document().show(), figure));
}

ChoiceRow::ChoiceRow(Document& document, ChoiceEntry entry, QWidget* parent)
    : FormRow(document, entry.key, entry.label, entry.help, parent),
      entry_(std::move(entry)),
      box_(new QComboBox(this)) {
    box_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box_->setMinimumWidth(figure_width_px + grid_px + unit_width_px);
    place(box_, nullptr, is_wide(entry_.words(document.show()), box_->fontMetrics()));
    connect(box_, &QComboBox::activated, this, [this](int index) {
        if (index != entry_.get(this->document().show())) {
            keep(index);
        }
    });
    refresh();
}

void ChoiceRow::keep(int index) {
    document().perform(entry_.set(document().show(), index));
}

QWidget* ChoiceRow::editor() const {
    return box_;
}

void ChoiceRow::refresh() {
    const QSignalBlocker quiet(box_);
    const QStringList words = entry_.words(document().show());
    QStringList present;
    for (int i = 0; i < box_->count(); ++i) {
        present << box_->itemText(i);
    }
    if (words != present) {
        box_->clear();
        box_->addItems(words);
    }
    box_->setCurrentIndex(entry_.get(document().show()));
    box_->setToolTip(box_->currentText() + "\n" + help());
}

ManyRow::ManyRow(Document& document, ManyEntry entry, QWidget* parent)
    : FormRow(document, entry.key, entry.label, entry.help, parent),
      entry_(std::move(entry)),
      list_(new QListWidget(this)) {
    place(list_, nullptr, true);
    connect(list_, &QListWidget::itemChanged, this, [this](QListWidgetItem* item) {
        this->document().perform(
            entry_.set(this->document().show(), list_->row(item), item->checkState() == Qt::Checked));
    });
    refresh();
}

QWidget* ManyRow::editor() const {
    return list_;
}

void ManyRow::refresh() {
    const QSignalBlocker quiet(list_);
    const QStringList words = entry_.words(document().show());
    const std::vector<bool> ticks = entry_.get(document().show());
    while (list_->count() > words.size()) {
        delete list_->takeItem(list_->count() - 1);
    }
    while (list_->count() < words.size()) {
        list_->addItem(QString());
    }
    for (int i = 0; i < list_->count(); ++i) {
        list_->item(i)->setText(words[i]);
        list_->item(i)->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsUserCheckable);
        list_->item(i)->setCheckState(ticks[static_cast<std::size_t>(i)] ? Qt::Checked : Qt::Unchecked);
    }
    constexpr int most_rows = 5;
    list_->setFixedHeight(row_px * std::clamp(list_->count(), 1, most_rows) + grid_px);
}

bool ManyRow::has_anything() const {
    return list_->count() > 0;
}

FormRow* make_row(Document& document, const Settings& settings, const Entry& entry, QWidget* parent) {
    struct Maker {
        Document& document;
        const Settings& settings;
        QWidget* parent;
        FormRow* operator()(const TextEntry& e) const { return new TextRow(document, e, parent); }
        FormRow* operator()(const FigureEntry& e) const {
            return new FigureRow(document, settings, e, parent);
        }
        FormRow* operator()(const ChoiceEntry& e) const { return new ChoiceRow(document, e, parent); }
        FormRow* operator()(const ManyEntry& e) const { return new ManyRow(document, e, parent); }
        FormRow* operator()(const ListEntry& e) const { return new ListRow(document, e, parent); }
        FormRow* operator()(const PointsEntry& e) const {
            return new PointsRow(document, settings, e, parent);
        }
    };
    return std::visit(Maker{document, settings, parent}, entry);
}

}  // namespace gasp
