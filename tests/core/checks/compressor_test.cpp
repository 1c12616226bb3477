// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

namespace {

Show busy() {
    Show show = clean_show();
    show.rig.sensor.lockout_s = 10.0;
    show.sequences[0].length = 10s;
    return show;
}

}  // namespace

TEST_CASE("a compressor within its rating") {
    CHECK(findings(busy(), "compressor").empty());
}

TEST_CASE("a compressor that runs too much, starts too often, or does not keep up") {
    Show show = busy();
    show.rig.air_plant.duty_percent = 2.0;
    CHECK(findings(show, "compressor").at(0).what.find("run too much") != std::string::npos);
    show = busy();
    show.rig.air_plant.cut_out_kpa_gauge = 655.0;
    CHECK(findings(show, "compressor").at(0).what.find("too often") != std::string::npos);
    show = busy();
    show.rig.air_plant.delivery_l_min = 2.0;
    const auto found = findings(show, "compressor");
    REQUIRE(found.size() == 2);  // it runs all the time as well
    CHECK(found[1].what.find("below the regulator") != std::string::npos);
}

TEST_CASE("blank ratings of the compressor are not checked") {
    Show show = busy();
    show.rig.air_plant.duty_percent.reset();
    show.rig.air_plant.starts_per_h.reset();
    const auto found = findings(show, "compressor");
    REQUIRE(found.size() == 2);
    CHECK(found[0].not_checked);
    CHECK(found[1].not_checked);
}

TEST_CASE("a sequence that runs no more often than the remedy says leaves the compressor its rest") {
    for (const double delivery : {3.0, 20.0}) {  // the first never stands still
        Show show = busy();
        show.rig.air_plant.delivery_l_min = delivery;
        show.rig.air_plant.duty_percent = delivery < 10.0 ? 60.0 : 10.0;
        const auto found = findings(show, "compressor");
        REQUIRE(!found.empty());
        REQUIRE(found[0].what.find("run too much") != std::string::npos);
        const std::string words = "Let it run no more often than every ";
        REQUIRE(found[0].remedy.rfind(words, 0) == 0);
        const Micros period = parse_time(found[0].remedy.substr(words.size())).value();
        show.rig.sensor.lockout_s = to_s(period);
        for (const Finding& left : findings(show, "compressor")) {
            CHECK(left.what.find("run too much") == std::string::npos);
        }
    }
}

TEST_CASE("where no rest between runs is long enough, another compressor is asked for") {
    Show show = busy();
    show.rig.air_plant.delivery_l_min = 0.5;
    show.rig.air_plant.duty_percent = 1.0;
    CHECK(findings(show, "compressor").at(0).remedy ==
          "Fit a compressor that delivers more, or one that may run longer");
}
