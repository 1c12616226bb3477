// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"
#include "core/show/show.hpp"
#include "core/units/error.hpp"
#include "core/units/quantity.hpp"
#include "ui/panels/linkage_plot.hpp"

#include <QString>
#include <QStringList>

#include <compare>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace gasp {

enum class PartKind : std::uint8_t { show, air_plant, actuator, channel, board, supply, sensor, speaker };

/// One part of the rig, or the show itself; `id` only where there may be several.
struct Part {
    PartKind kind = PartKind::show;
    std::uint32_t id = 0;
    auto operator<=>(const Part&) const = default;
};

// A field of a part as a form shows it: how it is read from a show, and the edit that gives it another value.
// None holds a value of its own. `key` is its key path within the part, as findings name it:
// "valve.shortest_on_ms".

struct FigureEntry {
    std::string key;
    QString label;
    QString help;
    Quantity quantity;
    double least;
    double most;
    bool whole = false;  ///< only whole numbers make sense
    std::function<Figure(const Show&)> get;
    std::function<Edit(const Show&, Figure)> set;
};

struct ChoiceEntry {
    std::string key;
    QString label;
    QString help;
    std::function<QStringList(const Show&)> words;
    std::function<int(const Show&)> get;  ///< index into words
    std::function<Edit(const Show&, int)> set;
};

/// A line of text: a name, or a remark that may be blank.
struct TextEntry {
    std::string key;
    QString label;
    QString help;
    bool may_be_blank = false;
    std::function<QString(const Show&)> get;
    std::function<bool(const Show&, const QString&)> taken;  ///< by another thing of its kind
    std::function<Edit(const Show&, const QString&)> set;
};

/// Which of the other channels are meant.
struct ManyEntry {
    std::string key;
    QString label;
    QString help;
    std::function<QStringList(const Show&)> words;
    std::function<std::vector<bool>(const Show&)> get;
    std::function<Edit(const Show&, int, bool)> set;
};

/// Several figures of a kind, in one line.
struct ListEntry {
    std::string key;
    QString label;
    QString help;
    QString unit;  ///< of a bare number; empty for counts
    std::function<std::vector<double>(const Show&)> get;
    std::function<Result<double>(const std::string& text)> read;  ///< one of them
    std::function<QString(double)> print;
    /// What is wrong with them together; empty when nothing is.
    std::function<QString(const std::vector<double>&)> trouble;
    std::function<Edit(const Show&, std::vector<double>)> set;
};

/// The points of a measured linkage.
struct PointsEntry {
    std::string key;
    QString label;
    QString help;
    std::function<std::vector<LinkagePoint>(const Show&)> get;
    std::function<LinkageCurve(const Show&)> curve;
    std::function<Edit(const Show&, std::vector<LinkagePoint>)> set;
};

using Entry = std::variant<TextEntry, ChoiceEntry, FigureEntry, ManyEntry, ListEntry, PointsEntry>;

struct Section {
    QString title;
    std::vector<Entry> entries;
};

/// Every field of a part, from core's description of the fields. Empty when the part is gone.
[[nodiscard]] std::vector<Section> sections_of(const Show& show, Part part);

/// Whether a field of a part means anything as the part is now: the coil of a channel that is no valve's does
/// not, nor do the arms of a linkage that has none.
[[nodiscard]] bool is_of_use(const Show& show, Part part, std::string_view key);

/// The fields of the night's plan, and its lists.
[[nodiscard]] Section night_section();

[[nodiscard]] bool exists(const Show& show, Part part);
[[nodiscard]] QString name_of(const Show& show, Part part);

}  // namespace gasp
