// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/document.hpp"

#include <QWidget>

class QAction;
class QComboBox;
class QLabel;
class QLineEdit;

namespace gasp {

/// Which sequence is looked at, its name, kind and length, and adding and removing sequences.
class SequenceBar : public QWidget {
    Q_OBJECT

  public:
    explicit SequenceBar(Document& document, QWidget* parent = nullptr);

    /// For a menu: adding, removing, renaming, looking at the next or the one before.
    [[nodiscard]] QList<QAction*> sequence_actions() const { return actions_; }

  signals:
    void left();  ///< what was typed is taken or given up: keys belong to the timeline again

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void refresh();
    void make_actions();
    void add();
    void look_at_neighbour(int by);
    void rename();
    void set_length();
    void set_kind(int index);
    void show_error(const QString& text);
    [[nodiscard]] struct SequenceHead head() const;

    Document& document_;
    QComboBox* choice_;
    QLineEdit* name_;
    QComboBox* kind_;
    QLineEdit* length_;
    QLabel* error_;
    QList<QAction*> actions_;
    QAction* remove_ = nullptr;
};

}  // namespace gasp
