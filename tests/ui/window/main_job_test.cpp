// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// The main job in one go, with real events: a recorded voice is dropped on the window, a channel is made, a
// mark and a cue are set by keys, and the cue is dragged to the mark with the mouse.
#include "core/file/show_file.hpp"
#include "core/table/csv.hpp"
#include "tests/ui/window/open_window.hpp"
#include "ui/panels/export_dialog.hpp"

#include <QProcess>

#include <chrono>
#include <cmath>
#include <optional>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

/// Where times stand on the screen, found by clicking the ruler at two places.
struct RulerScale {
    RulerScale(OpenWindow& desk, QWidget& ruler) {
        const auto time_at = [&](int x) {
            QTest::mouseClick(&ruler, Qt::LeftButton, Qt::AltModifier, {x, 4});
            QTest::qWait(0);
            return static_cast<double>(desk.window.timeline().playhead().count());
        };
        const int first = ruler.width() / 4;
        const int second = ruler.width() / 2;
        const double t = time_at(first);
        us_per_px = (time_at(second) - t) / (second - first);
        offset_us = t - us_per_px * first;
    }
    [[nodiscard]] int x(Micros time) const {
        return static_cast<int>(std::lround((static_cast<double>(time.count()) - offset_us) / us_per_px));
    }
    double us_per_px;
    double offset_us;
};

void click_ruler(QWidget& ruler, int x) {
    QTest::mouseClick(&ruler, Qt::LeftButton, Qt::AltModifier, {x, 4});
    QTest::qWait(0);
}

/// A height at which the canvas has the cue under an x.
std::optional<QPoint> place_of_cue(OpenWindow& desk, QWidget& canvas, int x, CueId id) {
    for (int y = 2; y < canvas.height(); y += 6) {
        desk.window.document().select({});
        QTest::mouseClick(&canvas, Qt::LeftButton, {}, {x, y});
        if (desk.window.document().selection().has(id)) {
            return QPoint(x, y);
        }
    }
    return {};
}

void drag(QWidget& canvas, QPoint from, QPoint to) {
    QTest::mousePress(&canvas, Qt::LeftButton, {}, from);
    for (int i = 1; i <= 10; ++i) {
        QTest::mouseMove(&canvas, from + (to - from) * i / 10);
        QTest::qWait(1);
    }
    QTest::mouseRelease(&canvas, Qt::LeftButton, {}, to);
}

bool has_finding_about(const AnalysisResult& result, CueId cue, std::string_view check) {
    return std::any_of(result.findings.begin(), result.findings.end(),
                       [&](const Finding& f) { return f.check == check && f.place.cue == cue; });
}

QByteArray exported_by_gasp(const QString& show) {
    QProcess gasp;
    gasp.start(GASP_PROGRAM, {"table", show, "--as", "csv"});
    REQUIRE(gasp.waitForFinished(30000));
    return gasp.readAllStandardOutput();
}

}  // namespace

TEST_CASE(
    "a recorded voice, a channel, a mark and a cue dragged to it, down to the exported row, and undone") {
    OpenWindow desk;
    Document& document = desk.window.document();
    desk.drop(desk.voice());
    REQUIRE(document.sequence().clips.size() == 1);

    desk.window.rig().add(PartKind::channel);
    desk.type("name", "lamp");
    const ChannelId lamp = document.show().rig.channels.front().id;
    QWidget& ruler = desk.named("Ruler, marks and findings");
    QWidget& canvas = desk.named("Lanes of the timeline");
    desk.window.timeline().fit();
    QTest::qWait(50);

    const RulerScale scale(desk, ruler);
    canvas.setFocus();
    click_ruler(ruler, scale.x(500ms));
    QTest::keyClick(&canvas, Qt::Key_M);
    REQUIRE(document.sequence().marks.size() == 1);
    const Micros mark = document.sequence().marks.front().time;
    CHECK(std::abs((mark - 500ms).count()) < 20'000);

    Selection lane;
    lane.channel = lamp;
    document.select(lane);
    click_ruler(ruler, scale.x(1700ms));
    QTest::keyClick(&canvas, Qt::Key_C);
    REQUIRE(document.sequence().cues.size() == 1);
    const Cue before = document.sequence().cues.front();
    REQUIRE(start_of(document.sequence(), before) + before.length > document.sequence().length);
    const auto result_before = desk.window.analysis().wait();
    CHECK(has_finding_about(*result_before, before.id, "outside"));
    const Show show_before = document.show();

    ExportDialog dialog(document, desk.window.analysis(), desk.settings);
    const QByteArray table_before = dialog.text();
    const int inside = scale.x(start_of(document.sequence(), before) + 120ms);
    const auto grip = place_of_cue(desk, canvas, inside, before.id);
    REQUIRE(grip);
    const int by = scale.x(mark) - scale.x(start_of(document.sequence(), before));
    drag(canvas, *grip, *grip + QPoint(by + 2, 0));

    const Cue& after = document.sequence().cues.front();
    CHECK(start_of(document.sequence(), after) == mark);
    CHECK(after.length == before.length);
    const auto result = desk.window.analysis().wait();
    REQUIRE(result->schedule.events.size() == 2);
    CHECK(std::abs((result->schedule.events[0].time - mark).count()) <= 500);
    CHECK_FALSE(has_finding_about(*result, before.id, "outside"));
    const QByteArray table = dialog.text();
    CHECK(table != table_before);
    const auto tables = read_csv(table.toStdString(), "events.csv");
    REQUIRE(tables);
    CHECK(schedule_of(tables->front()).events == result->schedule.events);

    const QString saved = desk.folder.filePath("voice.gasp");
    REQUIRE(desk.window.files().save_as(saved));
    CHECK(exported_by_gasp(saved) == dialog.text());

    document.undo_stack().undo();
    CHECK(document.show() == show_before);
    CHECK(dialog.text() == table_before);
    CHECK(desk.window.analysis().wait()->findings == result_before->findings);
}
