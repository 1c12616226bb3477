// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/work_bar.hpp"

#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"

#include <QAction>
#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QResizeEvent>

namespace gasp {
namespace {

constexpr int steps = 1000;
constexpr int look_every_ms = 50;
constexpr int sign_px = 14;
constexpr int bar_width_px = 160;
constexpr int beside_px = 440;

}  // namespace

WorkBar::WorkBar(QAction& start, QWidget* parent)
    : QWidget(parent),
      action_(start),
      start_(new QPushButton(start.text())),
      stop_(new QPushButton("Cancel")),
      bar_(new QProgressBar),
      sign_(new QLabel),
      words_(new QLabel) {
    pool_.setMaxThreadCount(1);
    start_->setToolTip(start.toolTip());
    stop_->setToolTip("Give it up");
    stop_->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    bar_->setRange(0, steps);
    bar_->setFixedWidth(bar_width_px);
    bar_->setAccessibleName("How far it is");
    words_->setWordWrap(true);
    words_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(grid_px);
    buttons->addWidget(start_);
    buttons->addWidget(bar_);
    buttons->addWidget(stop_);
    auto* line = new QHBoxLayout;
    line->setSpacing(grid_px);
    line->addWidget(sign_);
    line->addWidget(words_, 1);
    lines_ = new QBoxLayout(QBoxLayout::TopToBottom, this);
    lines_->setContentsMargins(0, 0, 0, 0);
    lines_->setSpacing(grid_px);
    lines_->addLayout(buttons);
    lines_->setAlignment(buttons, Qt::AlignLeft);
    lines_->addLayout(line, 1);
    bar_->hide();
    stop_->hide();
    sign_->hide();
    words_->hide();
    connect(start_, &QPushButton::clicked, &action_, &QAction::trigger);
    connect(&action_, &QAction::triggered, this, [this] {
        if (!working()) {
            emit started();
        }
    });
    connect(stop_, &QPushButton::clicked, this, &WorkBar::cancel);
}

WorkBar::~WorkBar() {
    if (cancel_ != nullptr) {
        *cancel_ = true;
    }
    pool_.waitForDone();
}

void WorkBar::cancel() {
    if (cancel_ != nullptr) {
        *cancel_ = true;
        stop_->setEnabled(false);
        words_->setText("Stopping...");
        words_->show();
    }
}

void WorkBar::say(const QString& text, bool important) {
    text_ = text;
    important_ = important;
    show_words();
}

QString WorkBar::said() const {
    return words_->text();
}

void WorkBar::set_startable(bool on) {
    start_->setEnabled(on);
    action_.setEnabled(on);
}

void WorkBar::show_words() {
    if (working()) {
        return;
    }
    words_->setText(text_);
    QPalette colours = words_->palette();
    colours.setColor(QPalette::WindowText, important_ ? look().warn_text : look().text_soft);
    words_->setPalette(colours);
    sign_->setPixmap(severity_icon(Severity::warn).pixmap(sign_px));
    sign_->setVisible(important_ && !text_.isEmpty());
    words_->setVisible(!text_.isEmpty());
}

std::shared_ptr<std::atomic<bool>> WorkBar::begin() {
    cancel_ = std::make_shared<std::atomic<bool>>(false);
    share_ = 0.0;
    bar_->setRange(0, 0);
    start_->hide();
    sign_->hide();
    words_->hide();
    words_->setText({});
    bar_->show();
    stop_->setEnabled(true);
    stop_->show();
    timer_ = startTimer(look_every_ms);
    return cancel_;
}

void WorkBar::end() {
    const bool given_up = *cancel_;
    cancel_ = nullptr;
    killTimer(timer_);
    const bool had_focus = stop_->hasFocus();
    bar_->hide();
    stop_->hide();
    start_->show();
    if (had_focus) {
        start_->setFocus();
    }
    show_words();
    if (given_up) {
        emit cancelled();
    }
}

/// Words stand beside the button where there is room.
void WorkBar::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    lines_->setDirection(width() >= beside_px ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
}

void WorkBar::timerEvent(QTimerEvent* event) {
    Q_UNUSED(event);
    if (share_ > 0.0) {
        bar_->setRange(0, steps);
        bar_->setValue(static_cast<int>(share_ * steps));
    }
}

void WorkBar::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange) {
        show_words();
    }
    QWidget::changeEvent(event);
}

}  // namespace gasp
