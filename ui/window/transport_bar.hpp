// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/look/icons.hpp"
#include "ui/stage/audition.hpp"

#include <QToolBar>

#include <array>

class QAction;
class QLabel;
class QToolButton;

namespace gasp {

/// Playing: its actions, the clock, the trigger and its lockout, and the counts of findings.
class TransportBar : public QToolBar {
    Q_OBJECT

  public:
    TransportBar(Document& document, Analysis& analysis, Audition& audition, QWidget* parent = nullptr);

    /// For the menu.
    [[nodiscard]] QList<QAction*> play_actions() const { return actions_; }
    [[nodiscard]] QAction* loop_action() const { return loop_; }

  signals:
    void loop_toggled(bool on);
    void findings_requested();

  private:
    void make_actions();
    void make_pace_actions();
    QAction* make(Icon sign, const QString& text, const char* key);
    void make_counts();
    void show_position(Micros position);
    void show_state();
    void show_lockout();
    void show_counts();

    Document& document_;
    Analysis& analysis_;
    Audition& audition_;
    QList<QAction*> actions_;
    QAction* play_ = nullptr;
    QAction* loop_ = nullptr;
    QAction* half_ = nullptr;
    QAction* quarter_ = nullptr;
    QAction* pieces_ = nullptr;
    QAction* trigger_ = nullptr;
    QLabel* clock_;
    QLabel* pace_;
    QLabel* lockout_;
    std::array<QToolButton*, 3> counts_{};
    QLabel* unchecked_;
};

}  // namespace gasp
