// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/export_dialog.hpp"

#include "core/show/edits.hpp"
#include "core/table/csv.hpp"
#include "tests/support/catch.hpp"

#include <QCheckBox>
#include <QFile>
#include <QPlainTextEdit>
#include <QTemporaryDir>
#include <QTest>

#include <chrono>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

struct Desk {
    Desk() {
        Channel channel;
        channel.name = "lamp";
        document.perform(add_channel(document.show(), channel));
        add_cue(1s);
        dialog.show();
    }
    void add_cue(Micros at) {
        Cue cue;
        cue.channel = document.show().rig.channels.front().id;
        cue.at = at;
        cue.length = 500ms;
        document.perform(add_cues(document.show(), document.sequence_id(), {cue}));
    }
    QString preview() {
        auto* text = dialog.findChild<QPlainTextEdit*>();
        QString expected = QString::fromUtf8(dialog.text());
        expected.remove('\r');
        CHECK(QTest::qWaitFor([&] { return text->toPlainText() == expected; }, 5000));
        return text->toPlainText();
    }
    Settings settings;
    Document document;
    Analysis analysis{document};
    ExportDialog dialog{document, analysis, settings};
};

}  // namespace

TEST_CASE("the preview is what is saved, and reads back as the schedule") {
    Desk desk;
    const QString shown = desk.preview();
    const QTemporaryDir folder;
    const QString path = folder.filePath("events.csv");
    REQUIRE(desk.dialog.save_to(path));
    QFile file(path);
    REQUIRE(file.open(QIODevice::ReadOnly));
    const QByteArray saved = file.readAll();
    CHECK(QString::fromUtf8(saved).remove('\r') == shown);
    const auto tables = read_csv(saved.toStdString(), "events.csv");
    REQUIRE(tables);
    REQUIRE(tables->size() == 1);
    CHECK(schedule_of(tables->front()).events ==
          resolve(desk.document.show(), desk.document.sequence()).events);
}

TEST_CASE("the preview follows the show while it is open") {
    Desk desk;
    const QString before = desk.preview();
    desk.add_cue(3s);
    const QString after = desk.preview();
    CHECK(after != before);
    CHECK(after.contains("3000"));
    desk.document.undo_stack().undo();
    CHECK(desk.preview() == before);
}

TEST_CASE("the head of comments can be left out") {
    Desk desk;
    CHECK(desk.preview().startsWith('#'));
    desk.dialog.findChild<QCheckBox*>()->click();
    CHECK_FALSE(desk.preview().contains('#'));
}

TEST_CASE("a table is not written over a show or a sound of it") {
    Desk desk;
    const QTemporaryDir folder;
    const QString voice = folder.filePath("voice.csv");
    QFile file(voice);
    REQUIRE(file.open(QIODevice::WriteOnly));
    file.write("kept");
    file.close();
    desk.document.set_folder(folder.path());
    SoundClip clip;
    clip.file = "voice.csv";
    clip.length = 1s;
    clip.file_length = 1s;
    desk.document.perform(add_clip(desk.document.show(), desk.document.sequence_id(), clip));
    CHECK_FALSE(desk.dialog.save_to(voice));
    CHECK(desk.dialog.state().contains("Choose another name"));
    CHECK_FALSE(desk.dialog.save_to(folder.filePath("other.gasp")));
    REQUIRE(file.open(QIODevice::ReadOnly));
    CHECK(file.readAll() == "kept");
}

TEST_CASE("a place that cannot be written is said in the dialog") {
    Desk desk;
    CHECK_FALSE(desk.dialog.save_to("/nowhere/at/all/events.csv"));
    CHECK(desk.dialog.state().contains("/nowhere"));
}
