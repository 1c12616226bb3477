// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/cue_spans.hpp"

#include "core/schedule/radix.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <algorithm>
#include <random>

using namespace gasp;

namespace {

/// As many cues as asked for on three channels of unlike ticks, in no order, some outside their sequence.
Show crowded_show(std::size_t count, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    Show show = empty_show();
    show.sequences[0].length = Micros{1'000'001 + static_cast<std::int64_t>(random() % 3'600'000'000)};
    const double ticks[] = {0.1, 0.7, 20.0};
    for (std::uint32_t i = 0; i < 3; ++i) {
        Board board;
        board.id = {100 + i};
        board.tick_ms = ticks[i];
        show.rig.boards.push_back(board);
        Channel channel;
        channel.id = {200 + i};
        channel.board = board.id;
        show.rig.channels.push_back(channel);
    }
    const auto reach = static_cast<std::uint64_t>(show.sequences[0].length.count()) + 400'000;
    for (std::uint32_t id = 1; id <= count; ++id) {
        Cue cue;
        cue.id = {id};
        cue.channel = {200 + static_cast<std::uint32_t>(random() % 3)};
        cue.at = Micros{static_cast<std::int64_t>(random() % reach) - 200'000};
        cue.length = Micros{static_cast<std::int64_t>(1 + random() % 30'000)};
        show.sequences[0].cues.push_back(cue);
    }
    return show;
}

/// The slow way: each edge divided by the tick, cut to the sequence, and all of them sorted by comparing.
std::vector<CueSpan> spans_by_division(const Show& show, const Channel& channel) {
    const Micros tick = tick_of(show, channel);
    const Micros last = show.sequences[0].length / tick * tick;
    std::vector<CueSpan> spans;
    for (const Cue& cue : show.sequences[0].cues) {
        const Micros begin = std::clamp(on_tick(cue.at, tick), Micros{0}, last);
        const Micros end = std::clamp(on_tick(cue.at + cue.length, tick), Micros{0}, last);
        if (cue.channel == channel.id && begin < end) {
            spans.push_back({begin, end, cue.id, false});
        }
    }
    std::sort(spans.begin(), spans.end(), [](const CueSpan& a, const CueSpan& b) {
        return a.begin != b.begin ? a.begin < b.begin : a.cue < b.cue;
    });
    return spans;
}

}  // namespace

TEST_CASE("the reciprocal of a tick rounds every moment as a division does") {
    const auto agree = [](Micros moment, Micros tick) {
        const Ticks ticks(tick);
        const Ticks::Nearest nearest = ticks.nearest(moment);
        const Micros rounded = on_tick(moment, tick);
        return ticks.moment(nearest.ticks) == rounded && nearest.off == std::chrono::abs(rounded - moment);
    };
    REQUIRE(rc::check([&] {
        const Micros tick{*rc::gen::inRange<std::int64_t>(1, 1'000'001)};
        const Micros moment{*rc::gen::inRange<std::int64_t>(0, std::int64_t{1} << 60)};
        RC_ASSERT(agree(moment, tick));
        // Beside a tick and beside the middle of two, where one more or less shows.
        const Micros near = moment / tick * tick;
        for (const Micros edge : {near, near + tick / 2, near + tick}) {
            for (const std::int64_t off : {-1, 0, 1}) {
                RC_ASSERT(agree(std::max(edge + Micros{off}, Micros{0}), tick));
            }
        }
    }));
    for (const std::int64_t tick : {1, 2, 3, 100, 700, 1000, 1'000'000}) {
        CHECK(agree(Micros{0}, Micros{tick}));
        CHECK(agree(std::chrono::hours{24}, Micros{tick}));
    }
}

TEST_CASE("the spans of many cues are those of the slow way, each also by itself") {
    for (const std::size_t count : {0U, 1U, 2U, 50U, 5'000U, 30'000U}) {
        const Show show = crowded_show(count, 3 + count);
        const SequenceSpans all = cue_spans(show, show.sequences[0]);
        std::size_t found = 0;
        for (std::size_t place = 0; place < 3; ++place) {
            CHECK(all.channels[place].spans == spans_by_division(show, show.rig.channels[place]));
            found += all.channels[place].spans.size();
        }
        std::size_t one_by_one = 0;
        for (const Cue& cue : show.sequences[0].cues) {
            const ChannelSpans& channel = all.channels[cue.channel.value - 200];
            const auto span = span_of(channel, StartedCue{cue, cue.at});
            one_by_one += span ? 1U : 0U;
            if (span && count <= 50) {
                CHECK(std::count(channel.spans.begin(), channel.spans.end(), *span) == 1);
            }
        }
        CHECK(one_by_one == found);
    }
}

TEST_CASE("the radix sort gives what a stable sort by comparing gives") {
    using Item = std::pair<std::uint64_t, std::size_t>;
    REQUIRE(rc::check([] {
        const auto bits = *rc::gen::inRange<unsigned>(1, 65);
        const auto count = *rc::gen::element<std::size_t>(0, 1, 5, 300, 5000);
        std::mt19937_64 random(*rc::gen::arbitrary<std::uint64_t>());
        std::vector<Item> items;
        for (std::size_t i = 0; i < count; ++i) {
            items.emplace_back(random() >> (64 - bits), i);
        }
        std::vector<Item> expected = items;
        std::stable_sort(expected.begin(), expected.end(),
                         [](const Item& a, const Item& b) { return a.first < b.first; });
        std::vector<Item> other(count);
        const auto sorted =
            radix_sort(std::span(items), std::span(other), [](const Item& i) { return i.first; });
        RC_ASSERT(std::equal(sorted.begin(), sorted.end(), expected.begin(), expected.end()));
    }));
}
