// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/board_hands.hpp"

#include "core/table/board_image.hpp"
#include "ui/look/icons.hpp"
#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"
#include "ui/panels/hold_button.hpp"

#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace gasp {

namespace {

constexpr int button_px = 176;

QLabel* heading(const QString& words) {
    auto* label = new QLabel(words);
    label->setFont(font(TypeSize::body, true));
    return label;
}

}  // namespace

BoardHands::BoardHands(Document& document, QWidget* parent)
    : QWidget(parent), document_(document), column_(new QVBoxLayout(this)) {
    column_->setContentsMargins(grid_px, grid_px, grid_px, grid_px);
}

BoardHands::Listed BoardHands::to_list(BoardId board) const {
    Listed all;
    for (const Channel& channel : document_.show().rig.channels) {
        if (channel.board == board && channel.output && *channel.output >= 1 &&
            *channel.output <= most_image_outputs) {
            all.channels.push_back(channel);
        }
    }
    for (const Sequence& sequence : document_.show().sequences) {
        all.sequences.emplace_back(sequence.name, sequence.length);
    }
    return all;
}

void BoardHands::list(BoardId board) {
    Listed now = to_list(board);
    if (listed_ != now) {
        listed_ = std::move(now);
        emit let_go();
        build();
    }
}

void BoardHands::build() {
    delete body_;
    channels_.clear();
    sequences_.clear();
    lights_.clear();
    body_ = new QWidget;
    auto* rows = new QGridLayout(body_);
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setVerticalSpacing(grid_px / 2);
    rows->setColumnStretch(2, 1);
    column_->addWidget(body_, 0, Qt::AlignTop);
    rows->addWidget(heading(tr("Hold to drive")), 0, 0, 1, 3);
    for (const Channel& channel : listed_->channels) {
        add_channel(channel);
    }
    if (channels_.empty()) {
        rows->addWidget(new QLabel(tr("No channel has an output of this board")), 1, 0, 1, 3);
    }
    rows->addWidget(heading(tr("Run once")), rows->rowCount(), 0, 1, 3);
    for (std::size_t i = 0; i < std::min(listed_->sequences.size(), most_image_sequences); ++i) {
        add_sequence(static_cast<std::uint8_t>(i));
    }
    set_armed(armed_);
}

void BoardHands::add_channel(const Channel& channel) {
    auto* rows = static_cast<QGridLayout*>(body_->layout());
    const int row = rows->rowCount();
    const auto output = static_cast<std::uint8_t>(*channel.output - 1);
    const QString name = QString::fromStdString(channel.name);
    auto* button = new HoldButton(kind_icon(channel.kind), name);
    button->setMinimumWidth(button_px);
    button->setToolTip(tr("Drives output %1 while it is held down (mouse, or space bar)").arg(output + 1));
    button->setAccessibleName(tr("Hold to drive %1").arg(name));
    connect(button, &HoldButton::held, this, [this, output] { emit held(output); });
    connect(button, &HoldButton::let_go, this, &BoardHands::let_go);
    connect(button, &HoldButton::interrupted, this, &BoardHands::interrupted);
    auto* place = new QLabel(tr("output %1").arg(output + 1));
    auto* state = new QLabel;
    rows->addWidget(button, row, 0);
    rows->addWidget(place, row, 1);
    rows->addWidget(state, row, 2);
    channels_.push_back(button);
    lights_.push_back({state, output});
}

void BoardHands::add_sequence(std::uint8_t index) {
    const auto& [words, length] = listed_->sequences[index];
    auto* rows = static_cast<QGridLayout*>(body_->layout());
    const int row = rows->rowCount();
    const QString name = QString::fromStdString(words);
    auto* button = new QPushButton(icon(Icon::play), name);
    button->setMinimumWidth(button_px);
    button->setToolTip(tr("Runs it once, whatever lockout and sensor say"));
    button->setAccessibleName(tr("Run %1 once").arg(name));
    connect(button, &QPushButton::clicked, this, [this, index] { emit run_asked(index); });
    rows->addWidget(button, row, 0);
    rows->addWidget(new QLabel(QString::fromStdString(print_duration(length))), row, 1);
    sequences_.push_back(button);
}

void BoardHands::set_armed(bool armed) {
    armed_ = armed;
    for (const auto& buttons : {channels_, sequences_}) {
        for (QPushButton* button : buttons) {
            button->setEnabled(armed);
        }
    }
}

void BoardHands::show_status(const std::optional<BoardStatus>& status) {
    for (const Light& light : lights_) {
        const bool driven = status && (status->driven >> light.output & 1U) != 0;
        light.state->setText(!status ? QString() : driven ? tr("driven") : tr("at rest"));
    }
}

}  // namespace gasp
