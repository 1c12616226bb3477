// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/cue_index.hpp"

#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <algorithm>

using namespace gasp;
using namespace gasp::checks_test;

namespace {

/// Four channels of unlike ticks and contacts, some excluding each other, all with limits.
Show random_rig() {
    Show show = clean_show();
    show.rig.actuators[0].valve.kind = ValveKind::five_two_two_coils;
    show.rig.channels.push_back(clean_channel({22}, "return", 3));
    show.rig.channels[2].kind = ChannelKind::valve;
    show.rig.channels[2].actuator = keeper;
    show.rig.channels[2].coil = Coil::back;
    show.rig.channels.push_back(clean_channel({23}, "fog", 4));
    show.rig.channels[3].excludes = {lamp, lunge};
    show.rig.boards[0].tick_ms = *rc::gen::element(0.7, 1.0, 13.0);
    for (Channel& channel : show.rig.channels) {
        channel.contact = *rc::gen::element(Contact::normally_open, Contact::normally_closed);
    }
    show.sequences[0].length = 3s;
    show.sequences[0].cues.clear();
    return show;
}

Cue random_cue(std::uint32_t id) {
    const std::uint32_t channel = 20 + *rc::gen::inRange<std::uint32_t>(0, 4);
    Cue made = cue(id, {channel}, Micros{*rc::gen::inRange(-200'000, 3'200'000)},
                   Micros{*rc::gen::inRange(1, 300'000)});
    if (*rc::gen::inRange(0, 4) == 0) {
        made.flashes =
            Flashes{*rc::gen::inRange(1, 400) / 4.0, static_cast<double>(*rc::gen::inRange(1, 100))};
    }
    return made;
}

std::vector<CueFault> sorted(std::vector<CueFault> faults) {
    std::sort(faults.begin(), faults.end());
    return faults;
}

/// The faults before, less those gone, with those come. Fails where one is to go that is not there.
std::vector<CueFault> changed(std::vector<CueFault> faults, const CueIndex::Recheck& recheck) {
    // Adding a cue may report a fault come by one step and gone by the next: first add, then take away.
    faults.insert(faults.end(), recheck.come.begin(), recheck.come.end());
    for (const CueFault& gone : recheck.gone) {
        const auto found = std::find(faults.begin(), faults.end(), gone);
        RC_ASSERT(found != faults.end());
        faults.erase(found);
    }
    return sorted(faults);
}

}  // namespace

TEST_CASE("after any move, addition or removal the index finds what a full check finds") {
    REQUIRE(rc::check([] {
        Show show = random_rig();
        Sequence& sequence = show.sequences[0];
        const auto count = *rc::gen::inRange<std::uint32_t>(0, 30);
        for (std::uint32_t id = 1; id <= count; ++id) {
            sequence.cues.push_back(random_cue(id));
        }
        CueIndex index(show, sequence);
        std::vector<CueFault> faults = sorted(index.faults());
        for (std::uint32_t step = 0; step < 20; ++step) {
            std::optional<StartedCue> before;
            std::optional<StartedCue> after;
            Cue old;
            Cue made;
            const bool add = sequence.cues.empty() || *rc::gen::inRange(0, 5) == 0;
            if (add) {
                made = random_cue(1000 + step);
                sequence.cues.push_back(made);
                after.emplace(StartedCue{made, made.at});
            } else {
                const auto at = *rc::gen::inRange<std::size_t>(0, sequence.cues.size());
                old = sequence.cues[at];
                before.emplace(StartedCue{old, old.at});
                if (*rc::gen::inRange(0, 5) == 0) {
                    sequence.cues.erase(sequence.cues.begin() + static_cast<std::ptrdiff_t>(at));
                } else {
                    made = random_cue(old.id.value);
                    sequence.cues[at] = made;
                    after.emplace(StartedCue{made, made.at});
                }
            }
            faults = changed(faults, index.update(before, after));
            RC_ASSERT(faults == sorted(CueIndex(show, sequence).faults()));
            RC_ASSERT(faults == sorted(index.faults()));
        }
    }));
}

TEST_CASE("the index sees the dwells that are played") {
    // Each dwell below the limit comes out as a fault of its cue: with a limit above every dwell, the
    // shortest of each cue in a row is found, and it is one of the schedule's.
    REQUIRE(rc::check([] {
        Show show = random_rig();
        for (std::uint32_t id = 1; id <= 20; ++id) {
            show.sequences[0].cues.push_back(random_cue(id));
        }
        show.rig.channels[1].contact = Contact::normally_open;
        show.rig.channels[1].shortest_on_ms = 10'000.0;
        const Schedule schedule = resolve(show, show.sequences[0]);
        const auto dwells = dwells_by_channel(schedule)[1];
        std::size_t found = 0;
        for (const CueFault& fault : CueIndex(show, show.sequences[0]).faults()) {
            if (fault.channel == lamp && fault.kind == CueFaultKind::channel_on && !fault.resting) {
                ++found;
                const Dwell dwell{fault.time, fault.time + fault.figure};
                RC_ASSERT(std::find(dwells.begin(), dwells.end(), dwell) != dwells.end());
            }
        }
        RC_ASSERT((found > 0) == !dwells.empty());
    }));
}

TEST_CASE("a flood of flashes is shared out before and after a move alike") {
    Show show = clean_show();
    show.sequences[0].length = 24h;
    show.sequences[0].cues = {cue(1, lamp, 0s, 24h), cue(2, lamp, 1h, 1h)};
    show.sequences[0].cues[0].flashes = Flashes{20.0, 50.0};
    show.sequences[0].cues[1].flashes = Flashes{100.0, 50.0};
    CueIndex index(show, show.sequences[0]);
    const Cue before = show.sequences[0].cues[1];
    Cue& after = show.sequences[0].cues[1];
    after.flashes->rate_hz = 400.0;  // 3.2 million in all
    const auto recheck = index.update(StartedCue{before, before.at}, StartedCue{after, after.at});
    CHECK_FALSE(recheck.come.empty());
    CHECK(sorted(index.faults()) == sorted(CueIndex(show, show.sequences[0]).faults()));
}
