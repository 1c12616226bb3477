// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/night/night.hpp"
#include "ui/editor/board_talk.hpp"
#include "ui/editor/document.hpp"
#include "ui/panels/board_text.hpp"

#include <QFutureWatcher>
#include <QTimer>
#include <QWidget>

#include <optional>
#include <string>
#include <tuple>

class QAction;
class QCheckBox;
class QComboBox;
class QLabel;
class QPushButton;
class QTableWidget;

namespace gasp {

class BoardHands;
class FigureList;
class WorkBar;

/// A board on a port: who it is, loading the show's table, moving things by hand once it is armed, its run
/// followed on the ruler, its log. Nothing of arming is remembered: every connection begins disarmed.
class BoardPanel : public QWidget {
    Q_OBJECT

  public:
    explicit BoardPanel(Document& document, QWidget* parent = nullptr);
    ~BoardPanel() override;

    void connect_to(const QString& port);
    /// What stop findings stand against is loaded only `despite_stops`.
    void load(bool despite_stops = false);
    /// For a menu.
    [[nodiscard]] QList<QAction*> board_actions() const { return actions_; }

    [[nodiscard]] QComboBox& port_box() { return *port_; }
    [[nodiscard]] QPushButton& connect_button() { return *connect_; }
    [[nodiscard]] QPushButton& arm_button() { return *arm_; }
    [[nodiscard]] QPushButton& stop_button() { return *stop_; }
    [[nodiscard]] QPushButton& go_on_button() { return *go_on_; }
    [[nodiscard]] QPushButton& despite_button() { return *despite_; }
    [[nodiscard]] QCheckBox& follow_box() { return *follow_; }
    [[nodiscard]] QCheckBox& sound_box() { return *sound_; }
    /// How far the sound is from the run it goes with; above 0, it is ahead.
    void show_sound_error(Micros error);
    /// What the board counts stands beside it; null: there is none.
    void set_forecast(const NightForecast* forecast);
    [[nodiscard]] WorkBar& load_bar() { return *load_; }
    [[nodiscard]] BoardHands& hands() { return *hands_; }
    [[nodiscard]] FigureList& figures() { return *figures_; }
    [[nodiscard]] FigureList& counts() { return *counts_; }
    [[nodiscard]] QTableWidget& log_table() { return *log_; }
    [[nodiscard]] BoardTalk& talk() { return talk_; }

  signals:
    /// While runs are followed: one began by a trigger, by hand or over the link, which one wants to see.
    void run_began(gasp::SequenceId sequence);
    /// One that was asked for here began at this moment, and its sound is wanted.
    void sound_wanted(gasp::SequenceId sequence, gasp::Deadline start);
    void run_ended();
    /// A run on the board is at a moment now; some 30 times a second while it is followed.
    void followed(gasp::SequenceId sequence, gasp::Micros time);
    void armed_changed(bool armed);
    void said(const QString& sentence);

  protected:
    void hideEvent(QHideEvent* event) override;
    void showEvent(QShowEvent* event) override;

  private:
    void make_actions();
    QWidget* make_form();
    QWidget* make_load_bar();
    QWidget* make_log();
    void connect_parts();
    void list_ports();
    void list_boards();
    [[nodiscard]] std::optional<BoardId> board() const;
    void toggle_connection();
    void toggle_arming();
    void take_opened();
    void take_closed(const QString& why);
    void tell_armed(bool armed);
    void take_moment();
    void take_log(const std::vector<LogEntry>& entries);
    void compare();
    void show_state();
    void follow();

    Document& document_;
    BoardTalk talk_;
    QList<QAction*> actions_;
    QComboBox* port_ = nullptr;
    QPushButton* connect_ = nullptr;
    QComboBox* board_ = nullptr;
    WorkBar* load_ = nullptr;
    QPushButton* arm_ = nullptr;
    QPushButton* stop_ = nullptr;
    QPushButton* go_on_ = nullptr;
    QPushButton* despite_ = nullptr;  ///< shown once findings stood against a load
    QCheckBox* follow_ = nullptr;
    QCheckBox* sound_ = nullptr;
    QLabel* caution_ = nullptr;
    FigureList* figures_ = nullptr;
    BoardHands* hands_ = nullptr;
    QPushButton* read_log_ = nullptr;
    QPushButton* clear_log_ = nullptr;
    FigureList* counts_ = nullptr;
    QTableWidget* log_ = nullptr;
    QTimer following_;
    /// What the log was last read at: it has grown as soon as one of these differs.
    std::tuple<BoardState, std::uint32_t, std::uint32_t, std::uint32_t> logged_{};
    bool armed_ = false;      ///< as last told
    bool run_asked_ = false;  ///< by a button, and not begun yet
    std::optional<Micros> sound_error_;
    bool idle_before_ = true;  ///< at the last look no run but an idle one was on
    QTimer compare_soon_;
    QFutureWatcher<WantedTable> comparing_;
    WantedTable wanted_;  ///< the show's table, as last made
    std::optional<LinkLatency> latency_;
    std::optional<NightForecast> forecast_;
};

}  // namespace gasp
