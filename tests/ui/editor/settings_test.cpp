// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/settings.hpp"

#include "tests/support/catch.hpp"

#include <QSettings>

using namespace gasp;

TEST_CASE("settings are kept for the next session") {
    QSettings().clear();
    Settings first;
    first.set_units(UnitSystem::us);
    first.set_light_theme(true);
    first.set_volume(0.25);
    const Settings second;
    CHECK(second.units() == UnitSystem::us);
    CHECK(second.light_theme());
    CHECK(second.volume() == 0.25);
}

TEST_CASE("what makes no sense reads as the default") {
    QSettings().clear();
    QSettings().setValue("volume", "loud");
    CHECK(Settings().volume() == 1.0);
    QSettings().setValue("volume", 7.0);
    CHECK(Settings().volume() == 1.0);
    CHECK(Settings().recent().isEmpty());
}

TEST_CASE("recent shows: newest first, each once, at most ten") {
    QSettings().clear();
    Settings settings;
    for (int i = 0; i < 15; ++i) {
        settings.add_recent(QStringLiteral("/shows/%1.gasp").arg(i));
    }
    settings.add_recent("/shows/12.gasp");
    const QStringList recent = settings.recent();
    CHECK(recent.size() == 10);
    CHECK(recent[0] == "/shows/12.gasp");
    CHECK(recent[1] == "/shows/14.gasp");
    CHECK(recent.count("/shows/12.gasp") == 1);
}
