// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/show_files.hpp"

#include "core/file/show_file.hpp"
#include "core/show/edits.hpp"
#include "tests/support/catch.hpp"

#include <QDir>
#include <QFile>
#include <QSettings>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

using namespace gasp;

namespace {

// A recorded voice of Debian's alsa-utils.
const QString voice = "/usr/share/sounds/alsa/Front_Center.wav";

struct Desk {
    Desk() { QSettings().clear(); }
    [[nodiscard]] bool idle() {
        return QTest::qWaitFor([this] { return files.busy().isEmpty(); }, 20000);
    }
    QTemporaryDir folder;
    Settings settings;
    Document document;
    ShowFiles files{document, settings};
};

}  // namespace

TEST_CASE("a sound begins a new show: its name, its length, its own folder") {
    Desk desk;
    const QString sound = desk.folder.filePath("voice.wav");
    REQUIRE(QFile::copy(voice, sound));
    desk.files.open(sound);
    REQUIRE(desk.idle());
    const Sequence& sequence = desk.document.sequence();
    REQUIRE(sequence.clips.size() == 1);
    CHECK(sequence.clips.front().file == "voice.wav");
    CHECK(desk.document.show().name == "voice");
    CHECK(sequence.length >= sequence.clips.front().length);
    CHECK(sequence.length - sequence.clips.front().length < std::chrono::seconds(1));
    CHECK(desk.document.folder() == desk.folder.path());
    desk.document.undo_stack().undo();
    CHECK(desk.document.show() == empty_show());
}

TEST_CASE("a sound from elsewhere is copied beside the show, and not twice") {
    Desk desk;
    REQUIRE(desk.files.save_as(desk.folder.filePath("show.gasp")));
    desk.files.add_sounds({voice}, Micros{0});
    REQUIRE(desk.idle());
    desk.files.add_sounds({voice}, Micros{2'000'000});
    REQUIRE(desk.idle());
    CHECK(desk.document.sequence().clips.size() == 2);
    CHECK(desk.document.sequence().clips[1].file == "Front_Center.wav");
    CHECK(QDir(desk.folder.path()).entryList({"*.wav"}).size() == 1);
}

TEST_CASE("another sound of the same name gets a name of its own") {
    Desk desk;
    QFile other(desk.folder.filePath("Front_Center.wav"));
    REQUIRE(other.open(QIODevice::WriteOnly));
    other.write("another");
    other.close();
    REQUIRE(desk.files.save_as(desk.folder.filePath("show.gasp")));
    desk.files.add_sounds({voice}, Micros{0});
    REQUIRE(desk.idle());
    REQUIRE(desk.document.sequence().clips.size() == 1);
    CHECK(desk.document.sequence().clips.front().file == "Front_Center 2.wav");
}

TEST_CASE("a show saved elsewhere takes its sounds along") {
    Desk desk;
    const QTemporaryDir elsewhere;
    const QString sound = desk.folder.filePath("voice.wav");
    REQUIRE(QFile::copy(voice, sound));
    desk.files.open(sound);
    REQUIRE(desk.idle());
    REQUIRE(desk.files.save_as(elsewhere.filePath("show")));
    CHECK(desk.document.path() == elsewhere.filePath("show.gasp"));
    CHECK(QFile::exists(elsewhere.filePath("voice.wav")));
    CHECK(QFile::exists(sound));
    CHECK_FALSE(desk.document.modified());
}

TEST_CASE("a show is not saved under the name of a sound") {
    Desk desk;
    const QString sound = desk.folder.filePath("voice.wav");
    REQUIRE(QFile::copy(voice, sound));
    const qint64 bytes = QFileInfo(sound).size();
    QSignalSpy failed(&desk.files, &ShowFiles::not_saved);
    CHECK_FALSE(desk.files.save_as(sound));
    CHECK(failed.size() == 1);
    CHECK(QFileInfo(sound).size() == bytes);
}

TEST_CASE("another file is taken for a sound that went missing, as one step to undo") {
    Desk desk;
    const QString sound = desk.folder.filePath("voice.wav");
    REQUIRE(QFile::copy(voice, sound));
    desk.files.open(sound);
    REQUIRE(desk.idle());
    const Show before = desk.document.show();
    REQUIRE(QFile::rename(sound, desk.folder.filePath("take 2.wav")));
    desk.files.choose_sound_file("voice.wav", desk.folder.filePath("take 2.wav"));
    REQUIRE(desk.idle());
    const SoundClip& clip = desk.document.sequence().clips.front();
    CHECK(clip.file == "take 2.wav");
    CHECK(clip.content == before.sequences[0].clips.front().content);
    CHECK(clip.length == before.sequences[0].clips.front().length);
    desk.document.undo_stack().undo();
    CHECK(desk.document.show() == before);
}

TEST_CASE("save and open again give the same show, and it is remembered") {
    Desk desk;
    desk.document.perform(rename_show(desk.document.show(), "fog"));
    const QString path = desk.folder.filePath("fog.gasp");
    REQUIRE(desk.files.save_as(path));
    const Show saved = desk.document.show();
    desk.files.start_new();
    desk.files.open(path);
    REQUIRE(desk.idle());
    CHECK(desk.document.show() == saved);
    CHECK(desk.document.path() == path);
    CHECK(desk.settings.recent().front() == path);
}

TEST_CASE("what cannot be read leaves the open show as it is and says why") {
    Desk desk;
    desk.document.perform(rename_show(desk.document.show(), "kept"));
    QFile broken(desk.folder.filePath("broken.gasp"));
    REQUIRE(broken.open(QIODevice::WriteOnly));
    broken.write("{ \"format\": ");
    broken.close();
    QSignalSpy failed(&desk.files, &ShowFiles::failed);
    for (const QString& path :
         {broken.fileName(), desk.folder.filePath("missing.gasp"), desk.folder.filePath("missing.wav")}) {
        if (path.endsWith(".wav")) {
            desk.files.add_sounds({path}, Micros{0});
        } else {
            desk.files.open(path);
        }
        REQUIRE(desk.idle());
    }
    CHECK(failed.count() == 3);
    CHECK(desk.document.show().name == "kept");
    CHECK(desk.document.modified());
}

TEST_CASE("a folder that is not there cannot be saved in, and nothing counts as saved") {
    Desk desk;
    desk.document.perform(rename_show(desk.document.show(), "kept"));
    QSignalSpy failed(&desk.files, &ShowFiles::not_saved);
    CHECK_FALSE(desk.files.save_as("/nowhere/at/all/show.gasp"));
    CHECK(failed.count() == 1);
    CHECK(desk.document.modified());
    CHECK(desk.document.path().isEmpty());
}

TEST_CASE("a cancelled job changes nothing") {
    Desk desk;
    desk.files.add_sounds({voice}, Micros{0});
    CHECK_FALSE(desk.files.busy().isEmpty());
    desk.files.cancel();
    CHECK(desk.files.busy().isEmpty());
    QTest::qWait(200);
    CHECK(desk.document.show() == empty_show());
}

TEST_CASE("a show that another program has changed meanwhile is not saved over unasked") {
    Desk desk;
    const QString path = desk.folder.filePath("show.gasp");
    REQUIRE(desk.files.save_as(path));
    REQUIRE(desk.files.save());  // nobody else wrote it
    Show other = desk.document.show();
    other.name = "written by another window";
    REQUIRE(save_show(other, path.toStdString()));
    const QSignalSpy changed(&desk.files, &ShowFiles::changed_elsewhere);
    desk.document.perform(rename_show(desk.document.show(), "written here"));
    CHECK_FALSE(desk.files.save());
    CHECK(changed.size() == 1);
    CHECK(desk.document.modified());
    CHECK(load_show(path.toStdString())->name == "written by another window");
    REQUIRE(desk.files.save(ShowFiles::Over::anything));
    CHECK(load_show(path.toStdString())->name == "written here");
    CHECK(desk.files.save());

    REQUIRE(save_show(other, path.toStdString()));
    desk.files.open(path);
    REQUIRE(desk.idle());
    CHECK(desk.files.save());  // as it was read
    REQUIRE(QFile::remove(path));
    CHECK(desk.files.save());  // nothing there to lose
}
