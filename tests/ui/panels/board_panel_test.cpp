// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/board_panel.hpp"

#include "core/file/show_file.hpp"
#include "core/link/serial_port.hpp"
#include "core/show/edits.hpp"
#include "tests/support/catch.hpp"
#include "tests/ui/panels/host_board.hpp"
#include "ui/panels/board_hands.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/night_counts.hpp"
#include "ui/panels/work_bar.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QTest>

#include <algorithm>

using namespace gasp;

namespace {

constexpr int patience_ms = 15'000;

/// The first demo show, a board that plays, and the panel between them.
struct Desk {
    Desk() {
        const QString path = QString(GASPWORKS_SOURCE_DIR) + "/demo-shows/keepers-locker.gasp";
        document.reset(load_show(path.toStdString()).value(), path);
        panel.resize(1200, 500);
        panel.show();
        REQUIRE(QTest::qWaitForWindowExposed(&panel));
    }

    template <class Condition>
    [[nodiscard]] static bool soon(Condition condition) {
        return QTest::qWaitFor(condition, patience_ms);
    }
    void connect() {
        panel.port_box().lineEdit()->selectAll();
        QTest::keyClicks(panel.port_box().lineEdit(), board.port());
        QTest::mouseClick(&panel.connect_button(), Qt::LeftButton);
        REQUIRE(soon([&] { return panel.talk().last().has_value(); }));
    }
    void load() {
        QTest::mouseClick(&panel.load_bar().start_button(), Qt::LeftButton);
        REQUIRE(soon([&] { return panel.load_bar().said().contains("found the same"); }));
    }
    /// A board that was loaded rests until it is told to go on.
    void back_to_work() {
        REQUIRE(soon([&] { return panel.go_on_button().isEnabled(); }));
        QTest::mouseClick(&panel.go_on_button(), Qt::LeftButton);
        REQUIRE(soon([&] {
            const BoardStatus& status = panel.talk().last()->status;
            return status.state != BoardState::stopped_by_link && !status.armed;
        }));
    }
    void arm() {
        QTest::mouseClick(&panel.arm_button(), Qt::LeftButton);
        REQUIRE(soon([&] { return channel(0).isEnabled(); }));
    }
    QPushButton& channel(std::size_t i) { return *panel.hands().channel_buttons()[i]; }
    [[nodiscard]] QString figure(const QString& words) {
        for (const FigureLine& line : panel.figures().lines()) {
            if (line.words == words) {
                return line.figure + " " + line.beside;
            }
        }
        return {};
    }

    HostBoard board;
    Document document;
    BoardPanel panel{document};
};

}  // namespace

TEST_CASE("a board is asked who it is, loaded, and known to hold just this show") {
    Desk desk;
    desk.connect();
    CHECK(desk.figure("chip").startsWith("host"));
    CHECK(desk.figure("table").startsWith("none"));
    desk.load();
    REQUIRE(Desk::soon([&] { return desk.figure("table").contains("the one of this show"); }));
    CHECK_FALSE(desk.figure("table").contains("not the one"));
    // Another show than the one it was given.
    const Sequence& scare = desk.document.show().sequences[0];
    desk.document.perform(
        move_cues(desk.document.show(), scare.id, std::vector<CueId>{scare.cues[0].id}, Micros{10'000}));
    REQUIRE(Desk::soon([&] { return desk.figure("table").contains("not the one of this show"); }));
    desk.document.undo_stack().undo();
    REQUIRE(Desk::soon([&] { return desk.figure("table").contains("\u2713"); }));
}

TEST_CASE("a board that was let go can be spoken with by another program, and by this one again") {
    Desk desk;
    desk.connect();
    CHECK_FALSE(SerialPort::open(desk.board.port().toStdString()));
    QTest::mouseClick(&desk.panel.connect_button(), Qt::LeftButton);
    CHECK(Desk::soon([&] { return SerialPort::open(desk.board.port().toStdString()).has_value(); }));
    desk.connect();
}

TEST_CASE("the room of a board stands beside what the show's table takes") {
    Desk desk;
    desk.connect();
    REQUIRE(Desk::soon([&] { return desk.figure("this show takes").contains(" bytes"); }));
    desk.load();
    CHECK(desk.figure("this show takes")
              .startsWith(QString("%1 bytes").arg(desk.panel.talk().identity()->image_bytes)));
}

TEST_CASE("a table that stop findings stand against is loaded only on demand") {
    Desk desk;
    Show show = desk.document.show();
    Channel& first = show.rig.channels[1];
    const Channel& second = show.rig.channels[2];
    first.excludes = {second.id};
    for (const ChannelId channel : {first.id, second.id}) {
        Cue cue;
        cue.id = {show.next_id++};
        cue.channel = channel;
        cue.at = Micros{1'000'000};
        cue.length = Micros{500'000};
        show.sequences[0].cues.push_back(cue);
    }
    desk.document.reset(show, {});
    desk.connect();
    REQUIRE_FALSE(desk.panel.despite_button().isVisible());
    QTest::mouseClick(&desk.panel.load_bar().start_button(), Qt::LeftButton);
    REQUIRE(Desk::soon(
        [&] { return desk.panel.load_bar().said().contains("Not loaded. Open stop findings: "); }));
    CHECK(desk.panel.load_bar().said().contains(QString::fromStdString(second.name)));
    CHECK(desk.figure("table").startsWith("none"));
    REQUIRE(desk.panel.despite_button().isVisible());
    QTest::mouseClick(&desk.panel.connect_button(), Qt::LeftButton);
    CHECK_FALSE(desk.panel.despite_button().isVisible());
    REQUIRE(Desk::soon([&] { return SerialPort::open(desk.board.port().toStdString()).has_value(); }));
    desk.connect();
    QTest::mouseClick(&desk.panel.load_bar().start_button(), Qt::LeftButton);
    REQUIRE(Desk::soon([&] { return desk.panel.despite_button().isVisible(); }));
    QTest::mouseClick(&desk.panel.despite_button(), Qt::LeftButton);
    REQUIRE(Desk::soon([&] { return desk.panel.load_bar().said().contains("found the same"); }));
    CHECK_FALSE(desk.panel.despite_button().isVisible());
}

TEST_CASE("nothing moves before arming, and a channel is driven only while its button is held") {
    Desk desk;
    desk.connect();
    desk.load();
    REQUIRE_FALSE(desk.channel(0).isEnabled());
    QTest::mousePress(&desk.channel(0), Qt::LeftButton);
    QTest::qWait(300);
    QTest::mouseRelease(&desk.channel(0), Qt::LeftButton);
    CHECK_FALSE(desk.board.drove("1"));
    desk.back_to_work();
    desk.arm();
    QTest::mousePress(&desk.channel(0), Qt::LeftButton);
    REQUIRE(Desk::soon([&] { return desk.panel.talk().last()->status.driven == 1; }));
    QTest::qWait(800);  // longer than an output is driven by one request
    CHECK(desk.panel.talk().last()->status.driven == 1);
    QTest::mouseRelease(&desk.channel(0), Qt::LeftButton);
    REQUIRE(Desk::soon([&] { return desk.panel.talk().last()->status.driven == 0; }));
    CHECK(desk.board.drove("1"));
    // By key as well; and a panel that is hidden lets go.
    desk.channel(0).setFocus();
    QTest::keyPress(&desk.channel(0), Qt::Key_Space);
    REQUIRE(Desk::soon([&] { return desk.panel.talk().last()->status.driven == 1; }));
    desk.panel.hide();
    REQUIRE(Desk::soon([&] { return desk.panel.talk().last()->status.driven == 0; }));
}

TEST_CASE("a run of the board is followed, and ended by its stop") {
    Desk desk;
    desk.connect();
    desk.load();
    desk.back_to_work();
    desk.arm();
    std::vector<Micros> seen;
    SequenceId began;
    QObject::connect(&desk.panel, &BoardPanel::run_began, [&](SequenceId sequence) { began = sequence; });
    QObject::connect(&desk.panel, &BoardPanel::followed, [&](SequenceId sequence, Micros time) {
        if (sequence == desk.document.show().sequences[0].id) {
            seen.push_back(time);
        }
    });
    QTest::mouseClick(desk.panel.hands().sequence_buttons()[0], Qt::LeftButton);
    REQUIRE(Desk::soon([&] { return seen.size() > 20; }));
    CHECK(began == desk.document.show().sequences[0].id);
    CHECK(seen.back() > seen.front());
    CHECK(seen.back() < Micros{19'000'000});
    QTest::mouseClick(&desk.panel.stop_button(), Qt::LeftButton);
    REQUIRE(
        Desk::soon([&] { return desk.panel.talk().last()->status.state == BoardState::stopped_by_link; }));
    CHECK(desk.panel.talk().last()->status.driven == 0);
    CHECK_FALSE(desk.channel(0).isEnabled());
    // The log grows by itself.
    REQUIRE(Desk::soon([&] {
        const int rows = desk.panel.log_table().rowCount();
        return rows > 0 && desk.panel.log_table().item(rows - 1, 1)->text().contains("stop");
    }));
}

TEST_CASE("a board that is unplugged while it is held is said to be gone, and comes back disarmed") {
    Desk desk;
    desk.connect();
    desk.load();
    desk.back_to_work();
    desk.arm();
    QTest::mousePress(&desk.channel(0), Qt::LeftButton);
    REQUIRE(Desk::soon([&] { return desk.panel.talk().last()->status.driven == 1; }));
    desk.board.unplug();
    REQUIRE(Desk::soon([&] { return !desk.panel.talk().is_open(); }));
    QTest::mouseRelease(&desk.channel(0), Qt::LeftButton);
    CHECK(desk.panel.load_bar().said().contains("port"));
    CHECK_FALSE(desk.panel.arm_button().isEnabled());
    CHECK_FALSE(desk.panel.stop_button().isEnabled());
    CHECK_FALSE(desk.panel.go_on_button().isEnabled());
    CHECK_FALSE(desk.channel(0).isEnabled());
    desk.board.plug_in();
    QTest::mouseClick(&desk.panel.connect_button(), Qt::LeftButton);
    REQUIRE(Desk::soon([&] { return desk.panel.talk().last().has_value(); }));
    CHECK_FALSE(desk.panel.talk().last()->status.armed);
    // Its table and its log outlived the loss of power.
    REQUIRE(Desk::soon([&] { return desk.figure("table").contains("the one of this show"); }));
    REQUIRE(Desk::soon([&] { return desk.panel.log_table().rowCount() > 2; }));
}

TEST_CASE("a port that is none, and one where nobody answers, are told in words") {
    Desk desk;
    desk.panel.connect_to("/dev/there-is-none");
    REQUIRE(Desk::soon([&] { return !desk.panel.talk().is_open(); }));
    CHECK(desk.panel.load_bar().said().contains("/dev/there-is-none"));
    desk.panel.connect_to("/dev/null");
    REQUIRE(Desk::soon([&] { return !desk.panel.talk().is_open(); }));
    CHECK(desk.panel.load_bar().said().contains("/dev/null"));
}

TEST_CASE("what a board counted stands beside the forecast") {
    BoardStatus status;
    status.triggers = 31;
    status.refusals = 9;
    std::vector<FigureLine> lines = night_counts(status, nullptr);
    REQUIRE(lines.size() == 4);
    CHECK(lines[0].figure == "40");
    CHECK(lines[0].beside.isEmpty());
    CHECK(lines[0].below.contains("Run the forecast"));
    CHECK_FALSE(lines[3].severity);

    NightForecast forecast;
    forecast.nights.resize(2);
    forecast.terms.hours = 3;
    forecast.groups = {30, 38, 45};
    forecast.delivered = {25, 30, 34};
    forecast.refused = {2, 4, 8};
    status.faults = 1;
    lines = night_counts(status, &forecast);
    CHECK(lines[0].beside == "forecast 30 to 45");
    CHECK(lines[0].below.contains("3 h"));
    CHECK_FALSE(lines[1].severity);
    CHECK(lines[2].severity == Severity::note);  // more refused than in 95 of 100 nights
    CHECK(lines[3].severity == Severity::warn);
}
