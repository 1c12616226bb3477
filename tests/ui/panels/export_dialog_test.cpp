// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/export_dialog.hpp"

#include "core/show/edits.hpp"
#include "core/table/board_image.hpp"
#include "core/table/csv.hpp"
#include "tests/support/catch.hpp"

#include <QCheckBox>
#include <QDir>
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
    BoardId new_board(const std::string& name) {
        Board board;
        board.name = name;
        document.perform(add_board(document.show(), board));
        return document.show().rig.boards.back().id;
    }
    void put_on_board(const std::string& name) {
        Channel lamp = document.show().rig.channels.front();
        lamp.board = new_board(name);
        lamp.output = 1;
        document.perform(set_channel(document.show(), lamp));
    }
    void add_channel_on(const std::string& name) {
        Channel other;
        other.name = "other";
        other.board = new_board(name);
        other.output = 1;
        document.perform(add_channel(document.show(), other));
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

TEST_CASE("an image is shown by its bytes and what they mean, and saved as it is") {
    Desk desk;
    desk.put_on_board("quay");
    desk.dialog.choose_form(TableForm::board_image);
    auto* text = desk.dialog.findChild<QPlainTextEdit*>();
    CHECK(QTest::qWaitFor([&] { return text->toPlainText().contains("a7 47 54 42"); }, 5000));
    CHECK(text->toPlainText().contains("board \"quay\""));
    CHECK(text->toPlainText().contains("output 1 driven"));
    const QTemporaryDir folder;
    REQUIRE(desk.dialog.save_to(folder.filePath("quay.bin")));
    QFile file(folder.filePath("quay.bin"));
    REQUIRE(file.open(QIODevice::ReadOnly));
    const auto image = read_image(file.readAll().toStdString(), "quay.bin");
    REQUIRE(image);
    CHECK(image->sequences.front().events.size() == 2);
}

TEST_CASE("the other forms are shown as they are saved") {
    Desk desk;
    for (const TableForm form : {TableForm::c_header, TableForm::vcd, TableForm::json}) {
        desk.dialog.choose_form(form);
        CHECK(form_of(desk.preview().toStdString()) == form);
    }
}

TEST_CASE("what a form cannot hold is said and not saved") {
    Desk desk;
    desk.dialog.choose_form(TableForm::board_image);
    auto* text = desk.dialog.findChild<QPlainTextEdit*>();
    CHECK(QTest::qWaitFor([&] { return text->toPlainText().contains("the show has 0"); }, 5000));
    const QTemporaryDir folder;
    CHECK_FALSE(desk.dialog.save_to(folder.filePath("quay.bin")));
    CHECK_FALSE(QFile::exists(folder.filePath("quay.bin")));
    CHECK(desk.dialog.state().contains("Give the show its board"));
}

TEST_CASE("each board gets a file of its own") {
    Desk desk;
    desk.put_on_board("quay");
    desk.add_channel_on("pier/2");
    const QTemporaryDir folder;
    REQUIRE(desk.dialog.save_each_to(folder.path()));
    CHECK(QDir(folder.path()).entryList(QDir::Files) == QStringList{"pier_2.csv", "quay.csv"});
    QFile file(folder.filePath("quay.csv"));
    REQUIRE(file.open(QIODevice::ReadOnly));
    const auto tables = read_csv(file.readAll().toStdString(), "quay.csv");
    REQUIRE(tables);
    REQUIRE(tables->front().channels.size() == 1);
    CHECK(tables->front().channels.front().name == "lamp");
}
