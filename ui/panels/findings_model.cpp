// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/findings_model.hpp"

#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace gasp {
namespace {

bool passes(const Finding& finding, FindingsModel::Filter filter) {
    switch (filter) {
        case FindingsModel::all:
            return true;
        case FindingsModel::stops:
            return !finding.not_checked && finding.severity == Severity::stop;
        case FindingsModel::warnings:
            return !finding.not_checked && finding.severity == Severity::warn;
        case FindingsModel::notes:
            return !finding.not_checked && finding.severity == Severity::note;
        case FindingsModel::unchecked:
            return finding.not_checked;
    }
    return true;
}

QString utf8(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

}  // namespace

FindingCounts count(const std::vector<Finding>& findings) {
    FindingCounts counts;
    for (const Finding& finding : findings) {
        if (finding.not_checked) {
            ++counts.not_checked;
        } else if (finding.severity == Severity::stop) {
            ++counts.stop;
        } else if (finding.severity == Severity::warn) {
            ++counts.warn;
        } else {
            ++counts.note;
        }
    }
    return counts;
}

void FindingsModel::set(const std::vector<Finding>& findings, const Show& show) {
    std::vector<std::pair<SequenceId, QString>> names;
    for (const Sequence& sequence : show.sequences) {
        names.emplace_back(sequence.id, QString::fromStdString(sequence.name));
    }
    if (findings == findings_ && names == names_) {
        return;
    }
    beginResetModel();
    findings_ = findings;
    names_ = std::move(names);
    pick_rows();
    endResetModel();
}

void FindingsModel::set_filter(Filter filter) {
    beginResetModel();
    filter_ = filter;
    pick_rows();
    endResetModel();
}

void FindingsModel::pick_rows() {
    rows_.clear();
    for (std::size_t i = 0; i < findings_.size(); ++i) {
        if (passes(findings_[i], filter_)) {
            rows_.push_back(i);
        }
    }
}

int FindingsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int FindingsModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : columns;
}

QString FindingsModel::text(const Finding& finding, int column) const {
    switch (column) {
        case severity_column:
            return finding.not_checked ? QString("not checked") : utf8(word(finding.severity));
        case where_column: {
            QStringList where;
            const auto name = std::find_if(names_.begin(), names_.end(), [&](const auto& pair) {
                return finding.place.sequence && pair.first == *finding.place.sequence;
            });
            if (names_.size() > 1 && name != names_.end()) {
                where << name->second;
            }
            if (finding.place.time) {
                where << QString::fromStdString(print_time(*finding.place.time));
            }
            return where.isEmpty() ? QString("rig") : where.join("  ");
        }
        case what_column:
            return QString::fromStdString(finding.what);
        case figure_column:
            return QString::fromStdString(finding.figure);
        case limit_column:
            return QString::fromStdString(finding.limit);
        case remedy_column:
            return QString::fromStdString(finding.remedy);
        default:
            return {};
    }
}

QVariant FindingsModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const Finding& found = finding(index.row());
    switch (role) {
        case Qt::DisplayRole:
            return text(found, index.column());
        case Qt::ToolTipRole:
        case Qt::StatusTipRole:
            return utf8(gasp::text(found));
        case Qt::AccessibleTextRole:
            return text(found, index.column());
        case Qt::DecorationRole:
            return index.column() == severity_column && !found.not_checked ? severity_icon(found.severity)
                                                                           : QVariant();
        case Qt::ForegroundRole:
            if (found.not_checked) {
                return look().text_soft;
            }
            return index.column() == severity_column ? look().severity_text(found.severity) : QVariant();
        case sort_role:
            if (index.column() == severity_column) {
                return static_cast<int>(found.severity) + (found.not_checked ? 3 : 0);
            }
            if (index.column() == where_column) {
                const qint64 sequence = found.place.sequence ? found.place.sequence->value : 0;
                constexpr qint64 longest_us = 100'000'000'000;  // above 24 h
                return sequence * longest_us + found.place.time.value_or(Micros{0}).count();
            }
            return text(found, index.column());
        default:
            return {};
    }
}

QVariant FindingsModel::headerData(int section, Qt::Orientation orientation, int role) const {
    static const std::array<const char*, columns> titles{"Finding", "Where", "What",
                                                         "Figure",  "Limit", "Remedy"};
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole || section < 0 || section >= columns) {
        return {};
    }
    return QString(titles[static_cast<std::size_t>(section)]);
}

}  // namespace gasp
