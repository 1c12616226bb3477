// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/fitting_panel.hpp"

#include "tests/core/sound/impacts.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/ui/panels/panel_desk.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/work_bar.hpp"

#include <QComboBox>
#include <QDragEnterEvent>
#include <QDropEvent>
#include <QMimeData>
#include <QPushButton>
#include <QTableWidget>

#include <sndfile.h>

using namespace gasp;

namespace {

struct Desk {
    Desk() {
        QSettings().clear();
        settings.set_units(UnitSystem::metric);
        put_rig(document);
        panel = std::make_unique<FittingPanel>(document, settings);
        panel->resize(1100, 400);
        panel->show();
    }
    [[nodiscard]] const Actuator& keeper() const { return document.show().rig.actuators.front(); }
    void fit() {
        panel->fitting_actions().front()->trigger();
        REQUIRE(QTest::qWaitFor([this] { return !panel->fit_bar().working(); }, 60000));
    }
    void type(std::string_view key, const QString& text) { type_into(row_of(panel->rows(), key), text); }
    /// The figure as it would be with other factors.
    [[nodiscard]] StrokeTimes really(const AirFactors& factors) const {
        return stroke_times(document.show(), keeper().id, factors).value();
    }

    Settings settings;
    Document document;
    std::unique_ptr<FittingPanel> panel;
};

QString list(double ms, int times) {
    QStringList words;
    for (int i = 0; i < times; ++i) {
        words << QString::number(ms + (i % 2 == 0 ? 1.0 : -1.0), 'f', 1);
    }
    return words.join(' ');
}

}  // namespace

TEST_CASE("typed strokes are kept at once, fitted when asked, and the fit is kept as one step") {
    Desk desk;
    const StrokeTimes real = desk.really({.friction = 1.4, .conductance = 0.8});
    desk.type("fit.out_ms", list(real.out_ms, 6));
    desk.type("fit.back_ms", list(real.back_ms, 6));
    CHECK(desk.keeper().fit.out_ms.size() == 6);
    CHECK_FALSE(desk.keeper().fit.conductance_factor);
    CHECK(desk.panel->fit_bar().said() == "12 strokes timed.");
    desk.panel->timed_by().setCurrentIndex(1);
    desk.fit();
    REQUIRE(desk.panel->result());
    CHECK(desk.panel->result()->off_after_ms < desk.panel->result()->off_before_ms / 3);
    CHECK(desk.panel->figures().lines().size() >= 5);
    CHECK_FALSE(desk.keeper().fit.conductance_factor);

    const Show before = desk.document.show();
    const int steps = desk.document.undo_stack().index();
    QTest::mouseClick(&desk.panel->keep_button(), Qt::LeftButton);
    CHECK(desk.document.undo_stack().index() == steps + 1);
    CHECK(desk.keeper().fit == desk.panel->result()->fit);
    CHECK(desk.panel->fit_bar().said() == "Kept in the show.");
    desk.document.undo_stack().undo();
    CHECK(desk.document.show().rig == before.rig);
}

TEST_CASE("too few strokes, and times that are none, are told where they are typed") {
    Desk desk;
    desk.type("fit.out_ms", "212 quick");
    CHECK_FALSE(row_of(desk.panel->rows(), "fit.out_ms").error().isEmpty());
    CHECK(desk.keeper().fit.out_ms.empty());
    desk.type("fit.out_ms", "0.212 s; 208");
    CHECK(desk.keeper().fit.out_ms == std::vector<double>{212, 208});
    desk.fit();
    CHECK_FALSE(desk.panel->result());
    CHECK(desk.panel->fit_bar().said().contains("3"));
    CHECK_FALSE(desk.panel->keep_button().isEnabled());
}

TEST_CASE("strokes are heard in a recording that is dropped, and fitted instead of the typed ones") {
    Desk desk;
    const StrokeTimes real = desk.really({.friction = 1.2, .conductance = 0.85});
    const test::Folder folder;
    test::Recording recording(16.0, 48000, 3);
    recording.add_pink(0.002);
    for (int i = 0; i < 4; ++i) {
        const double out = 1.0 + 3.6 * i;
        recording.strike(test::click(), out, 0.3);
        recording.strike(test::thump(), out + (real.out_ms - real.out_delay_ms) / 1000.0, 0.8);
        recording.strike(test::click(), out + 1.8, 0.3);
        recording.strike(test::thump(), out + 1.8 + (real.back_ms - real.back_delay_ms) / 1000.0, 0.6);
    }
    test::write_sound(folder / "take.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, recording.rate(), 1,
                      recording.samples());
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(QString::fromStdU16String((folder / "take.wav").u16string()))});
    QDragEnterEvent enter({10, 10}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(desk.panel.get(), &enter);
    REQUIRE(enter.isAccepted());
    desk.panel->resize(1000, 250);
    QDropEvent drop({10, 10}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(desk.panel.get(), &drop);
    REQUIRE(QTest::qWaitFor([&desk] { return !desk.panel->listen_bar().working(); }, 20000));
    CHECK(desk.panel->listen_bar().said().toStdString() == "");
    REQUIRE(desk.panel->heard_table().rowCount() == 8);
    CHECK(desk.panel->timed_by().currentIndex() == 2);
    CHECK(QTest::qWaitFor([&desk] { return !desk.panel->heard_table().visibleRegion().isEmpty(); }));
    desk.fit();
    REQUIRE(desk.panel->result());
    CHECK(desk.panel->result()->strokes.size() == 8);
    CHECK(desk.panel->result()->strokes.front().timed.from_click);
    CHECK(desk.panel->result()->off_after_ms < 3.0);

    const QString fitted = desk.panel->fit_bar().said();
    desk.panel->heard_table().item(0, 0)->setCheckState(Qt::Unchecked);
    CHECK(desk.panel->fit_bar().said().startsWith("7 strokes timed, not fitted yet"));
    desk.fit();
    CHECK(desk.panel->result()->strokes.size() == 7);
    CHECK(desk.panel->fit_bar().said() == fitted);
}

TEST_CASE("a recording that cannot be read is told of, and a rig without actuators too") {
    Desk desk;
    const test::Folder folder;
    test::write_bytes(folder / "take.wav", "no sound at all");
    desk.panel->listen(QString::fromStdU16String((folder / "take.wav").u16string()));
    REQUIRE(QTest::qWaitFor([&desk] { return !desk.panel->listen_bar().working(); }, 20000));
    CHECK(desk.panel->listen_bar().said().contains("take.wav"));
    desk.document.perform(remove_actuator(desk.document.show(), desk.keeper().id));
    desk.fit();
    CHECK(desk.panel->fit_bar().said().contains("actuator"));
    CHECK_FALSE(desk.panel->keep_button().isEnabled());
}
