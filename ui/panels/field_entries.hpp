// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edits.hpp"
#include "core/show/fields.hpp"
#include "core/show/show.hpp"
#include "ui/panels/part_edits.hpp"
#include "ui/panels/part_fields.hpp"

#include <algorithm>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// How the entries of a form are made from core's description of a part's fields. Nobody outside ui/panels
// includes this.

namespace gasp {

[[nodiscard]] inline QString text(std::string_view view) {
    return QString::fromUtf8(view.data(), static_cast<qsizetype>(view.size()));
}

[[nodiscard]] inline QStringList texts(std::span<const std::string_view> views) {
    QStringList list;
    for (const auto& view : views) {
        list << text(view);
    }
    return list;
}

/// Where a struct with fields stands in a show: `get` is null when its part is gone, `set` makes the edit
/// that puts another one in its place.
template <class T>
struct Spot {
    std::function<const T*(const Show&)> get;
    std::function<Edit(const Show&, const T&)> set;
};

template <class T>
FigureEntry entry(const FigureField<T>& field, const Spot<T>& spot, const std::string& prefix,
                  const QString& part) {
    FigureEntry entry{.key = prefix + std::string(field.key),
                      .label = text(field.label),
                      .help = text(field.help),
                      .quantity = field.quantity,
                      .least = field.least,
                      .most = field.most,
                      .whole = false,
                      .get = {},
                      .set = {}};
    entry.get = [spot, member = field.member](const Show& show) {
        const T* value = spot.get(show);
        return value != nullptr ? value->*member : Figure{};
    };
    entry.set = [spot, member = field.member, label = entry.label, part](const Show& show, Figure figure) {
        const T* value = spot.get(show);
        if (value == nullptr) {
            return Edit{};
        }
        T changed = *value;
        changed.*member = figure;
        return named_after(spot.set(show, changed), label, part);
    };
    return entry;
}

template <class T>
ChoiceEntry entry(const ChoiceField<T>& field, const Spot<T>& spot, const std::string& prefix,
                  const QString& part) {
    ChoiceEntry entry{.key = prefix + std::string(field.key),
                      .label = text(field.label),
                      .help = text(field.help),
                      .words = [words = texts(field.labels)](const Show&) { return words; },
                      .get = {},
                      .set = {}};
    entry.get = [spot, get = field.get](const Show& show) {
        const T* value = spot.get(show);
        return value != nullptr ? static_cast<int>(get(*value)) : -1;
    };
    entry.set = [spot, set = field.set, label = entry.label, part](const Show& show, int index) {
        const T* value = spot.get(show);
        if (value == nullptr) {
            return Edit{};
        }
        T changed = *value;
        set(changed, static_cast<std::size_t>(index));
        return named_after(spot.set(show, changed), label, part);
    };
    return entry;
}

template <class T>
TextEntry entry(const TextField<T>& field, const Spot<T>& spot, const std::string& prefix,
                const QString& part) {
    TextEntry entry{.key = prefix + std::string(field.key),
                    .label = text(field.label),
                    .help = text(field.help),
                    .may_be_blank = true,
                    .get = {},
                    .taken = [](const Show&, const QString&) { return false; },
                    .set = {}};
    entry.get = [spot, member = field.member](const Show& show) {
        const T* value = spot.get(show);
        return value != nullptr ? QString::fromStdString(value->*member) : QString();
    };
    entry.set = [spot, member = field.member, label = entry.label, part](const Show& show,
                                                                         const QString& line) {
        const T* value = spot.get(show);
        if (value == nullptr) {
            return Edit{};
        }
        T changed = *value;
        changed.*member = line.toStdString();
        return named_after(spot.set(show, changed), label, part);
    };
    return entry;
}

template <class T>
void add_fields(Section& section, const Spot<T>& spot, const std::string& prefix, const QString& part) {
    for (const auto& field : fields<T>().choices) {
        section.entries.emplace_back(entry(field, spot, prefix, part));
    }
    for (const auto& field : fields<T>().figures) {
        section.entries.emplace_back(entry(field, spot, prefix, part));
    }
    for (const auto& field : fields<T>().texts) {
        section.entries.emplace_back(entry(field, spot, prefix, part));
    }
}

template <class T>
Section section(const QString& title, const Spot<T>& spot, const std::string& prefix, const QString& part) {
    Section made{title, {}};
    add_fields(made, spot, prefix, part);
    return made;
}

/// A named thing of one of the rig's lists.
template <class T>
Spot<T> listed(decltype(T::id) id, Edit (*set)(const Show&, const T&)) {
    return {[id](const Show& show) { return find(show, id); }, set};
}

/// A struct within an actuator.
template <class T>
Spot<T> within(ActuatorId id, T Actuator::*member) {
    return {[id, member](const Show& show) -> const T* {
                const Actuator* actuator = find(show, id);
                return actuator != nullptr ? &(actuator->*member) : nullptr;
            },
            [id, member](const Show& show, const T& value) {
                Actuator changed = *find(show, id);
                changed.*member = value;
                return set_actuator(show, changed);
            }};
}

template <class T>
TextEntry name_entry(const Spot<T>& spot, std::vector<T> Rig::*list) {
    TextEntry entry{.key = "name",
                    .label = "Name",
                    .help = "How it is called everywhere.",
                    .may_be_blank = false,
                    .get = {},
                    .taken = {},
                    .set = {}};
    entry.get = [spot](const Show& show) {
        const T* value = spot.get(show);
        return value != nullptr ? QString::fromStdString(value->name) : QString();
    };
    entry.taken = [spot, list](const Show& show, const QString& name) {
        const T* own = spot.get(show);
        const auto& all = show.rig.*list;
        return std::any_of(all.begin(), all.end(), [&](const T& other) {
            return own != nullptr && other.id != own->id && other.name == name.toStdString();
        });
    };
    entry.set = [spot](const Show& show, const QString& name) {
        const T* value = spot.get(show);
        if (value == nullptr) {
            return Edit{};
        }
        T changed = *value;
        changed.name = name.toStdString();
        Edit edit = spot.set(show, changed);
        edit.sentence = "rename " + value->name;
        return edit;
    };
    return entry;
}

/// A choice of one thing of a list, or of none.
template <class T, class Owner>
ChoiceEntry reference(const Spot<Owner>& spot, std::optional<decltype(T::id)> Owner::*member,
                      std::vector<T> Rig::*list, std::string key, const QString& label, const QString& none,
                      const QString& help, const QString& part) {
    ChoiceEntry entry{.key = std::move(key), .label = label, .help = help, .words = {}, .get = {}, .set = {}};
    entry.words = [list, none](const Show& show) {
        QStringList words{none};
        for (const T& thing : show.rig.*list) {
            words << QString::fromStdString(thing.name);
        }
        return words;
    };
    entry.get = [spot, member, list](const Show& show) {
        const Owner* owner = spot.get(show);
        if (owner == nullptr || !(owner->*member)) {
            return 0;
        }
        const auto& all = show.rig.*list;
        const auto it =
            std::find_if(all.begin(), all.end(), [&](const T& t) { return t.id == *(owner->*member); });
        return it == all.end() ? 0 : static_cast<int>(it - all.begin()) + 1;
    };
    entry.set = [spot, member, list, label, part](const Show& show, int index) {
        const Owner* owner = spot.get(show);
        const auto& all = show.rig.*list;
        if (owner == nullptr || index > static_cast<int>(all.size())) {
            return Edit{};
        }
        Owner changed = *owner;
        changed.*member =
            index > 0 ? std::optional(all[static_cast<std::size_t>(index - 1)].id) : std::nullopt;
        return named_after(spot.set(show, changed), label, part);
    };
    return entry;
}

}  // namespace gasp
