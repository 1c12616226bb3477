// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/circuit_advice.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"
#include "ui/panels/part_fields.hpp"

#include <QAbstractTableModel>

#include <optional>
#include <string_view>
#include <vector>

namespace gasp {

/// The circuits of the rig, a row for each channel: the same fields as the rig's forms, each cell an edit of
/// the document, and beside them what is left at the load and what wire and fuse would do.
class WiringModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    /// A column: a field of the channel by its key path, or something worked out.
    struct Column {
        enum class Kind { name, field, left, wire_needed, fuse_fits };
        Kind kind = Kind::field;
        std::string_view key;
    };
    [[nodiscard]] static const std::vector<Column>& columns();

    WiringModel(Document& document, Analysis& analysis, const Settings& settings, QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

    /// The words to choose from in a cell; empty where it is typed.
    [[nodiscard]] QStringList choices(const QModelIndex& index) const;
    [[nodiscard]] ChannelId channel(int row) const;
    /// Sets a channel's wire to the smallest that will do, or its fuse to the smallest that fits. False where
    /// none is known.
    bool take_wire(int row);
    bool take_fuse(int row);

  signals:
    void refused(const QString& why);  ///< what was typed, and why it is not taken

  private:
    struct Row {
        ChannelId channel;
        std::vector<Section> sections;
        [[nodiscard]] const Entry* entry(std::string_view key) const;
    };
    void take_rows();
    void refresh();
    [[nodiscard]] QString text(const QModelIndex& index) const;
    [[nodiscard]] QString worked_out(int row, Column::Kind kind) const;
    /// Whether less is left at the load than it needs.
    [[nodiscard]] bool lacks(int row) const;
    /// The use of a circuit, alone or at once with other sequences; null while the newest result is of a rig
    /// with other parts.
    [[nodiscard]] const CircuitUse* use_of(int row) const;
    [[nodiscard]] std::optional<CircuitAdvice> advice_for(int row) const;
    bool take(int row, std::string_view key, std::optional<double> CircuitAdvice::*value);
    [[nodiscard]] std::optional<Figure> read(const FigureEntry& entry, const QString& text);

    Document& document_;
    Analysis& analysis_;
    const Settings& settings_;
    std::vector<Row> rows_;
};

}  // namespace gasp
