// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/panels/wiring_model.hpp"

#include <QList>
#include <QSet>
#include <QWidget>

class QAction;
class QLabel;
class QTableView;

namespace gasp {

/// The wiring of the rig in one table, edited in its cells: what the rig's forms hold of each circuit, for
/// all of them at once.
class WiringPanel : public QWidget {
    Q_OBJECT

  public:
    WiringPanel(Document& document, Analysis& analysis, Settings& settings, QWidget* parent = nullptr);

    /// For a menu.
    [[nodiscard]] QList<QAction*> wiring_actions() const { return actions_; }
    [[nodiscard]] QTableView& table() { return *table_; }
    [[nodiscard]] WiringModel& model() { return model_; }

  signals:
    void said(const QString& sentence);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void fit_columns();
    void make_table();
    void make_actions();
    void show_state();

    Document& document_;
    WiringModel model_;
    QTableView* table_;
    QSet<int> widths_by_hand_;  ///< columns
    bool fitting_ = false;      ///< the width that changes is set here
    QLabel* state_;
    QList<QAction*> actions_;
};

}  // namespace gasp
