// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/waveforms.hpp"

#include "tests/support/catch.hpp"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

using namespace gasp;

namespace {

SoundClip clip_of(const char* file, const char* content = "") {
    SoundClip clip;
    clip.file = file;
    clip.content = content;
    return clip;
}

bool finishes(Waveforms& waveforms) {
    return QTest::qWaitFor([&] { return waveforms.progress() >= 1.0; }, 20'000);
}

}  // namespace

TEST_CASE("peaks of a voice of the demo shows are built in the background, once for each content") {
    Waveforms waveforms;
    waveforms.set_folder(QString(GASPWORKS_SOURCE_DIR) + "/demo-shows");
    bool told = false;
    QObject::connect(&waveforms, &Waveforms::finished, [&] { told = true; });
    static_cast<void>(waveforms.peaks(clip_of("keepers-locker.flac", "one")));
    REQUIRE(finishes(waveforms));
    REQUIRE(QTest::qWaitFor([&] { return told; }, 5000));
    const auto peaks = waveforms.peaks(clip_of("keepers-locker.flac", "one"));
    REQUIRE(peaks != nullptr);
    REQUIRE(peaks->complete());
    REQUIRE(waveforms.problem(clip_of("keepers-locker.flac", "one")).isEmpty());
    // Under another name, the same content is not decoded again.
    REQUIRE(waveforms.peaks(clip_of("moved.flac", "one")) == peaks);
}

TEST_CASE("a file that cannot be read says why") {
    QTemporaryDir folder;
    QFile broken(folder.filePath("broken.wav"));
    REQUIRE(broken.open(QIODevice::WriteOnly));
    broken.write("RIFF of nothing");
    broken.close();
    Waveforms waveforms;
    waveforms.set_folder(folder.path());
    for (const char* name : {"broken.wav", "missing.wav", "../outside.wav"}) {
        static_cast<void>(waveforms.peaks(clip_of(name)));
        REQUIRE(finishes(waveforms));
        INFO(name);
        CHECK(waveforms.peaks(clip_of(name)) == nullptr);
        CHECK(!waveforms.problem(clip_of(name)).isEmpty());
    }
}

TEST_CASE(
    "a file that has changed is read anew, peaks and samples, and no longer taken for its old content") {
    const QString demos = QString(GASPWORKS_SOURCE_DIR) + "/demo-shows/";
    QTemporaryDir folder;
    const QString file = folder.filePath("voice.flac");
    REQUIRE(QFile::copy(demos + "locker-bang.flac", file));
    REQUIRE(QFile::copy(demos + "locker-bang.flac", folder.filePath("same.flac")));
    Waveforms waveforms;
    waveforms.set_folder(folder.path());
    const SoundClip clip = clip_of("voice.flac", "one");
    static_cast<void>(waveforms.peaks(clip));
    REQUIRE(finishes(waveforms));
    const auto before = waveforms.peaks(clip);
    REQUIRE(before);
    static_cast<void>(waveforms.samples(clip, 1000, 2000));
    REQUIRE(QTest::qWaitFor([&] { return waveforms.samples(clip, 1000, 2000) != nullptr; }, 20'000));
    const auto samples = waveforms.samples(clip, 1000, 2000)->samples;

    REQUIRE(QFile::remove(file));
    REQUIRE(QFile::copy(demos + "keepers-locker.flac", file));
    CHECK(waveforms.peaks(clip) == before);
    waveforms.read_anew("voice.flac");
    static_cast<void>(waveforms.peaks(clip));
    REQUIRE(finishes(waveforms));
    const auto after = waveforms.peaks(clip);
    REQUIRE(after);
    CHECK(after->frames() > before->frames());
    REQUIRE(QTest::qWaitFor([&] { return waveforms.samples(clip, 30'000, 31'000) != nullptr; }, 20'000));
    REQUIRE(QTest::qWaitFor([&] { return waveforms.samples(clip, 1000, 2000) != nullptr; }, 20'000));
    CHECK(waveforms.samples(clip, 1000, 2000)->samples != samples);
    // A file beside it that holds what it held is not decoded again.
    CHECK(waveforms.peaks(clip_of("same.flac", "one")) == before);
}

TEST_CASE("a file put back is read when looked for again, one found elsewhere at once") {
    const QString voice = QString(GASPWORKS_SOURCE_DIR) + "/demo-shows/locker-bang.flac";
    QTemporaryDir folder;
    Waveforms waveforms;
    waveforms.set_folder(folder.path());
    static_cast<void>(waveforms.peaks(clip_of("bang.flac", "one")));
    REQUIRE(finishes(waveforms));
    REQUIRE(!waveforms.problem(clip_of("bang.flac", "one")).contains(folder.path()));
    REQUIRE(QFile::copy(voice, folder.filePath("bang.flac")));
    CHECK(waveforms.peaks(clip_of("bang.flac", "one")) == nullptr);
    waveforms.look_again();
    static_cast<void>(waveforms.peaks(clip_of("bang.flac", "one")));
    REQUIRE(finishes(waveforms));
    CHECK(waveforms.peaks(clip_of("bang.flac", "one")) != nullptr);
    CHECK(waveforms.problem(clip_of("bang.flac", "one")).isEmpty());

    static_cast<void>(waveforms.peaks(clip_of("thump.flac", "two")));
    REQUIRE(finishes(waveforms));
    REQUIRE(QFile::copy(voice, folder.filePath("thump 2.flac")));
    static_cast<void>(waveforms.peaks(clip_of("thump 2.flac", "two")));
    REQUIRE(finishes(waveforms));
    CHECK(waveforms.peaks(clip_of("thump 2.flac", "two")) != nullptr);
}

TEST_CASE("what is being built can be cancelled") {
    Waveforms waveforms;
    waveforms.set_folder(QString(GASPWORKS_SOURCE_DIR) + "/demo-shows");
    static_cast<void>(waveforms.peaks(clip_of("keepers-locker.flac")));
    waveforms.cancel();
    REQUIRE(waveforms.progress() == 1.0);
    REQUIRE(waveforms.problem(clip_of("keepers-locker.flac")).isEmpty());
}

TEST_CASE("samples are read in the background, a stretch at a time") {
    Waveforms waveforms;
    waveforms.set_folder(QString(GASPWORKS_SOURCE_DIR) + "/demo-shows");
    const SoundClip clip = clip_of("keepers-locker.flac", "one");
    CHECK(waveforms.samples(clip, 10'000, 12'000) == nullptr);
    std::shared_ptr<const SoundWindow> window;
    REQUIRE(QTest::qWaitFor([&] { return (window = waveforms.samples(clip, 10'000, 12'000)) != nullptr; },
                            20'000));
    CHECK(window->first <= 10'000);
    CHECK(window->end() >= 12'000);
    CHECK(waveforms.samples(clip, 10'500, 12'500) == window);  // with some beside
    CHECK(waveforms.samples(clip, 60'000, 61'000) == nullptr);
    REQUIRE(QTest::qWaitFor([&] { return waveforms.samples(clip, 60'000, 61'000) != nullptr; }, 20'000));
    const SoundClip missing = clip_of("missing.flac");
    QTest::qWait(50);
    CHECK(waveforms.samples(missing, 0, 100) == nullptr);
}
