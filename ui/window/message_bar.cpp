// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/window/message_bar.hpp"

#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"

#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <QVariant>

namespace gasp {
namespace {

constexpr const char* text_property = "message";
constexpr const char* about_property = "about";

}  // namespace

MessageBar::MessageBar(QWidget* parent) : QWidget(parent), lines_(new QVBoxLayout(this)) {
    lines_->setContentsMargins(0, 0, 0, 0);
    lines_->setSpacing(0);
    setAccessibleName("Messages");
    hide();
}

void MessageBar::add_error(const Error& error, About about) {
    QString text = QString::fromStdString(error.text());
    if (error.where.empty()) {  // else it begins with a name, which stays as it is
        text[0] = text[0].toUpper();
    }
    if (!texts().contains(text)) {
        add(text, true, {})->setProperty(about_property, static_cast<int>(about));
    }
}

void MessageBar::close_lines(About about) {
    for (auto* line : findChildren<QFrame*>(QString(), Qt::FindDirectChildrenOnly)) {
        const QVariant of = line->property(about_property);
        if (of.isValid() && of.toInt() == static_cast<int>(about)) {
            line->setParent(nullptr);
            line->deleteLater();
        }
    }
    setVisible(!texts().isEmpty());
}

void MessageBar::add_offer(const QString& text, const std::vector<Choice>& choices,
                           std::optional<About> about) {
    if (texts().contains(text)) {
        return;
    }
    QWidget* line = add(text, false, choices);
    if (about) {
        line->setProperty(about_property, static_cast<int>(*about));
    }
}

QStringList MessageBar::texts() const {
    QStringList list;
    for (const auto* line : findChildren<QFrame*>(QString(), Qt::FindDirectChildrenOnly)) {
        list << line->property(text_property).toString();
    }
    return list;
}

void MessageBar::close_all() {
    qDeleteAll(findChildren<QFrame*>(QString(), Qt::FindDirectChildrenOnly));
    hide();
}

QWidget* MessageBar::add(const QString& text, bool error, const std::vector<Choice>& choices) {
    auto* line = new QFrame(this);
    line->setProperty(text_property, text);
    line->setAutoFillBackground(true);
    line->setBackgroundRole(QPalette::Button);
    auto* row = new QHBoxLayout(line);
    row->setContentsMargins(grid_px, grid_px / 2, grid_px, grid_px / 2);
    auto* sign = new QLabel;
    constexpr int sign_px = 16;
    sign->setPixmap(severity_icon(error ? Severity::warn : Severity::note).pixmap(sign_px));
    auto* words = new QLabel(text);
    words->setWordWrap(true);
    words->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    words->setFocusPolicy(Qt::NoFocus);
    row->addWidget(sign);
    row->addWidget(words, 1);
    const auto close_line = [this, line] {
        line->setParent(nullptr);
        line->deleteLater();
        setVisible(!texts().isEmpty());
    };
    for (const Choice& choice : choices) {
        auto* button = new QPushButton(choice.text);
        connect(button, &QPushButton::clicked, this, [close_line, action = choice.action] {
            close_line();
            action();
        });
        row->addWidget(button);
    }
    auto* close = new QPushButton(choices.empty() ? "Close" : "Later");
    connect(close, &QPushButton::clicked, this, close_line);
    row->addWidget(close);
    lines_->addWidget(line);
    show();
    return line;
}

}  // namespace gasp
