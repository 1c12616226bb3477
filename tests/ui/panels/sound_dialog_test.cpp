// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/sound_dialog.hpp"

#include "core/show/edits.hpp"
#include "core/sound/content.hpp"
#include "tests/support/catch.hpp"
#include "ui/panels/work_bar.hpp"

#include <QDir>
#include <QDoubleSpinBox>
#include <QFile>
#include <QRegularExpression>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QTest>
#include <QUndoStack>

using namespace gasp;

namespace {

/// A show in a folder of its own with the keeper's voice and the bang, and the dialog beside it.
struct Desk {
    Desk() {
        const QString demos = QString(GASPWORKS_SOURCE_DIR) + "/demo-shows/";
        for (const char* name : {"keepers-locker.flac", "locker-bang.flac"}) {
            REQUIRE(QFile::copy(demos + name, folder.filePath(name)));
        }
        Show show = empty_show();
        show.sequences.front().name = "Locker";
        for (const char* name : {"keepers-locker.flac", "locker-bang.flac"}) {
            SoundClip clip;
            clip.id = {show.next_id++};
            clip.file = name;
            clip.content = content_of(folder.filePath(name).toStdString()).value();
            clip.length = Micros{600'000};
            clip.start = Micros{1'000'000};
            clip.from = Micros{clip.id.value % 2 == 0 ? 0 : 500'000};
            show.sequences.front().clips.push_back(clip);
        }
        document.reset(show, folder.filePath("show.gasp"));
        dialog.show();
        rest();
    }
    void rest() {
        REQUIRE(QTest::qWaitFor([&] { return !dialog.bar().working(); }, 30'000));
    }
    [[nodiscard]] QString text(int row, int column) const { return dialog.table().item(row, column)->text(); }

    QTemporaryDir folder;
    Document document;
    Settings settings;
    mutable SoundDialog dialog{document, settings};
};

}  // namespace

TEST_CASE("each mix and clip is measured, and clips are brought to one loudness in one step") {
    Desk desk;
    REQUIRE(desk.dialog.table().rowCount() == 3);
    CHECK(desk.text(0, 0) == "Locker");
    CHECK(desk.text(1, 1).endsWith("LUFS"));
    CHECK(desk.text(1, 1) != desk.text(2, 1));
    // Of the mix, whose clips begin at one second, and of each clip: the loudest 0.4 s and where, and the
    // loudest 3 s. A clip of 0.6 s fills a fifth of those.
    const QRegularExpression moment("^-\\d+\\.\\d LUFS at 0:01\\.[0-5]$");
    for (const int row : {0, 1, 2}) {
        CAPTURE(row, desk.text(row, 2).toStdString(), desk.text(row, 3).toStdString());
        CHECK(desk.text(row, 2).contains(moment));
        CHECK(desk.text(row, 3).endsWith("LUFS"));
        CHECK(desk.text(row, 2).section(' ', 0, 0).toDouble() >
              desk.text(row, 3).section(' ', 0, 0).toDouble());
    }
    desk.dialog.target().setValue(-26.0);
    desk.dialog.match();
    desk.rest();
    CHECK(desk.text(1, 1) == "-26.0 LUFS");
    CHECK(desk.text(2, 1) == "-26.0 LUFS");
    CHECK(desk.document.undo_stack().count() == 1);
    desk.document.undo_stack().undo();
    CHECK(desk.document.sequence().clips[0].gain_db == 0.0);
    CHECK(desk.dialog.bar().said().contains("changed"));
}

TEST_CASE("the mixes are saved, or it is said why not") {
    Desk desk;
    QTemporaryDir player;
    desk.dialog.save_to(player.path());
    desk.rest();
    CHECK(QFile::exists(player.filePath("001-locker.wav")));
    CHECK(desk.dialog.bar().said().startsWith("Saved 1 mixes"));
    desk.dialog.save_to(player.filePath("nowhere"));
    desk.rest();
    CHECK(desk.dialog.bar().said().contains("cannot be written"));
}

TEST_CASE("sounds that are gone are found again below a folder") {
    Desk desk;
    QTemporaryDir elsewhere;
    REQUIRE(QFile::rename(desk.folder.filePath("locker-bang.flac"), elsewhere.filePath("renamed.flac")));
    desk.dialog.measure();
    desk.rest();
    CHECK(desk.text(2, 1) == "missing");
    desk.dialog.find_below(elsewhere.path());
    desk.rest();
    CHECK(QFile::exists(desk.folder.filePath("locker-bang.flac")));
    CHECK(desk.document.undo_stack().count() == 0);
    REQUIRE(QFile::rename(desk.folder.filePath("locker-bang.flac"), desk.folder.filePath("thump.flac")));
    desk.dialog.find_below(desk.folder.path());
    desk.rest();
    CHECK(desk.document.sequence().clips[1].file == "thump.flac");
    CHECK(desk.document.undo_stack().count() == 1);
    CHECK(desk.text(2, 1).endsWith("LUFS"));
}

TEST_CASE("a recording without starts leaves the lag as it was, and says so") {
    Desk desk;
    desk.dialog.hear_lag(desk.folder.filePath("none.wav"));
    desk.rest();
    CHECK_FALSE(desk.document.show().rig.speaker.player_lag_ms);
    CHECK_FALSE(desk.dialog.bar().said().isEmpty());
}
