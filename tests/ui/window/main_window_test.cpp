// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/show_file.hpp"
#include "core/show/edits.hpp"
#include "tests/ui/window/open_window.hpp"
#include "ui/editor/moments.hpp"
#include "ui/timeline/waveforms.hpp"

#include <QDockWidget>
#include <QMenu>
#include <QMenuBar>
#include <QMessageBox>
#include <QPushButton>
#include <QStatusBar>
#include <QTableView>
#include <QTemporaryDir>

#include <algorithm>
#include <chrono>
#include <cstdio>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

/// Answers the question about unsaved changes when it comes.
bool answer(OpenWindow& desk, QMessageBox::StandardButton which) {
    QMessageBox* box = nullptr;
    const bool there = QTest::qWaitFor(
        [&] {
            box = desk.window.findChild<QMessageBox*>();
            return box != nullptr && box->isVisible();
        },
        2000);
    if (there) {
        QTest::mouseClick(box->button(which), Qt::LeftButton);
        QTest::qWait(0);
    }
    return there;
}

QStringList messages(OpenWindow& desk) {
    return desk.window.messages().texts();
}

}  // namespace

TEST_CASE("a dropped sound starts a show, a second one joins it") {
    OpenWindow desk;
    desk.drop(desk.voice());
    CHECK(desk.window.document().sequence().clips.size() == 1);
    CHECK(desk.window.windowTitle().startsWith("voice"));
    CHECK(desk.window.isWindowModified());
    desk.drop(desk.voice());
    CHECK(desk.window.document().sequence().clips.size() == 2);
}

TEST_CASE("a dropped show is opened") {
    OpenWindow desk;
    Show show = empty_show();
    show.name = "tide bell";
    const QString path = desk.folder.filePath("tide.gasp");
    REQUIRE(save_show(show, path.toStdString()));
    desk.drop(path);
    CHECK(desk.window.document().show().name == "tide bell");
    CHECK_FALSE(desk.window.isWindowModified());
}

TEST_CASE("a broken show is a line above the timeline, and the open one stays") {
    OpenWindow desk;
    desk.drop(desk.voice());
    QFile broken(desk.folder.filePath("broken.gasp"));
    REQUIRE(broken.open(QIODevice::WriteOnly));
    broken.write("[1, 2");
    broken.close();
    desk.window.files().open(broken.fileName());
    REQUIRE(desk.idle());
    REQUIRE(messages(desk).size() == 1);
    CHECK(messages(desk).front().contains("broken.gasp"));
    CHECK(desk.window.document().sequence().clips.size() == 1);
    auto* close = desk.window.messages().findChild<QPushButton*>();
    QTest::mouseClick(close, Qt::LeftButton);
    CHECK(messages(desk).isEmpty());
}

TEST_CASE("a sound that went missing is a finding that leads to its clip, until it is put back") {
    OpenWindow desk;
    const QString voice = desk.voice();
    desk.drop(voice);
    REQUIRE(desk.window.files().save_as(desk.folder.filePath("show.gasp")));
    REQUIRE(QFile::rename(voice, voice + ".away"));
    auto& analysis = desk.window.analysis();
    const auto missing = [&] {
        const auto result = analysis.wait();
        return std::count_if(result->findings.begin(), result->findings.end(),
                             [](const Finding& finding) { return finding.check == "sound_file"; });
    };
    analysis.ask();
    REQUIRE(QTest::qWaitFor([&] { return missing() == 1; }, 5000));
    emit desk.window.findings().chosen(analysis.result()->findings.front());
    CHECK(desk.window.document().selection().clip == desk.window.document().sequence().clips.front().id);
    CHECK(desk.action("Choose the sound's file...").isEnabled());
    REQUIRE(QFile::rename(voice + ".away", voice));
    QEvent activation(QEvent::WindowActivate);
    QApplication::sendEvent(&desk.window, &activation);
    CHECK(QTest::qWaitFor([&] { return missing() == 0; }, 5000));
}

TEST_CASE(
    "a sound replaced on the disk is drawn, listened to, checked and said, without a hand on the window") {
    OpenWindow desk;
    const QString voice = desk.voice();
    desk.drop(voice);
    REQUIRE(desk.window.files().save_as(desk.folder.filePath("show.gasp")));
    TimelineView& timeline = *desk.window.findChild<TimelineView*>();
    const SoundClip clip = desk.window.document().sequence().clips.front();
    const auto frames = [&] {
        const auto peaks = timeline.waveforms().peaks(clip);
        return peaks && peaks->complete() ? peaks->frames() : 0;
    };
    const auto onsets = [&] {
        const Heard* heard = timeline.moments().heard(clip);
        return heard != nullptr ? heard->onsets : std::vector<Micros>{};
    };
    const auto differs = [&] {
        const auto result = desk.window.analysis().wait();
        return std::ranges::any_of(result->findings,
                                   [](const Finding& finding) { return finding.check == "sound_file"; });
    };
    REQUIRE(QTest::qWaitFor([&] { return frames() > 0 && !onsets().empty(); }, 20'000));
    const std::int64_t frames_before = frames();
    const std::vector<Micros> onsets_before = onsets();
    REQUIRE_FALSE(differs());

    // Another take, shorter, renamed over the first as sound editors do.
    const QString take = desk.folder.filePath("take 2");
    REQUIRE(QFile::copy("/usr/share/sounds/alsa/Side_Left.wav", take));
    QTest::qWait(300);
    REQUIRE(std::rename(qPrintable(take), qPrintable(voice)) == 0);
    REQUIRE(QTest::qWaitFor([&] { return frames() > 0 && frames() != frames_before; }, 20'000));
    REQUIRE(QTest::qWaitFor([&] { return !onsets().empty() && onsets() != onsets_before; }, 20'000));
    CHECK(desk.window.statusBar()->currentMessage() == "Changed on the disk and read again: voice.wav");
    CHECK(QTest::qWaitFor([&] { return differs(); }, 20'000));
}

TEST_CASE("a message that begins with a file's name leaves it as it is") {
    OpenWindow desk;
    desk.window.messages().add_error({"the file is empty", "sound/bell.wav", "Record it again"});
    CHECK(messages(desk).front() == "sound/bell.wav: the file is empty. Record it again.");
    desk.window.messages().add_error({"the disk is full", {}, {}});
    CHECK(messages(desk).back() == "The disk is full.");
}

TEST_CASE("that a show could not be saved is no longer said once it is") {
    OpenWindow desk;
    const QTemporaryDir folder;
    emit desk.window.files().not_saved({"the disk is full", "fog.gasp", "Make room, and save again"});
    desk.window.messages().add_error({"the file is empty", "sound/bell.wav", "Record it again"});
    REQUIRE(messages(desk).size() == 2);
    REQUIRE(desk.window.files().save_as(folder.filePath("fog.gasp")));
    CHECK(messages(desk) == QStringList{"sound/bell.wav: the file is empty. Record it again."});
}

TEST_CASE("every menu fits a screen of 720 lines") {
    OpenWindow desk;
    for (QMenu* menu : desk.window.menuBar()->findChildren<QMenu*>()) {
        INFO(menu->title().toStdString());
        CHECK(menu->sizeHint().height() < 690);
    }
}

TEST_CASE("closing with unsaved changes asks; cancel stays, discard goes") {
    OpenWindow desk;
    desk.drop(desk.voice());
    desk.window.close();
    CHECK(QTest::qWaitFor([&] { return desk.window.findChild<QMessageBox*>() != nullptr; }, 5000));
    CHECK(desk.window.findChild<QMessageBox*>()->text().startsWith("\"voice\""));
    REQUIRE(answer(desk, QMessageBox::Cancel));
    CHECK(desk.window.isVisible());
    CHECK(desk.window.document().modified());
    desk.window.close();
    REQUIRE(answer(desk, QMessageBox::Discard));
    CHECK_FALSE(desk.window.isVisible());
}

TEST_CASE("closing with save keeps the show in its file") {
    OpenWindow desk;
    const QString path = desk.folder.filePath("show.gasp");
    REQUIRE(desk.window.files().save_as(path));
    desk.window.document().perform(rename_show(desk.window.document().show(), "kept"));
    desk.window.close();
    REQUIRE(answer(desk, QMessageBox::Save));
    CHECK_FALSE(desk.window.isVisible());
    const auto saved = load_show(path.toStdString());
    REQUIRE(saved);
    CHECK(saved->name == "kept");
}

TEST_CASE("what is typed in a field and not entered yet is saved, and asked for on closing") {
    OpenWindow desk;
    const QString path = desk.folder.filePath("show.gasp");
    REQUIRE(desk.window.files().save_as(path));
    desk.window.rig().choose({PartKind::air_plant, 0});
    const auto type = [&](const QString& text) {
        auto* edit = qobject_cast<QLineEdit*>(desk.row("air_plant.receiver_l").editor());
        edit->setFocus();
        edit->selectAll();
        QTest::keyClicks(edit, text);
        return edit;
    };
    QTest::keyClick(type("24"), Qt::Key_S, Qt::ControlModifier);
    CHECK(load_show(path.toStdString())->rig.air_plant.receiver_l == 24.0);
    type("50");
    desk.window.close();
    REQUIRE(answer(desk, QMessageBox::Save));
    CHECK(load_show(path.toStdString())->rig.air_plant.receiver_l == 50.0);
}

TEST_CASE("nothing unsaved, no question") {
    OpenWindow desk;
    desk.window.close();
    CHECK_FALSE(desk.window.isVisible());
    CHECK(desk.window.findChild<QMessageBox*>() == nullptr);
}

TEST_CASE("Ctrl+Z and Ctrl+Shift+Z work from anywhere in the window") {
    OpenWindow desk;
    desk.window.rig().add(PartKind::channel);
    REQUIRE(desk.window.document().show().rig.channels.size() == 1);
    desk.window.timeline().setFocus();
    QTest::keyClick(&desk.window, Qt::Key_Z, Qt::ControlModifier);
    CHECK(desk.window.document().show().rig.channels.empty());
    QTest::keyClick(&desk.window, Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(desk.window.document().show().rig.channels.size() == 1);
}

TEST_CASE("a panel that is brought up by its key has the keys, and F3 gives them back to the timeline") {
    OpenWindow desk;
    for (QDockWidget* dock : desk.window.findChildren<QDockWidget*>()) {
        const QKeySequence key = dock->toggleViewAction()->shortcut();
        INFO(dock->windowTitle().toStdString() << " " << key.toString().toStdString());
        REQUIRE_FALSE(key.isEmpty());
        dock->hide();
        desk.window.timeline().setFocus();
        QTest::keySequence(&desk.window, key);
        const QWidget* now = QApplication::focusWidget();
        REQUIRE(now != nullptr);
        CHECK((dock->isAncestorOf(now) || dock->windowTitle() == "Stage"));
        QTest::keySequence(&desk.window, QKeySequence("F3"));
        CHECK(desk.window.timeline().isAncestorOf(QApplication::focusWidget()));
    }
}

TEST_CASE("a finding about a blank field leads to the field, one about a cue to the cue") {
    OpenWindow desk;
    Document& document = desk.window.document();
    desk.window.rig().add(PartKind::channel);
    Cue cue;
    cue.channel = document.show().rig.channels.front().id;
    cue.at = 9s;
    cue.length = 5s;
    document.perform(add_cues(document.show(), document.sequence_id(), {cue}));
    const auto result = desk.window.analysis().wait();
    desk.window.rig().choose({PartKind::air_plant, 0});
    QTest::qWait(0);

    QTableView& table = desk.window.findings().table();
    const auto choose = [&](auto wanted) {
        for (int row = 0; row < table.model()->rowCount(); ++row) {
            if (wanted(result->findings[static_cast<std::size_t>(row)])) {
                table.selectRow(row);
                QTest::keyClick(&table, Qt::Key_Return);
                return true;
            }
        }
        return false;
    };
    REQUIRE(choose([](const Finding& f) { return f.place.cue && !f.not_checked; }));
    CHECK(document.selection().cues == std::vector{document.sequence().cues.front().id});
    REQUIRE(choose([](const Finding& f) { return f.place.channel && f.place.field == "start_level"; }));
    CHECK(desk.window.rig().chosen().kind == PartKind::channel);
    CHECK(desk.window.focusWidget() == desk.row("start_level").editor());
}

TEST_CASE("what is docked where is remembered") {
    QByteArray layout;
    {
        OpenWindow desk;
        desk.window.findChild<QDockWidget*>("stage")->hide();
        desk.window.close();
        layout = desk.settings.layout();
        Settings settings;
        MainWindow next(settings);
        next.show();
        CHECK_FALSE(next.findChild<QDockWidget*>("stage")->isVisible());
        CHECK(next.findChild<QDockWidget*>("rig")->isVisible());
    }
    CHECK_FALSE(layout.isEmpty());
}

TEST_CASE("the first window fits 1280 x 720") {
    OpenWindow desk;
    CHECK(desk.window.minimumSizeHint().width() <= 1280);
    CHECK(desk.window.minimumSizeHint().height() <= 720);
    CHECK(desk.window.width() <= 1280);
    CHECK(desk.window.height() <= 720);
}

TEST_CASE("Space plays, but ticks or presses what has the focus") {
    OpenWindow desk;
    desk.drop(desk.voice());
    desk.window.timeline().setFocus();
    QTest::keyClick(&desk.window, Qt::Key_Space);
    CHECK(desk.window.audition().playing());
    QTest::keyClick(&desk.window, Qt::Key_Space);
    CHECK_FALSE(desk.window.audition().playing());
}
