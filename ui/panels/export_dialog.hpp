// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"
#include "ui/panels/export_text.hpp"

#include <QDialog>
#include <QFutureWatcher>

#include <memory>
#include <optional>

class QCheckBox;
class QComboBox;
class QLabel;
class QPlainTextEdit;
class QPushButton;

namespace gasp {

/// The event table as it will be written, beside the open editor: it follows the show while it is open. What
/// it shows is what is saved and copied; a very long table is shown in part, and says so.
class ExportDialog : public QDialog {
    Q_OBJECT

  public:
    ExportDialog(Document& document, Analysis& analysis, Settings& settings, QWidget* parent = nullptr);
    ~ExportDialog() override;

    /// What would be saved of the show as it is now; empty where the form cannot hold it.
    [[nodiscard]] QByteArray text() const;
    /// Writes it as one step; an error stays in the dialog.
    bool save_to(const QString& path);
    /// Writes a file for each board into a folder, named after the board.
    bool save_each_to(const QString& folder);
    void choose_form(TableForm form);
    [[nodiscard]] QString state() const;

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    struct MadeExport {
        ExportText text;
        QString preview;
    };
    using Made = std::shared_ptr<const MadeExport>;
    [[nodiscard]] ExportChoice choice() const;
    [[nodiscard]] TableForm form() const;
    void lay_out();
    void fill_boards();
    bool write(const QString& path, const std::string& bytes);
    void choose_folder();
    void refresh();
    void show_made();
    void show_findings();
    void choose_file();
    void copy();
    void show_state(const QString& text, bool error);

    Document& document_;
    Analysis& analysis_;
    Settings& settings_;
    QComboBox* form_;
    QComboBox* scope_;
    QComboBox* board_;
    QCheckBox* comments_;
    QPlainTextEdit* preview_;
    QLabel* facts_;
    QLabel* stops_;
    QLabel* state_;
    QPushButton* save_;
    QPushButton* save_each_;
    QPushButton* copy_;
    QFutureWatcher<Made> making_;
    bool stale_ = false;
};

}  // namespace gasp
