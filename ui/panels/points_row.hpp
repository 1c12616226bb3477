// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/panels/form_row.hpp"

#include <span>

class QAction;
class QKeyEvent;
class QTableWidget;

namespace gasp {

class LinkagePlot;

/// The points of a measured linkage: a table that is typed into, a row for the next point at its foot, and
/// below it the curve through them as it is simulated. Points are pasted from a spreadsheet and copied to
/// one.
class PointsRow : public FormRow {
    Q_OBJECT

  public:
    PointsRow(Document& document, const Settings& settings, PointsEntry entry, QWidget* parent);
    void refresh() override;
    [[nodiscard]] QWidget* editor() const override;
    [[nodiscard]] QTableWidget& table() const { return *table_; }
    [[nodiscard]] LinkagePlot& plot() const { return *plot_; }

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void make_actions(QWidget* bar);
    [[nodiscard]] QAction* action_of(const QKeyEvent& key) const;
    void add_point();
    void remove_points();
    void copy() const;
    void paste();
    void commit();
    void take_back() override;
    void show_points();
    void put_row(int row, const QStringList& cells);
    [[nodiscard]] std::vector<QStringList> rows() const;
    [[nodiscard]] std::vector<int> selected_rows() const;

    const Settings& settings_;
    PointsEntry entry_;
    QTableWidget* table_;
    LinkagePlot* plot_;
    std::vector<LinkagePoint> refused_over_;
    UnitSystem shown_in_ = UnitSystem::metric;
    bool filling_ = false;
};

}  // namespace gasp
