// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/lane_index.hpp"

#include "core/show/edits.hpp"
#include "core/show/show.hpp"
#include "tests/support/catch.hpp"
#include "tests/ui/timeline/on_screen.hpp"
#include "ui/timeline/clipboard.hpp"
#include "ui/timeline/lane_layout.hpp"
#include "ui/timeline/placing.hpp"
#include "ui/timeline/snapping.hpp"

#include <rapidcheck.h>

#include <algorithm>
#include <array>
#include <tuple>

using namespace gasp;

namespace {

std::vector<PlacedCue> by_brute_force(const std::vector<PlacedCue>& cues, Micros begin, Micros end) {
    std::vector<PlacedCue> found;
    for (const PlacedCue& cue : cues) {
        if (cue.begin <= end && cue.end >= begin) {
            found.push_back(cue);
        }
    }
    std::sort(found.begin(), found.end(), [](const PlacedCue& a, const PlacedCue& b) {
        return std::tie(a.begin, a.id) < std::tie(b.begin, b.id);
    });
    return found;
}

}  // namespace

TEST_CASE("the cues that overlap a stretch are those a search through all would find") {
    REQUIRE(rc::check([] {
        std::vector<PlacedCue> cues;
        LaneCues lane;
        const int count = *rc::gen::inRange(0, 400);
        for (int i = 0; i < count; ++i) {
            const Micros begin{*rc::gen::inRange(0, 5000)};
            const PlacedCue cue{begin, begin + Micros{*rc::gen::inRange(1, i % 50 == 0 ? 5000 : 60)},
                                CueId{static_cast<std::uint32_t>(i + 1)}};
            cues.push_back(cue);
            lane.insert(cue);
        }
        while (!cues.empty() && *rc::gen::inRange(0, 4) != 0) {
            const auto victim =
                static_cast<std::size_t>(*rc::gen::inRange<int>(0, static_cast<int>(cues.size())));
            lane.erase(cues[victim]);
            cues.erase(cues.begin() + static_cast<std::ptrdiff_t>(victim));
        }
        const Micros begin{*rc::gen::inRange(-100, 5200)};
        const Micros end = begin + Micros{*rc::gen::inRange(0, 2000)};
        std::vector<PlacedCue> found;
        lane.overlapping(begin, end, [&found](const PlacedCue& cue) { found.push_back(cue); });
        RC_ASSERT(found == by_brute_force(cues, begin, end));
    }));
}

TEST_CASE("an index that follows edits is the same as a fresh one") {
    REQUIRE(rc::check([] {
        Show show = test::small_show();
        const SequenceId id = show.sequences.front().id;
        LaneIndex index;
        index.rebuild(show.sequences.front());
        for (int step = 0; step < 12; ++step) {
            const auto& cues = show.sequences.front().cues;
            std::vector<CueId> some;
            for (const Cue& cue : cues) {
                if (*rc::gen::inRange(0, 2) == 0) {
                    some.push_back(cue.id);
                }
            }
            const MarkId mark = show.sequences.front().marks.front().id;
            Edit edit;
            switch (*rc::gen::inRange(0, 5)) {
                case 0: {
                    Cue cue;
                    cue.channel = show.rig.channels[static_cast<std::size_t>(*rc::gen::inRange(0, 4))].id;
                    cue.at = Micros{*rc::gen::inRange(0, 9'000'000)};
                    cue.length = Micros{500'000};
                    edit = add_cues(show, id, {cue});
                    break;
                }
                case 1:
                    edit = remove_cues(show, id, some);
                    break;
                case 2:
                    edit = move_cues(show, id, some, Micros{*rc::gen::inRange(-900'000, 900'000)});
                    break;
                case 3:
                    edit = tie_cues(show, id, some, mark);
                    break;
                default:
                    edit = move_mark(show, id, mark, Micros{*rc::gen::inRange(0, 9'000'000)});
                    break;
            }
            apply(edit, show);
            index.follow(edit, show.sequences.front());
            if (*rc::gen::inRange(0, 3) == 0) {
                revert(edit, show);
                index.follow(edit, show.sequences.front());
            }
        }
        LaneIndex fresh;
        fresh.rebuild(show.sequences.front());
        RC_ASSERT(index.size() == fresh.size());
        for (const Channel& channel : show.rig.channels) {
            const auto a = index.of(channel.id).all();
            const auto b = fresh.of(channel.id).all();
            RC_ASSERT(std::equal(a.begin(), a.end(), b.begin(), b.end()));
        }
    }));
}

TEST_CASE("snapping prefers the nearest, and a mark where two are as near") {
    Show show = test::small_show();
    const Sequence& sequence = show.sequences.front();
    LaneIndex index;
    index.rebuild(sequence);
    const LaneLayout lanes(show, sequence);
    ViewTransform view;
    view.set_width(1000);
    view.set_scale_and_offset(10'000, Micros{0});
    SnapPlaces places{sequence, index, lanes, view, Micros{4'000'000}, {}, {}, {}};
    const auto at = [&](std::int64_t us) {
        const std::array edge{Micros{us}};
        return snap(places, edge, {});
    };
    REQUIRE(at(4'030'000)->mark == sequence.marks.front().id);
    REQUIRE(at(4'030'000)->shift == Micros{-30'000});
    REQUIRE(at(1'950'000)->word == "end of a cue");
    REQUIRE(!at(3'000'000));
    places.ticks = {500'000, 500'000, 1};
    REQUIRE(at(3'020'000)->word == "grid");
    REQUIRE(!at(3'060'000));
    // Frames are narrow here: one is always near. A tick in reach goes before them.
    places.grid.kind = Grid::Kind::frames;
    places.ticks = {50, 25, 0};
    REQUIRE(at(3'312'000)->word == "frame");
    REQUIRE(at(3'312'000)->time == Micros{3'320'000});
    REQUIRE(at(3'022'000)->time == Micros{3'000'000});
    // Beats of half a second from 0.1 s on.
    places.grid.kind = Grid::Kind::beats;
    places.grid.first_beat = Micros{100'000};
    places.ticks = {64, 16, 0};
    REQUIRE(at(3'120'000)->time == Micros{3'100'000});
    REQUIRE(at(3'120'000)->word == "beat");
    REQUIRE(!at(3'300'000));
}

TEST_CASE("what is dragged snaps to moments in the sound, but rather to a mark as near") {
    const Show show = test::small_show();
    const Sequence& sequence = show.sequences.front();
    LaneIndex index;
    index.rebuild(sequence);
    const LaneLayout lanes(show, sequence);
    ViewTransform view;
    view.set_width(1000);
    view.set_scale_and_offset(10'000, Micros{0});
    const std::vector<SoundMoment> moments{{Micros{2'500'000}, MomentKind::onset},
                                           {Micros{3'000'000}, MomentKind::word},
                                           {Micros{4'020'000}, MomentKind::loudest}};
    const SnapPlaces places{sequence, index, lanes, view, Micros{8'000'000}, {}, {}, moments};
    const auto at = [&](std::int64_t us) {
        const std::array edge{Micros{us}};
        return snap(places, edge, {});
    };
    REQUIRE(at(2'460'000)->word == "onset");
    REQUIRE(at(2'460'000)->shift == Micros{40'000});
    REQUIRE(at(3'079'000)->word == "start of a word");
    REQUIRE(!at(3'081'000));
    REQUIRE(at(4'010'000)->mark == sequence.marks.front().id);
    REQUIRE(at(4'015'000)->word == "loudest moment");
}

TEST_CASE("what comes from the clipboard is not believed") {
    const Show show = test::small_show();
    for (const char* data :
         {"", "[]", "{", R"({"cues":7})", R"({"cues":[1,2]})", R"({"cues":[{"channel":"x"}]})"}) {
        CHECK(pasted_cues(data, show, Micros{0}, {}).empty());
    }
    const char* huge =
        R"({"cues":[{"channel":"lamp","kind":1,"start_us":1e300,"length_us":-5,"rate_hz":1e99}]})";
    const std::vector<Cue> cues = pasted_cues(huge, show, Micros{5}, {});
    REQUIRE(cues.size() == 1);
    REQUIRE(cues[0].at == Micros{5});
    Show after = show;
    apply(add_cues(after, after.sequences.front().id, cues), after);
    REQUIRE(after.sequences.front().cues.back().length >= Micros{1000});
    REQUIRE(!after.sequences.front().cues.back().flashes);
}
