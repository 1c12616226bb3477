// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/missing.hpp"
#include "core/sound/mix_file.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"

#include <QDialog>

#include <memory>
#include <optional>
#include <vector>

class QAction;
class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QPushButton;
class QTableWidget;

namespace gasp {

class WorkBar;

/// How loud the mix of each sequence and each clip is, beside the open editor: brings clips to one loudness,
/// hands the mixes over to a sound player, hears that player's lag in a recording, finds missing sounds.
class SoundDialog : public QDialog {
    Q_OBJECT

  public:
    SoundDialog(Document& document, Settings& settings, QWidget* parent = nullptr);

    /// Measures every clip and mix anew.
    void measure();
    /// What was measured is out of date: a file has changed.
    void forget_measured();
    /// Brings the measured clips to the chosen loudness, as one step.
    void match();
    /// Writes the mix of each sequence into a folder.
    void save_to(const QString& folder);
    /// Takes the lag heard in a recording of starts for the player's.
    void hear_lag(const QString& recording);
    /// Looks for the missing sounds below a folder.
    void find_below(const QString& folder);

    [[nodiscard]] QTableWidget& table() { return *table_; }
    [[nodiscard]] WorkBar& bar() { return *bar_; }
    [[nodiscard]] QDoubleSpinBox& target() { return *target_; }

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    /// One row: a mix, or a clip in it.
    struct Row {
        SequenceId sequence;
        std::optional<ClipId> clip;
        QString name;
        double gain_db = 0.0;
        MixReport report;
    };
    using Rows = std::vector<Row>;

    void lay_out();
    void list(const Rows& rows);
    void notice_change();
    void show_facts();
    void choose_folder(const QString& title, void (SoundDialog::*then)(const QString&));
    void choose_recording();

    Document& document_;
    Settings& settings_;
    QAction* measure_;
    WorkBar* bar_;
    QTableWidget* table_;
    QDoubleSpinBox* target_;
    QComboBox* form_;
    QLabel* facts_;
    QPushButton* match_;
    QPushButton* save_;
    QPushButton* lag_;
    QPushButton* find_;
    QString found_;  ///< what the last search for missing sounds came to
    Rows rows_;
    /// The clips as they were when they were measured.
    std::vector<std::vector<SoundClip>> measured_;
};

}  // namespace gasp
