// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"
#include "ui/panels/findings_model.hpp"

#include <QWidget>

#include <vector>

class QAction;
class QComboBox;
class QLabel;
class QScrollArea;
class QSortFilterProxyModel;
class QStackedWidget;
class QTableView;

namespace gasp {

class AirRemedies;

/// The findings of the last analysis as a list; a double click or Enter asks to be shown the place.
class FindingsPanel : public QWidget {
    Q_OBJECT

  public:
    FindingsPanel(Document& document, Analysis& analysis, const Settings& settings,
                  QWidget* parent = nullptr);

    [[nodiscard]] QTableView& table() { return *table_; }
    /// What stands in place of an empty list.
    [[nodiscard]] QString empty_text() const;
    [[nodiscard]] AirRemedies& remedies() { return *remedies_; }
    /// For a menu.
    [[nodiscard]] QList<QAction*> finding_actions() const { return {help_air_}; }

  signals:
    void chosen(const gasp::Finding& finding);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    /// What is to be listed is not there yet.
    [[nodiscard]] bool waits() const;
    [[nodiscard]] const std::vector<Finding>& listed() const;
    void refresh();
    void show_counts();
    void choose(const QModelIndex& index);
    void make_table();
    void make_choices();
    QWidget* make_list();
    void make_actions();
    void show_remedies();
    /// The finding that is short of air: the current one, else the first of them; null without one.
    [[nodiscard]] const Finding* short_of_air() const;
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
    QAction* help_air_ = nullptr;
    AirRemedies* remedies_;
    QStackedWidget* whole_;  ///< the list, or the remedies of one of its findings
};

}  // namespace gasp
