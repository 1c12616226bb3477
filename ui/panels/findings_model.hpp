// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/show/show.hpp"

#include <QAbstractTableModel>

#include <memory>
#include <vector>

namespace gasp {

/// How many findings there are of each kind; those that say "not checked" are counted apart.
struct FindingCounts {
    std::size_t stop = 0;
    std::size_t warn = 0;
    std::size_t note = 0;
    std::size_t not_checked = 0;
    bool operator==(const FindingCounts&) const = default;
};

[[nodiscard]] FindingCounts count(const std::vector<Finding>& findings);

/// Findings as rows; holds its own copy of the list, so that a row stays what it was until the next set().
class FindingsModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column {
        severity_column,
        where_column,
        what_column,
        figure_column,
        limit_column,
        remedy_column,
        columns
    };
    enum Filter { all, stops, warnings, notes, unchecked };
    static constexpr int sort_role = Qt::UserRole;

    using QAbstractTableModel::QAbstractTableModel;

    /// Sequences are named from `show`.
    void set(const std::vector<Finding>& findings, const Show& show);
    void set_filter(Filter filter);
    [[nodiscard]] const Finding& finding(int row) const {
        return findings_[rows_[static_cast<std::size_t>(row)]];
    }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    void pick_rows();
    [[nodiscard]] QString text(const Finding& finding, int column) const;

    std::vector<Finding> findings_;
    std::vector<std::size_t> rows_;
    std::vector<std::pair<SequenceId, QString>> names_;
    Filter filter_ = all;
};

}  // namespace gasp
