// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/pack_dialog.hpp"

#include "core/show/edits.hpp"
#include "tests/support/catch.hpp"
#include "ui/panels/pack_view.hpp"

#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QPrinter>
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
        Cue cue;
        cue.channel = document.show().rig.channels.front().id;
        cue.at = 1s;
        cue.length = 500ms;
        cue.name = "lantern lit";
        document.perform(add_cues(document.show(), document.sequence_id(), {cue}));
    }
    void wait() {
        REQUIRE(QTest::qWaitFor([this] { return !dialog.working(); }, 20'000));
    }
    void show() {
        dialog.show();
        wait();
        REQUIRE(dialog.pack() != nullptr);
    }
    [[nodiscard]] QByteArray saved(const QString& name) {
        QFile file(folder.filePath(name));
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }

    Document document;
    Settings settings;
    PackDialog dialog{document, settings};
    QTemporaryDir folder;
};

}  // namespace

TEST_CASE("the pack is made when its window is shown, and again when the show has changed") {
    Desk desk;
    CHECK(desk.dialog.pack() == nullptr);
    desk.show();
    const std::string revision = desk.dialog.pack()->content().revision;
    desk.document.perform(rename_show(desk.document.show(), "Lighthouse"));
    CHECK(desk.dialog.pack()->content().revision == revision);
    desk.dialog.make();
    desk.wait();
    CHECK(desk.dialog.pack()->content().revision != revision);
}

TEST_CASE("the pack is saved as a PDF, and an error stays in the window") {
    Desk desk;
    desk.show();
    desk.dialog.save_to(desk.folder.filePath("pack.pdf"));
    desk.wait();
    CHECK(desk.saved("pack.pdf").startsWith("%PDF-"));
    CHECK(desk.dialog.state().startsWith("Saved"));
    desk.dialog.save_to(desk.folder.filePath("none/pack.pdf"));
    desk.wait();
    CHECK(desk.dialog.state().contains("none"));
}

TEST_CASE("another paper is another layout of the same show") {
    Desk desk;
    desk.dialog.set_paper(Paper::a4);
    desk.show();
    CHECK(desk.dialog.pack()->page_size(0) == QSizeF(2100, 2970));
    desk.dialog.set_paper(Paper::letter);
    desk.wait();
    CHECK(desk.dialog.pack()->page_size(0) == QSizeF(2159, 2794));
}

TEST_CASE("the paper is remembered") {
    Desk desk;
    desk.dialog.set_paper(Paper::letter);
    CHECK(Settings().paper() == Paper::letter);
    CHECK(PackDialog(desk.document, desk.settings).paper() == Paper::letter);
    desk.dialog.set_paper(Paper::a4);
    CHECK(PackDialog(desk.document, desk.settings).paper() == Paper::a4);
}

TEST_CASE("letters that no font has are told of in the window") {
    Desk desk;
    desk.document.perform(rename_show(desk.document.show(), "\xF0\x92\xBE\x90"));  // Cypro-Minoan
    desk.show();
    CHECK(desk.dialog.state().contains("No font on this computer"));
}

TEST_CASE("a printer gets every page") {
    Desk desk;
    desk.show();
    auto printer = std::make_shared<QPrinter>(QPrinter::ScreenResolution);
    printer->setOutputFormat(QPrinter::PdfFormat);
    printer->setOutputFileName(desk.folder.filePath("printed.pdf"));
    printer->setFullPage(true);
    desk.dialog.print_to(printer);
    desk.wait();
    CHECK(desk.dialog.state() == QStringLiteral("Printed %1 pages").arg(desk.dialog.pack()->page_count()));
    printer.reset();
    CHECK(desk.saved("printed.pdf").startsWith("%PDF-"));
}

TEST_CASE("the view goes to a section") {
    Desk desk;
    desk.show();
    auto* view = desk.dialog.findChild<PackView*>();
    REQUIRE(view != nullptr);
    CHECK(view->page() == 0);
    view->show_page(2);
    CHECK(view->page() == 2);
    view->set_zoom(2.0);
    CHECK(view->page() == 2);
}
