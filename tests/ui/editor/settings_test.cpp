// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/settings.hpp"

#include "tests/support/catch.hpp"

#include <QLocale>
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

TEST_CASE("paper is that of the locale's territory until another is chosen") {
    CHECK(usual_paper(QLocale("en_US")) == Paper::letter);
    CHECK(usual_paper(QLocale("fr_CA")) == Paper::letter);
    CHECK(usual_paper(QLocale("en_GB")) == Paper::a4);
    CHECK(usual_paper(QLocale("ja_JP")) == Paper::a4);
    CHECK(usual_paper(QLocale::c()) == Paper::a4);
    QSettings().clear();
    CHECK(Settings().paper() == usual_paper(QLocale::system()));
    Settings().set_paper(Paper::letter);
    CHECK(Settings().paper() == Paper::letter);
    QSettings().setValue("paper", "parchment");
    CHECK(Settings().paper() == usual_paper(QLocale::system()));
}

TEST_CASE("what makes no sense reads as the default") {
    QSettings().clear();
    QSettings().setValue("volume", "loud");
    CHECK(Settings().volume() == 1.0);
    QSettings().setValue("volume", 7.0);
    CHECK(Settings().volume() == 1.0);
    CHECK(Settings().recent().isEmpty());
}

TEST_CASE("grids are kept by show and sequence; another sequence begins with that of its show") {
    QSettings().clear();
    Settings settings;
    Grid frames;
    frames.kind = Grid::Kind::frames;
    frames.rate = FrameRate::fps_2997_drop;
    Grid beats;
    beats.kind = Grid::Kind::beats;
    beats.beats_a_minute = 91.7;
    beats.first_beat = Micros{640'000};
    settings.set_grid("/shows/1.gasp", SequenceId{4}, beats);
    settings.set_grid("/shows/1.gasp", SequenceId{9}, frames);
    const Settings later;
    CHECK(later.grid("/shows/1.gasp", SequenceId{4}) == beats);
    CHECK(later.grid("/shows/1.gasp", SequenceId{9}) == frames);
    CHECK(later.grid("/shows/1.gasp", SequenceId{5}) == frames);
    CHECK(later.grid("/shows/2.gasp", SequenceId{4}) == Grid{});
    QVariantMap wrong = QSettings().value("grids").toList().front().toMap();
    wrong["beats_a_minute"] = "fast";
    QSettings().setValue("grids", QVariantList{wrong});
    CHECK(later.grid("/shows/1.gasp", SequenceId{9}) == Grid{});
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
