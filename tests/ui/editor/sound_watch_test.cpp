// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/sound_watch.hpp"

#include "core/show/edits.hpp"
#include "tests/support/catch.hpp"

#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <cstdio>

using namespace gasp;

namespace {

constexpr int soon_ms = 10'000;

/// A show with two sounds in its folder, one of them a folder further down.
struct Watched {
    Watched() {
        QDir(folder.path()).mkpath("voices");
        put("bang.wav", "bang");
        put("voices/keeper.wav", "the keeper speaks");
        Show show = empty_show();
        for (const char* file : {"bang.wav", "voices/keeper.wav"}) {
            SoundClip clip;
            clip.id = {show.next_id++};
            clip.file = file;
            clip.length = clip.file_length = Micros{1'000'000};
            show.sequences.front().clips.push_back(clip);
        }
        document.reset(show, folder.filePath("show.gasp"));
    }
    void put(const QString& name, const QByteArray& bytes) const {
        QFile file(folder.filePath(name));
        REQUIRE(file.open(QIODevice::WriteOnly));
        REQUIRE(file.write(bytes) == bytes.size());
    }
    /// What is told next; empty when nothing is.
    [[nodiscard]] QStringList told(int within_ms = soon_ms) {
        if (spy.isEmpty() && !spy.wait(within_ms)) {
            return {};
        }
        return spy.takeFirst().at(0).toStringList();
    }

    QTemporaryDir folder;
    Document document;
    SoundWatch watch{document};
    QSignalSpy spy{&watch, &SoundWatch::changed};
};

}  // namespace

TEST_CASE("a sound written anew, replaced, taken away and put back is told of, and no other") {
    Watched desk;
    REQUIRE(desk.told(600).isEmpty());  // the show is followed by now

    desk.put("bang.wav", "a louder bang");
    CHECK(desk.told() == QStringList{"bang.wav"});

    // As programs do that replace a file as one step, twice: the second time the watcher has lost the first.
    for (const char* bytes : {"another take", "a third take"}) {
        desk.put("voices/new.part", bytes);
        REQUIRE(std::rename(qPrintable(desk.folder.filePath("voices/new.part")),
                            qPrintable(desk.folder.filePath("voices/keeper.wav"))) == 0);
        CHECK(desk.told() == QStringList{"voices/keeper.wav"});
    }

    REQUIRE(QFile::remove(desk.folder.filePath("bang.wav")));
    CHECK(desk.told() == QStringList{"bang.wav"});
    desk.put("bang.wav", "back");
    CHECK(desk.told() == QStringList{"bang.wav"});

    desk.put("other.wav", "not of the show");
    CHECK(desk.told(900).isEmpty());
}

TEST_CASE("a sound that is still being written is told of once, when it rests") {
    Watched desk;
    REQUIRE(desk.told(600).isEmpty());
    QFile file(desk.folder.filePath("bang.wav"));
    REQUIRE(file.open(QIODevice::WriteOnly));
    for (int i = 0; i < 10; ++i) {
        file.write("more and more");
        file.flush();
        QTest::qWait(60);
    }
    CHECK(desk.spy.isEmpty());
    file.close();
    CHECK(desk.told() == QStringList{"bang.wav"});
    CHECK(desk.told(900).isEmpty());
}

TEST_CASE("a sound added later is watched, one that the show no longer has is not") {
    Watched desk;
    desk.put("late.wav", "late");
    SoundClip clip = desk.document.sequence().clips[0];
    clip.id = {desk.document.show().next_id};
    clip.file = "late.wav";
    desk.document.perform(add_clip(desk.document.show(), desk.document.sequence_id(), clip));
    desk.document.perform(
        remove_clip(desk.document.show(), desk.document.sequence_id(), desk.document.sequence().clips[0].id));
    REQUIRE(desk.told(600).isEmpty());
    desk.put("late.wav", "later");
    CHECK(desk.told() == QStringList{"late.wav"});
    desk.put("bang.wav", "gone from the show");
    CHECK(desk.told(900).isEmpty());
}
