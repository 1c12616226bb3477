// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/settings.hpp"

#include <QFileInfo>
#include <QLocale>
#include <QSettings>

#include <algorithm>

namespace gasp {
namespace {

constexpr qsizetype most_recent = 10;
/// Raised when docks or toolbars are renamed, so that an old layout is not put on a new window.
constexpr int layout_version = 1;

QString layout_key() {
    return QStringLiteral("window/layout_%1").arg(layout_version);
}

}  // namespace

UnitSystem Settings::units() const {
    const bool us = QLocale::system().measurementSystem() == QLocale::ImperialUSSystem;
    const QString word = QSettings().value("units", us ? "us" : "metric").toString();
    return word == "us" ? UnitSystem::us : UnitSystem::metric;
}

void Settings::set_units(UnitSystem units) {
    QSettings().setValue("units", units == UnitSystem::us ? "us" : "metric");
    emit units_changed();
}

bool Settings::light_theme() const {
    return QSettings().value("theme").toString() == "light";
}

void Settings::set_light_theme(bool light) {
    QSettings().setValue("theme", light ? "light" : "dark");
}

double Settings::volume() const {
    bool is_number = false;
    const double volume = QSettings().value("volume", 1.0).toDouble(&is_number);
    return is_number && volume >= 0.0 && volume <= 1.0 ? volume : 1.0;
}

void Settings::set_volume(double volume) {
    QSettings().setValue("volume", volume);
}

QStringList Settings::recent() const {
    return QSettings().value("recent").toStringList().mid(0, most_recent);
}

void Settings::add_recent(const QString& path) {
    QStringList list = recent();
    const QString absolute = QFileInfo(path).absoluteFilePath();
    list.removeAll(absolute);
    list.prepend(absolute);
    QSettings().setValue("recent", list.mid(0, most_recent));
    emit recent_changed();
}

void Settings::forget_recent() {
    QSettings().remove("recent");
    emit recent_changed();
}

QString Settings::last_folder() const {
    return QSettings().value("last_folder").toString();
}

void Settings::set_last_folder(const QString& folder) {
    QSettings().setValue("last_folder", folder);
}

QByteArray Settings::geometry() const {
    return QSettings().value("window/geometry").toByteArray();
}

QByteArray Settings::layout() const {
    return QSettings().value(layout_key()).toByteArray();
}

void Settings::set_window(const QByteArray& geometry, const QByteArray& layout) {
    QSettings settings;
    settings.setValue("window/geometry", geometry);
    settings.setValue(layout_key(), layout);
}

void Settings::forget_layout() {
    QSettings().remove("window");
}

}  // namespace gasp
