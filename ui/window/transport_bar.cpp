// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/window/transport_bar.hpp"

#include "ui/look/icons.hpp"
#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"
#include "ui/panels/findings_model.hpp"

#include <QAction>
#include <QFontMetrics>
#include <QLabel>
#include <QSignalBlocker>
#include <QToolButton>

#include <utility>

namespace gasp {
namespace {

QWidget* stretch() {
    auto* widget = new QWidget;
    widget->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    return widget;
}

}  // namespace

TransportBar::TransportBar(Document& document, Analysis& analysis, Audition& audition, QWidget* parent)
    : QToolBar("Transport", parent),
      document_(document),
      analysis_(analysis),
      audition_(audition),
      clock_(new QLabel),
      pace_(new QLabel),
      lockout_(new QLabel),
      unchecked_(new QLabel) {
    setObjectName("transport");
    setMovable(false);
    setToolButtonStyle(Qt::ToolButtonIconOnly);
    constexpr int icon_px = 16;
    setIconSize({icon_px, icon_px});
    make_actions();
    clock_->setFont(gasp::font(TypeSize::clock));
    clock_->setAccessibleName("Position on the ruler");
    clock_->setMinimumWidth(QFontMetrics(clock_->font()).horizontalAdvance("00:00.000") + 2 * grid_px);
    clock_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    lockout_->setAccessibleName("Lockout");
    lockout_->setContentsMargins(grid_px, 0, grid_px, 0);
    pace_->setAccessibleName("Speed");
    pace_->setContentsMargins(grid_px, 0, 0, 0);
    addWidget(clock_);
    addWidget(pace_);
    addSeparator();
    addAction(trigger_);
    addWidget(lockout_);
    addWidget(stretch());
    make_counts();

    connect(&audition_, &Audition::position_changed, this, &TransportBar::show_position);
    connect(&audition_, &Audition::state_changed, this, &TransportBar::show_state);
    connect(&audition_, &Audition::lockout_changed, this, &TransportBar::show_lockout);
    connect(&analysis_, &Analysis::ready, this, &TransportBar::show_counts);
    connect(&analysis_, &Analysis::lingering, this, &TransportBar::show_counts);
    connect(&document_, &Document::changed, this, &TransportBar::show_lockout);
    connect(&document_, &Document::replaced, this, &TransportBar::show_lockout);
    show_position(audition_.position());
    show_state();
    show_lockout();
    show_counts();
}

QAction* TransportBar::make(Icon sign, const QString& text, const char* key) {
    auto* action = new QAction(icon(sign), text, this);
    action->setShortcut(QKeySequence(key));
    action->setToolTip(
        QStringLiteral("%1 (%2)").arg(text, action->shortcut().toString(QKeySequence::NativeText)));
    actions_ << action;
    return action;
}

void TransportBar::make_actions() {
    QAction* start = make(Icon::to_start, "Go to the start", "Ctrl+Home");
    play_ = make(Icon::play, "Play or pause", "Space");
    QAction* stop = make(Icon::stop, "Stop", "Shift+Space");
    loop_ = make(Icon::loop, "Loop", "Ctrl+L");
    loop_->setCheckable(true);
    loop_->setStatusTip("Repeats what is selected, or else the whole sequence");
    trigger_ = make(Icon::trigger, "Trigger", "G");
    trigger_->setStatusTip("Sets off the sensor: starts the run, unless the lockout refuses it");
    addActions({start, play_, stop, loop_});
    connect(start, &QAction::triggered, this, [this] { audition_.seek(Micros{0}); });
    connect(play_, &QAction::triggered, &audition_, &Audition::toggle);
    connect(stop, &QAction::triggered, &audition_, &Audition::stop);
    connect(loop_, &QAction::toggled, this, &TransportBar::loop_toggled);
    connect(trigger_, &QAction::triggered, this, [this] { audition_.trigger(); });
    make_pace_actions();
}

void TransportBar::make_pace_actions() {
    half_ = make(Icon::slow, "Half speed", "H");
    half_->setStatusTip("Plays at half speed and true pitch, to place things by ear");
    quarter_ = make(Icon::slow, "Quarter speed", "Shift+H");
    quarter_->setStatusTip("Plays at a quarter of the speed and true pitch, to place things by ear");
    addAction(half_);
    for (const auto& [action, times] : {std::pair(half_, 2), std::pair(quarter_, 4)}) {
        action->setCheckable(true);
        connect(action, &QAction::triggered, this,
                [this, slow = times](bool on) { audition_.set_times(on ? slow : 1); });
    }
    pieces_ = make(Icon::sound, "Hear the playhead being dragged", "Ctrl+Shift+H");
    pieces_->setStatusTip("A dragged playhead, and what is moved by keys, lets a short piece sound");
    pieces_->setCheckable(true);
    connect(pieces_, &QAction::triggered, &audition_, &Audition::set_pieces);
}

void TransportBar::make_counts() {
    for (std::size_t i = 0; i < counts_.size(); ++i) {
        counts_[i] = new QToolButton;
        counts_[i]->setIcon(severity_icon(static_cast<Severity>(i)));
        counts_[i]->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
        counts_[i]->setToolTip("Show the findings");
        connect(counts_[i], &QToolButton::clicked, this, &TransportBar::findings_requested);
        addWidget(counts_[i]);
    }
    unchecked_->setProperty("look", "soft");
    unchecked_->setContentsMargins(grid_px, 0, grid_px, 0);
    addWidget(unchecked_);
    addSeparator();
}

void TransportBar::show_position(Micros position) {
    clock_->setText(QString::fromStdString(print_time(position)));
}

void TransportBar::show_state() {
    play_->setIcon(icon(audition_.playing() ? Icon::pause : Icon::play));
    const QSignalBlocker quiet(loop_);
    loop_->setChecked(audition_.loop().has_value());
    half_->setChecked(audition_.times() == 2);
    quarter_->setChecked(audition_.times() == 4);
    pieces_->setChecked(audition_.pieces());
    pace_->setText(audition_.times() == 2 ? "half speed" : audition_.times() == 4 ? "quarter speed" : "");
}

void TransportBar::show_lockout() {
    const Micros left = audition_.lockout_remaining();
    const Figure lockout = document_.show().rig.sensor.lockout_s;
    if (left > Micros{0}) {
        lockout_->setText(QStringLiteral("lockout %1").arg(QString::fromStdString(print_time(left, 1))));
    } else if (lockout) {
        lockout_->setText(QStringLiteral("lockout %1 s").arg(*lockout));
    } else {
        lockout_->setText("lockout not given");
    }
    lockout_->setProperty("look", left > Micros{0} ? "" : "soft");
    const int refused = audition_.triggers_refused();
    lockout_->setToolTip(
        QStringLiteral("Triggers taken: %1, refused: %2").arg(audition_.triggers_taken()).arg(refused));
}

void TransportBar::show_counts() {
    const FindingCounts counts = count(analysis_.result()->findings);
    const std::array<std::pair<QString, std::size_t>, 3> words{
        {{"stop", counts.stop}, {"warn", counts.warn}, {"note", counts.note}}};
    const bool known = !analysis_.lingers();
    for (std::size_t i = 0; i < counts_.size(); ++i) {
        const auto& [word, number] = words[i];
        counts_[i]->setText(known ? QStringLiteral("%1 %2").arg(word).arg(number) : word + " -");
        counts_[i]->setAccessibleName(known ? QStringLiteral("Findings: %1 %2").arg(number).arg(word)
                                            : QStringLiteral("Findings: %1, being checked").arg(word));
    }
    unchecked_->setText(known ? QStringLiteral("not checked %1").arg(counts.not_checked)
                              : QString("checking..."));
}

}  // namespace gasp
