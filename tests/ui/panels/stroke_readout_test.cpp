// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/stroke_readout.hpp"

#include "tests/ui/panels/panel_desk.hpp"
#include "ui/panels/rig_panel.hpp"

#include <QApplication>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

struct Desk {
    Desk() {
        QSettings().clear();
        settings.set_units(UnitSystem::metric);
        put_rig(document);
        Channel valve;
        valve.name = "valve";
        valve.kind = ChannelKind::valve;
        valve.actuator = document.show().rig.actuators.front().id;
        document.perform(add_channel(document.show(), valve));
        panel.show();
        panel.choose({PartKind::actuator, valve.actuator->value});
        settle();
    }
    void add_cue() {
        Cue cue;
        cue.channel = document.show().rig.channels.front().id;
        cue.at = 1s;
        cue.length = 2s;
        document.perform(add_cues(document.show(), document.sequence_id(), {cue}));
        settle();
    }
    void settle() {
        analysis.wait();
        QApplication::processEvents();
    }
    [[nodiscard]] const std::vector<FigureLine>& lines() {
        auto* readout = panel.findChild<StrokeReadout*>();
        REQUIRE(readout != nullptr);
        return readout->lines();
    }

    Settings settings;
    Document document;
    Analysis analysis{document};
    RigPanel panel{document, analysis, settings};
};

}  // namespace

TEST_CASE("the first stroke after air-on stands beside the usual one, apart from the sequence") {
    Desk desk;
    CHECK(desk.lines().empty());
    desk.add_cue();
    REQUIRE(desk.lines().size() == 3);
    const auto result = desk.analysis.result();
    const BandedStroke& first = result->facts->firsts.begin()->second;
    // Nothing in the cylinder brakes it: it comes sooner and ends harder than the one of the sequence.
    const Stroke& usual = result->air.run->strokes.front();
    CHECK(*first.stroke.strike_s() < *usual.strike_s());
    CHECK(first.stroke.end_speed_m_s > usual.end_speed_m_s);
    const FigureLine& strike = desk.lines()[0];
    CHECK(strike.beside.contains(QStringLiteral("%1 ms").arg(*usual.strike_s() * 1e3, 0, 'f', 0)));
    CHECK(strike.below.contains("First after air-on"));
    CHECK(strike.below.contains(QStringLiteral("%1 ms").arg(*first.stroke.strike_s() * 1e3, 0, 'f', 0)));
    CHECK(strike.below.contains("not measured"));
}

TEST_CASE("a first stroke above the cylinder's rating bears a warning's sign") {
    Desk desk;
    desk.add_cue();
    CHECK_FALSE(desk.lines()[1].severity);
    Actuator actuator = desk.document.show().rig.actuators.front();
    actuator.cylinder.rated_speed_m_s = 0.3;
    desk.document.perform(set_actuator(desk.document.show(), actuator));
    desk.settle();
    CHECK(desk.lines()[1].severity == Severity::warn);
}
