// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/wiring_model.hpp"

#include "core/schedule/circuit_advice.hpp"
#include "core/units/rounded.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/panel_parts.hpp"

#include <algorithm>
#include <variant>

namespace gasp {
namespace {

using Kind = WiringModel::Column::Kind;

QString printed(Quantity quantity, double value, UnitSystem units) {
    return QString::fromStdString(print_quantity(quantity, value, units));
}

struct Shown {
    const Show& show;
    UnitSystem units;
    QString operator()(const TextEntry& e) const { return e.get(show); }
    QString operator()(const ChoiceEntry& e) const {
        const QStringList words = e.words(show);
        const int index = e.get(show);
        return index >= 0 && index < words.size() ? words[index] : QString();
    }
    QString operator()(const FigureEntry& e) const {
        const Figure figure = e.get(show);
        return figure ? printed(e.quantity, *figure, units) : QString();
    }
    template <class Other>
    QString operator()(const Other&) const {
        return {};
    }
};

QString label_of(const Entry& entry) {
    return std::visit([](const auto& e) { return e.label; }, entry);
}

QString help_of(const Entry& entry) {
    return std::visit([](const auto& e) { return e.help; }, entry);
}

}  // namespace

const std::vector<WiringModel::Column>& WiringModel::columns() {
    static const std::vector<Column> all{
        {Kind::name, "name"},
        {Kind::field, "circuit.supply"},
        {Kind::field, "circuit.load"},
        {Kind::field, "load_current_a"},
        {Kind::field, "circuit.inrush_a"},
        {Kind::field, "circuit.wire_mm2"},
        {Kind::field, "circuit.wire_length_m"},
        {Kind::left, {}},
        {Kind::wire_needed, {}},
        {Kind::field, "circuit.fuse_a"},
        {Kind::fuse_fits, {}},
        {Kind::field, "circuit.return_path"},
        {Kind::field, "circuit.suppression"},
        {Kind::field, "circuit.switched_by"},
        {Kind::field, "circuit.switch_a"},
        {Kind::field, "circuit.wire_colour"},
        {Kind::field, "circuit.route"},
        {Kind::field, "circuit.volts_v"},
        {Kind::field, "circuit.inrush_ms"},
        {Kind::field, "circuit.least_percent"},
        {Kind::field, "circuit.duty_percent"},
        {Kind::field, "circuit.longest_on_s"},
        {Kind::field, "circuit.switch_operations"},
    };
    return all;
}

WiringModel::WiringModel(Document& document, Analysis& analysis, const Settings& settings, QObject* parent)
    : QAbstractTableModel(parent), document_(document), analysis_(analysis), settings_(settings) {
    take_rows();
    connect(&document_, &Document::changed, this, &WiringModel::refresh);
    connect(&document_, &Document::replaced, this, &WiringModel::refresh);
    connect(&analysis_, &Analysis::ready, this, &WiringModel::refresh);
    connect(&settings_, &Settings::units_changed, this, &WiringModel::refresh);
}

const Entry* WiringModel::Row::entry(std::string_view key) const {
    for (const Section& section : sections) {
        for (const Entry& entry : section.entries) {
            if (std::visit([&](const auto& e) { return e.key == key; }, entry)) {
                return &entry;
            }
        }
    }
    return nullptr;
}

void WiringModel::take_rows() {
    const Show& show = document_.show();
    rows_.clear();
    for (const Channel& channel : show.rig.channels) {
        rows_.push_back({channel.id, sections_of(show, {PartKind::channel, channel.id.value})});
    }
}

/// Rows come and go with the channels; else the cells are read anew.
void WiringModel::refresh() {
    const auto& channels = document_.show().rig.channels;
    const bool same = std::ranges::equal(rows_, channels, {}, &Row::channel, &Channel::id);
    if (!same) {
        beginResetModel();
        take_rows();
        endResetModel();
    } else if (!rows_.empty()) {
        emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
    }
}

int WiringModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int WiringModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(columns().size());
}

ChannelId WiringModel::channel(int row) const {
    return rows_[static_cast<std::size_t>(row)].channel;
}

const CircuitUse* WiringModel::use_of(int row) const {
    const auto result = analysis_.result();
    const Rig& rig = document_.show().rig;
    if (result->power.circuits.size() != rig.channels.size() ||
        result->power.curves.size() != rig.supplies.size()) {
        return nullptr;
    }
    const auto place = static_cast<std::size_t>(row);
    return &worse_use(rig, place, result->power.circuits[place], result->together);
}

std::optional<CircuitAdvice> WiringModel::advice_for(int row) const {
    const CircuitUse* use = use_of(row);
    return use != nullptr ? std::optional(advise(document_.show().rig, static_cast<std::size_t>(row),
                                                 analysis_.result()->power.model, *use, settings_.units()))
                          : std::nullopt;
}

QString WiringModel::worked_out(int row, Kind kind) const {
    const std::optional<CircuitAdvice> advice = advice_for(row);
    if (!advice) {
        return {};
    }
    if (kind == Kind::left) {
        const bool never = use_of(row)->on == Micros{0};
        return advice->left_v ? QString::fromStdString(
                                    print_rounded(Quantity::voltage, *advice->left_v, settings_.units()))
               : never ? tr("never on")
                       : tr("not checked");
    }
    if (advice->licensed) {
        return tr("electrician's");
    }
    const std::optional<double>& value = kind == Kind::wire_needed ? advice->wire_mm2 : advice->fuse_a;
    const Quantity quantity = kind == Kind::wire_needed ? Quantity::wire_area : Quantity::current;
    if (value) {
        return printed(quantity, *value, settings_.units());
    }
    const Channel& channel = document_.show().rig.channels[static_cast<std::size_t>(row)];
    const bool known = channel.load_current_a &&
                       (kind == Kind::fuse_fits ? inrush_known(channel)
                                                : (advice->least_v && channel.circuit.wire_length_m &&
                                                   use_of(row)->in_known_wires));
    return known ? tr("none") : tr("not checked");
}

bool WiringModel::lacks(int row) const {
    const std::optional<CircuitAdvice> advice = advice_for(row);
    return advice && advice->left_v && *advice->left_v < *advice->least_v &&
           document_.show().rig.channels[static_cast<std::size_t>(row)].circuit.least_percent;
}

QString WiringModel::text(const QModelIndex& index) const {
    const Column& column = columns()[static_cast<std::size_t>(index.column())];
    const Row& row = rows_[static_cast<std::size_t>(index.row())];
    if (column.kind != Kind::name && column.kind != Kind::field) {
        return worked_out(index.row(), column.kind);
    }
    const Entry* entry = row.entry(column.key);
    return entry != nullptr ? std::visit(Shown{document_.show(), settings_.units()}, *entry) : QString();
}

QVariant WiringModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const Column& column = columns()[static_cast<std::size_t>(index.column())];
    const Entry* entry = rows_[static_cast<std::size_t>(index.row())].entry(column.key);
    const bool figure = entry == nullptr || std::holds_alternative<FigureEntry>(*entry);
    switch (role) {
        case Qt::DisplayRole:
        case Qt::EditRole:
            return text(index);
        case Qt::AccessibleTextRole: {
            const QString now = text(index);
            return now.isEmpty() ? tr("not given") : now;
        }
        case Qt::ToolTipRole: {
            const QString help = entry != nullptr
                                     ? help_of(*entry)
                                     : headerData(index.column(), Qt::Horizontal, role).toString();
            return figure && column.kind != Kind::name ? help : text(index) + '\n' + help;
        }
        case Qt::TextAlignmentRole:
            return static_cast<int>(Qt::AlignVCenter | (figure ? Qt::AlignRight : Qt::AlignLeft));
        case Qt::ForegroundRole:
            if (column.kind == Kind::left && lacks(index.row())) {
                return look().stop_text;
            }
            return column.kind == Kind::name || column.kind == Kind::field ? QVariant() : look().text_soft;
        default:
            return {};
    }
}

Qt::ItemFlags WiringModel::flags(const QModelIndex& index) const {
    const Qt::ItemFlags base = QAbstractTableModel::flags(index);
    if (!index.isValid()) {
        return base;
    }
    const Column& column = columns()[static_cast<std::size_t>(index.column())];
    return column.kind == Kind::name || column.kind == Kind::field ? base | Qt::ItemIsEditable : base;
}

QVariant WiringModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || section < 0 || section >= columnCount() ||
        (role != Qt::DisplayRole && role != Qt::ToolTipRole)) {
        return {};
    }
    const Column& column = columns()[static_cast<std::size_t>(section)];
    const bool tip = role == Qt::ToolTipRole;
    switch (column.kind) {
        case Kind::name:
            return tip ? tr("What it is called everywhere") : tr("Channel");
        case Kind::left:
            return tip ? tr("Voltage left at the load at its worst moment, of this sequence or of those at "
                            "once")
                       : tr("Left");
        case Kind::wire_needed:
            return tip ? tr("The smallest standard wire that leaves the load enough and bears its fuse")
                       : tr("Wire needed");
        case Kind::fuse_fits:
            return tip ? tr("The smallest standard fuse for its current and inrush, no larger than its wire "
                            "bears")
                       : tr("Fuse that fits");
        case Kind::field:
            break;
    }
    const Entry* entry = rows_.empty() ? nullptr : rows_.front().entry(column.key);
    return entry == nullptr ? QVariant() : tip ? help_of(*entry) : label_of(*entry);
}

QStringList WiringModel::choices(const QModelIndex& index) const {
    const Column& column = columns()[static_cast<std::size_t>(index.column())];
    const Entry* entry = rows_[static_cast<std::size_t>(index.row())].entry(column.key);
    const auto* choice = entry != nullptr ? std::get_if<ChoiceEntry>(entry) : nullptr;
    return choice != nullptr ? choice->words(document_.show()) : QStringList();
}

std::optional<Figure> WiringModel::read(const FigureEntry& entry, const QString& text) {
    if (text.trimmed().isEmpty()) {
        return Figure{};
    }
    const UnitSystem units = settings_.units();
    const auto value = parse_quantity(entry.quantity, text.toStdString(), units);
    if (!value) {
        emit refused(sentence_of(value.error()));
        return std::nullopt;
    }
    if (*value < entry.least || *value > entry.most) {
        emit refused(tr("%1 is not taken for %2: enter %3 to %4.")
                         .arg(text.trimmed(), entry.label, printed(entry.quantity, entry.least, units),
                              printed(entry.quantity, entry.most, units)));
        return std::nullopt;
    }
    return Figure{*value};
}

bool WiringModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (role != Qt::EditRole || !index.isValid() || index.row() >= rowCount()) {
        return false;
    }
    const Column& column = columns()[static_cast<std::size_t>(index.column())];
    const Entry* entry = rows_[static_cast<std::size_t>(index.row())].entry(column.key);
    if (entry == nullptr || value.toString() == text(index)) {
        return false;
    }
    const Show& show = document_.show();
    if (const auto* choice = std::get_if<ChoiceEntry>(entry)) {
        document_.perform(choice->set(show, static_cast<int>(choice->words(show).indexOf(value.toString()))));
        return true;
    }
    if (const auto* figure = std::get_if<FigureEntry>(entry)) {
        const std::optional<Figure> read_figure = read(*figure, value.toString());
        if (read_figure) {
            document_.perform(figure->set(show, *read_figure));
        }
        return read_figure.has_value();
    }
    const auto& line = std::get<TextEntry>(*entry);
    const QString words = value.toString().trimmed();
    if ((words.isEmpty() && !line.may_be_blank) || line.taken(show, words)) {
        emit refused(words.isEmpty() ? tr("A name is needed.")
                                     : tr("\"%1\" is taken. Choose another name.").arg(words));
        return false;
    }
    document_.perform(line.set(show, words));
    return true;
}

bool WiringModel::take(int row, std::string_view key, std::optional<double> CircuitAdvice::*value) {
    const Entry* entry = rows_[static_cast<std::size_t>(row)].entry(key);
    const std::optional<CircuitAdvice> advice = advice_for(row);
    if (!analysis_.up_to_date() || entry == nullptr || !advice || !((*advice).*value)) {
        return false;
    }
    document_.perform(std::get<FigureEntry>(*entry).set(document_.show(), (*advice).*value));
    return true;
}

bool WiringModel::take_wire(int row) {
    return take(row, "circuit.wire_mm2", &CircuitAdvice::wire_mm2);
}

bool WiringModel::take_fuse(int row) {
    return take(row, "circuit.fuse_a", &CircuitAdvice::fuse_a);
}

}  // namespace gasp
