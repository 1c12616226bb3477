// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/task_memory.hpp"

#include "core/show/limits.hpp"

#include <QString>

namespace gasp {
namespace {

constexpr const char* of_linkage = "linkage.";
constexpr const char* points_key = "linkage.points_mm_deg";

QString text(std::string_view view) {
    return QString::fromUtf8(view.data(), static_cast<qsizetype>(view.size()));
}

template <class T>
void recall(const QVariantMap& kept, const QString& prefix, T& part) {
    for (const auto& field : fields<T>().figures) {
        bool is_number = false;
        const double figure = kept.value(prefix + text(field.key)).toDouble(&is_number);
        if (is_number && figure >= field.least && figure <= field.most) {
            part.*field.member = figure;
        }
    }
    for (const auto& field : fields<T>().choices) {
        const QString key = prefix + text(field.key);
        const uint index = kept.value(key).toUInt();
        if (kept.contains(key) && index < field.keys.size()) {
            field.set(part, index);
        }
    }
}

template <class T>
void keep(const T& part, const QString& prefix, QVariantMap& kept) {
    for (const auto& field : fields<T>().figures) {
        if (const Figure& figure = part.*field.member) {
            kept.insert(prefix + text(field.key), *figure);
        }
    }
    for (const auto& field : fields<T>().choices) {
        kept.insert(prefix + text(field.key), static_cast<uint>(field.get(part)));
    }
}

std::vector<LinkagePoint> points_of(const QVariantList& list) {
    std::vector<LinkagePoint> points;
    for (qsizetype i = 0; i + 1 < list.size(); i += 2) {
        points.push_back({list[i].toDouble(), list[i + 1].toDouble()});
    }
    return points;
}

}  // namespace

SizingTask remembered_task(const QVariantMap& kept) {
    SizingTask task;
    recall(kept, {}, task);
    Linkage linkage;
    recall(kept, of_linkage, linkage);
    linkage.points = points_of(kept.value(points_key).toList());
    if (points_allowed(linkage.points)) {
        task.linkage = std::move(linkage);
    }
    return task;
}

QVariantMap to_remember(const SizingTask& task) {
    QVariantMap kept;
    keep(task, {}, kept);
    keep(task.linkage, of_linkage, kept);
    QVariantList points;
    for (const LinkagePoint& point : task.linkage.points) {
        points << point.travel_mm << point.arm_deg;
    }
    kept.insert(points_key, points);
    return kept;
}

SizingTask taken_from(const Show& show, const Actuator& actuator, const SizingTask& task) {
    SizingTask taken = sizing_task(show, actuator);
    for (const auto& field : fields<SizingTask>().figures) {
        Figure& figure = taken.*field.member;
        figure = figure ? figure : task.*field.member;
    }
    return taken;
}

}  // namespace gasp
