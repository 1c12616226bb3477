// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"
#include "ui/sheet/pack/pack.hpp"

#include <QDialog>

#include <memory>

class QAction;
class QComboBox;
class QLabel;
class QPrinter;
class QPushButton;

namespace gasp {

class PackView;
class WorkBar;

/// The build pack beside the open editor: its pages as they will be printed, saved as a PDF, or printed. It
/// is made in the background when the dialog is shown, and again when it is asked for.
class PackDialog : public QDialog {
    Q_OBJECT

  public:
    PackDialog(Document& document, Settings& settings, QWidget* parent = nullptr);

    /// Of the show as it is now; what is under way is left to end.
    void make();
    /// Null until one is made.
    [[nodiscard]] std::shared_ptr<const Pack> pack() const { return pack_; }
    void set_paper(Paper paper);
    [[nodiscard]] Paper paper() const;
    /// Writes the pages shown, in the background; an error stays in the dialog.
    void save_to(const QString& path);
    void print_to(std::shared_ptr<QPrinter> printer);
    [[nodiscard]] QString state() const;
    [[nodiscard]] bool working() const;

  signals:
    void made();
    void saved();

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    void lay_out();
    void take(Result<std::shared_ptr<const Pack>> pack);
    void show_facts();
    void fill_sections();
    void choose_file();
    void choose_printer();

    Document& document_;
    Settings& settings_;
    QAction* action_;
    WorkBar* work_;
    QComboBox* paper_;
    QComboBox* sections_;
    QLabel* facts_;
    PackView* view_;
    QPushButton* save_;
    QPushButton* print_;
    std::shared_ptr<const Pack> pack_;
    bool stale_ = false;
};

}  // namespace gasp
