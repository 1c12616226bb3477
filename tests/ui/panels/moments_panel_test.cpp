// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/moments_panel.hpp"

#include "core/show/edits.hpp"
#include "tests/support/catch.hpp"
#include "tests/ui/panels/panel_desk.hpp"

#include <QAction>
#include <QCheckBox>
#include <QDoubleSpinBox>
#include <QTableWidget>
#include <QTest>
#include <QUndoStack>

#include <algorithm>

using namespace gasp;

namespace {

/// The keeper's voice on a sequence, 2 s in, and the panel beside it.
struct Voice {
    Voice() {
        Show show = empty_show();
        SoundClip clip;
        clip.id = {show.next_id++};
        clip.file = "keepers-locker.flac";
        clip.start = Micros{2'000'000};
        clip.length = Micros{14'841'769};
        show.sequences[0].clips.push_back(clip);
        show.sequences[0].length = Micros{20'000'000};
        document.reset(show, QString(GASPWORKS_SOURCE_DIR) + "/demo-shows/voice.gasp");
        moments.set_folder(document.folder());
        panel.resize(900, 320);
        panel.show();
        REQUIRE(QTest::qWaitFor([&] { return panel.table().rowCount() > 0; }, 20'000));
    }

    [[nodiscard]] long count(MomentKind kind) {
        return std::ranges::count(moments.shown(document.sequence()), kind, &SoundMoment::kind);
    }
    QAction& action(int i) { return *panel.moment_actions()[i]; }

    Document document;
    Settings settings;
    Moments moments;
    MomentsPanel panel{document, settings, moments};
};

}  // namespace

TEST_CASE("the words of a voice are found where the clip plays them") {
    Voice voice;
    // Six phrases, as heard by ear and seen in the waveform; the first begins 0.40 s into the file.
    CHECK(voice.count(MomentKind::word) == 6);
    CHECK(voice.count(MomentKind::pause) == 6);
    CHECK(voice.count(MomentKind::loudest) == 1);
    CHECK(voice.count(MomentKind::onset) > 20);
    const std::vector<SoundMoment>& moments = voice.moments.shown(voice.document.sequence());
    const auto first = std::ranges::find(moments, MomentKind::word, &SoundMoment::kind);
    REQUIRE(first != moments.end());
    CHECK(std::chrono::abs(first->time - Micros{2'400'000}) <= Micros{20'000});
    CHECK(std::ranges::is_sorted(moments, {}, &SoundMoment::time));
}

TEST_CASE("every word becomes a mark in one step that can be undone, and is marked but once") {
    Voice voice;
    voice.action(1).trigger();
    const std::vector<Mark>& marks = voice.document.sequence().marks;
    REQUIRE(marks.size() == 6);
    CHECK(marks[0].name == "Word 1");
    CHECK(marks[5].name == "Word 6");
    QString said;
    QObject::connect(&voice.panel, &MomentsPanel::said, [&](const QString& sentence) { said = sentence; });
    voice.action(1).trigger();
    CHECK(voice.document.sequence().marks.size() == 6);
    CHECK(said.contains("there is one at each"));
    voice.document.undo_stack().undo();
    CHECK(voice.document.sequence().marks.empty());
}

TEST_CASE("what is selected in the list becomes marks, and is looked at") {
    Voice voice;
    Micros looked_at{-1};
    QObject::connect(&voice.panel, &MomentsPanel::chosen, [&](Micros time) { looked_at = time; });
    voice.panel.table().setFocus();
    voice.panel.table().setCurrentCell(0, 0);
    QTest::keyClick(&voice.panel.table(), Qt::Key_Down);
    QTest::keyClick(&voice.panel.table(), Qt::Key_Down, Qt::ShiftModifier);
    const std::vector<SoundMoment> listed = voice.moments.of(voice.document.sequence().clips[0]);
    CHECK(looked_at == listed[2].time);
    voice.action(0).trigger();
    const std::vector<Mark>& marks = voice.document.sequence().marks;
    REQUIRE(marks.size() == 2);
    CHECK(marks[0].time == listed[1].time);
    CHECK(marks[1].time == listed[2].time);
}

TEST_CASE("a moment beside a mark needs no other") {
    Voice voice;
    const Micros first = voice.moments.of(voice.document.sequence().clips[0]).front().time;
    voice.document.perform(
        add_mark(voice.document.show(), voice.document.sequence_id(), first - Micros{25'000}, "the lamp"));
    voice.action(1).trigger();
    REQUIRE(voice.document.sequence().marks.size() == 6);
    CHECK(voice.document.sequence().marks[0].name == "the lamp");
}

TEST_CASE("a jaw opens with the voice, and what was changed by hand outlives doing it again") {
    Voice voice;
    Channel jaw;
    jaw.name = "Keeper's jaw";
    jaw.kind = ChannelKind::jaw;
    jaw.shortest_on_ms = 100.0;
    jaw.shortest_off_ms = 90.0;
    voice.document.perform(add_channel(voice.document.show(), jaw));
    const auto cues = [&]() -> const std::vector<Cue>& { return voice.document.sequence().cues; };
    QString said;
    QObject::connect(&voice.panel, &MomentsPanel::said, [&](const QString& sentence) { said = sentence; });
    voice.action(3).trigger();
    const std::vector<Cue> first = cues();
    REQUIRE(first.size() > 6);
    CHECK(said.contains(QString::number(first.size())));
    for (std::size_t i = 0; i < first.size(); ++i) {
        CHECK(first[i].from_voice);
        CHECK(first[i].length >= Micros{100'000});
        CHECK((i == 0 || first[i].at - first[i - 1].at - first[i - 1].length >= Micros{90'000}));
    }
    // Doing it again gives the same; after a change by hand that cue stays as it is.
    voice.action(3).trigger();
    REQUIRE(cues().size() == first.size());
    CHECK(cues().front().at == first.front().at);
    const CueId by_hand = cues()[2].id;
    voice.document.perform(stretch_cue(voice.document.show(), voice.document.sequence_id(), by_hand,
                                       cues()[2].at + Micros{20'000}, cues()[2].length + Micros{30'000}));
    const Cue changed = *gasp::find(voice.document.sequence(), by_hand);
    CHECK_FALSE(changed.from_voice);
    voice.panel.figures()[6]->setValue(40.0);  // what the jaw takes to open
    voice.action(3).trigger();
    REQUIRE(gasp::find(voice.document.sequence(), by_hand) != nullptr);
    CHECK(*gasp::find(voice.document.sequence(), by_hand) == changed);
    const auto opening = std::ranges::find_if(cues(), [](const Cue& cue) { return cue.from_voice; });
    REQUIRE(opening != cues().end());
    CHECK(opening->at == first.front().at - Micros{40'000});
    voice.document.undo_stack().undo();
    voice.document.undo_stack().undo();
    voice.document.undo_stack().undo();
    CHECK(cues() == first);
}

TEST_CASE("figures change what is found at once, and are remembered") {
    Voice voice;
    const long words = voice.count(MomentKind::word);
    voice.panel.figures()[2]->setValue(3000.0);  // the shortest pause
    CHECK(voice.count(MomentKind::word) < words);
    const long onsets = voice.count(MomentKind::onset);
    voice.panel.figures()[3]->setValue(3.0);  // the threshold of onsets
    REQUIRE(QTest::qWaitFor([&] { return !voice.moments.listening() && voice.panel.table().rowCount() > 0; },
                            20'000));
    CHECK(voice.count(MomentKind::onset) < onsets);
    voice.panel.shown_box().setChecked(false);
    CHECK(voice.moments.shown(voice.document.sequence()).empty());
    CHECK(voice.settings.moments().words.shortest_pause_ms == 3000.0);
    CHECK(voice.settings.moments().onsets.threshold == 3.0);
    CHECK_FALSE(voice.settings.moments().shown);
    // A pause is never louder than a word.
    voice.panel.figures()[0]->setValue(50.0);
    CHECK(voice.moments.options().words.close_db == 50.0);
}
