// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"
#include "ui/panels/part_fields.hpp"

#include <QString>
#include <QWidget>

#include <string>
#include <vector>

class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;

namespace gasp {

/// One field of a part in a form: its label, the widget it is edited with, and below it what is wrong with
/// what was typed. It shows what the document says and keeps no value of its own; what was typed wrongly
/// stays until it is put right, taken back with Esc, or the document's value changes.
class FormRow : public QWidget {
    Q_OBJECT

  public:
    /// Re-reads the document.
    virtual void refresh() = 0;
    [[nodiscard]] virtual QWidget* editor() const = 0;
    /// False while there is nothing in the show to choose from.
    [[nodiscard]] virtual bool has_anything() const { return true; }
    [[nodiscard]] const std::string& key() const { return key_; }
    [[nodiscard]] const QString& help() const { return help_; }
    /// What is wrong, as shown; empty when nothing is.
    [[nodiscard]] QString error() const;

  signals:
    void entered();  ///< its editor has the focus now

  protected:
    FormRow(Document& document, std::string key, const QString& label, QString help, QWidget* parent);
    /// Puts the editor beside the label, or below it.
    void place(QWidget* editor, QWidget* unit, bool below = false);
    void show_error(const QString& text);
    [[nodiscard]] Document& document() const { return document_; }
    bool eventFilter(QObject* watched, QEvent* event) override;
    virtual void take_back() { refresh(); }

  private:
    Document& document_;
    std::string key_;
    QString help_;
    QLabel* label_;
    QLabel* error_;
};

class TextRow : public FormRow {
    Q_OBJECT

  public:
    TextRow(Document& document, TextEntry entry, QWidget* parent);
    void refresh() override;
    [[nodiscard]] QWidget* editor() const override;

  private:
    void commit();
    void take_back() override;
    TextEntry entry_;
    QLineEdit* edit_;
    QString refused_over_;  ///< what the document said when the typed text was refused
};

class FigureRow : public FormRow {
    Q_OBJECT

  public:
    FigureRow(Document& document, const Settings& settings, FigureEntry entry, QWidget* parent);
    void refresh() override;
    [[nodiscard]] QWidget* editor() const override;

  protected:
    /// Puts what was typed where it belongs: into the document.
    virtual void keep(Figure figure);

  private:
    void commit();
    void take_back() override;
    [[nodiscard]] QString shown() const;
    [[nodiscard]] Result<Figure> read(const QString& text) const;
    const Settings& settings_;
    FigureEntry entry_;
    QLineEdit* edit_;
    QLabel* unit_;
    QString refused_over_;
};

class ChoiceRow : public FormRow {
    Q_OBJECT

  public:
    ChoiceRow(Document& document, ChoiceEntry entry, QWidget* parent);
    void refresh() override;
    [[nodiscard]] QWidget* editor() const override;

  protected:
    /// Puts what was chosen where it belongs: into the document.
    virtual void keep(int index);

  private:
    ChoiceEntry entry_;
    QComboBox* box_;
};

class ManyRow : public FormRow {
    Q_OBJECT

  public:
    ManyRow(Document& document, ManyEntry entry, QWidget* parent);
    void refresh() override;
    [[nodiscard]] QWidget* editor() const override;
    [[nodiscard]] bool has_anything() const override;

  private:
    ManyEntry entry_;
    QListWidget* list_;
};

/// Figures parted by blanks or semicolons; pasted lines do as well.
class ListRow : public FormRow {
    Q_OBJECT

  public:
    ListRow(Document& document, ListEntry entry, QWidget* parent);
    void refresh() override;
    [[nodiscard]] QWidget* editor() const override;

  private:
    void commit();
    void take_back() override;
    [[nodiscard]] QString shown() const;
    [[nodiscard]] Result<std::vector<double>> read(const QString& text) const;
    ListEntry entry_;
    QLineEdit* edit_;
    QString refused_over_;
};

/// The row for an entry.
[[nodiscard]] FormRow* make_row(Document& document, const Settings& settings, const Entry& entry,
                                QWidget* parent);

}  // namespace gasp
