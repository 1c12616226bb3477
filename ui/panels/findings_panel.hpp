// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/panels/findings_model.hpp"

#include <QWidget>

class QComboBox;
class QLabel;
class QScrollArea;
class QSortFilterProxyModel;
class QStackedWidget;
class QTableView;

namespace gasp {

/// The findings of the last analysis as a list; a double click or Enter asks to be shown the place.
class FindingsPanel : public QWidget {
    Q_OBJECT

  public:
    FindingsPanel(Document& document, Analysis& analysis, QWidget* parent = nullptr);

    [[nodiscard]] QTableView& table() { return *table_; }
    /// What stands in place of an empty list.
    [[nodiscard]] QString empty_text() const;

  signals:
    void chosen(const gasp::Finding& finding);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void refresh();
    void show_counts();
    void choose(const QModelIndex& index);
    void fit_columns();

    Document& document_;
    Analysis& analysis_;
    FindingsModel model_;
    QSortFilterProxyModel* sorted_;
    QTableView* table_;
    QComboBox* filter_;
    QComboBox* scope_;
    QLabel* empty_;
    QScrollArea* empty_area_;
    QStackedWidget* pages_;
    QLabel* state_;
};

}  // namespace gasp
