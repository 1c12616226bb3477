// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/document.hpp"
#include "ui/editor/moments.hpp"
#include "ui/editor/settings.hpp"

#include <QTimer>
#include <QWidget>

#include <optional>
#include <vector>

class QAction;
class QCheckBox;
class QDoubleSpinBox;
class QFormLayout;
class QLabel;
class QTableWidget;

namespace gasp {

/// The words, onsets and loudest moments of the sequence's sound: by what they are found, drawn on the ruler
/// as it is changed, and those that are to become marks.
class MomentsPanel : public QWidget {
    Q_OBJECT

  public:
    MomentsPanel(Document& document, Settings& settings, Moments& moments, QWidget* parent = nullptr);

    /// For a menu.
    [[nodiscard]] QList<QAction*> moment_actions() const { return actions_; }
    [[nodiscard]] QTableWidget& table() { return *table_; }
    [[nodiscard]] const std::vector<QDoubleSpinBox*>& figures() const { return figures_; }
    [[nodiscard]] QCheckBox& shown_box() { return *shown_; }

  signals:
    void chosen(gasp::Micros time);  ///< to be looked at
    void said(const QString& sentence);

  private:
    void make_actions();
    QWidget* make_form();
    QDoubleSpinBox* add_figure(QFormLayout& form, const QString& words, const QString& unit, double least,
                               double most, const QString& help);
    void show_options();
    void take_options();
    void list();
    void mark_selected();
    void open_jaw();
    /// The channel whose jaw is meant: the selected lane's, else the first jaw's.
    [[nodiscard]] std::optional<ChannelId> jaw_channel() const;
    void show_score();
    void mark_all(MomentKind kind);
    void mark(const std::vector<SoundMoment>& moments);

    Document& document_;
    Settings& settings_;
    Moments& moments_;
    QList<QAction*> actions_;
    QCheckBox* shown_ = nullptr;
    std::vector<QDoubleSpinBox*>
        figures_;  ///< word level, pause level, pause, onset threshold, onset gap, jaw level, jaw lead
    QLabel* counts_ = nullptr;
    QLabel* score_ = nullptr;  ///< how the jaw goes with the voice
    QTimer score_later_;       ///< it is worked out once the edits rest
    QTableWidget* table_ = nullptr;
    std::vector<SoundMoment> listed_;  ///< the rows of the table
};

}  // namespace gasp
