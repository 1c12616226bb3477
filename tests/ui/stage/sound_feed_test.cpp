// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/sound_feed.hpp"

#include "tests/support/catch.hpp"

#include <cstdlib>
#include <thread>

using namespace gasp;

namespace {

std::vector<std::int16_t> level(std::int64_t frames, std::int16_t value) {
    return std::vector<std::int16_t>(static_cast<std::size_t>(frames * sound_channels), value);
}

std::vector<std::int16_t> take(SoundFeed& feed, std::int64_t frames) {
    std::vector<std::int16_t> out(static_cast<std::size_t>(frames * sound_channels), 77);
    feed.read(out);
    return out;
}

int largest_step(const std::vector<std::int16_t>& samples, int before = 0) {
    int step = 0;
    for (std::size_t i = 0; i < samples.size(); i += sound_channels) {
        step = std::max(step, std::abs(samples[i] - before));
        before = samples[i];
    }
    return step;
}

constexpr int gentle = 20'000 / SoundFeed::ramp_frames + 2;

}  // namespace

TEST_CASE("a start fades in and then passes samples untouched", "[sound_feed]") {
    SoundFeed feed(4096);
    feed.set_held(false);
    feed.write(level(1000, 20'000));
    const auto heard = take(feed, 600);
    CHECK(largest_step(heard) <= gentle);
    CHECK(heard[2 * SoundFeed::ramp_frames] == 20'000);
    CHECK(heard.back() == 20'000);
    const auto turn = feed.take_turn();
    REQUIRE(turn);
    CHECK(*turn == Piece{0, 0, true});
    CHECK(feed.underruns() == 0);
}

TEST_CASE("a held feed fades out, and is quiet then", "[sound_feed]") {
    SoundFeed feed(4096);
    feed.set_held(false);
    feed.write(level(3000, 20'000));
    (void)take(feed, 500);
    feed.set_held(true);
    const auto heard = take(feed, 500);
    CHECK(largest_step(heard, 20'000) <= gentle);
    CHECK(heard.back() == 0);
    CHECK(feed.quiet());
    CHECK(feed.underruns() == 0);
}

TEST_CASE("a jump fades out, skips what was read before, and fades in", "[sound_feed]") {
    SoundFeed feed(4096);
    feed.set_held(false);
    feed.write(level(2000, 20'000));
    (void)take(feed, 500);
    feed.restart();
    feed.write(level(1000, -20'000));
    const auto heard = take(feed, 1000);
    CHECK(largest_step(heard, 20'000) <= gentle);
    CHECK(heard.back() == -20'000);
    PieceMap turns;
    while (const auto turn = feed.take_turn()) {
        turns.add(*turn);
    }
    CHECK(turns.at(999)->frame == 2000 + 999 - 500 - SoundFeed::ramp_frames - 1);  // a frame for the rounding
}

TEST_CASE("an empty ring gives silence and is counted once", "[sound_feed]") {
    SoundFeed feed(4096);
    feed.set_held(false);
    (void)take(feed, 100);  // not begun: no underrun
    CHECK(feed.underruns() == 0);
    feed.write(level(300, 1000));
    const auto heard = take(feed, 500);
    CHECK(heard.back() == 0);
    (void)take(feed, 100);
    CHECK(feed.underruns() == 1);
    PieceMap turns;
    while (const auto turn = feed.take_turn()) {
        turns.add(*turn);
    }
    CHECK(turns.at(350)->frame == 250);
    CHECK(turns.at(450)->frame == 300);  // stands still
    CHECK(turns.at(600)->frame == 300);
}

TEST_CASE("the end fades out and is no underrun", "[sound_feed]") {
    SoundFeed feed(4096);
    feed.set_held(false);
    feed.write(level(1000, 20'000));
    feed.finish();
    const auto heard = take(feed, 1100);
    CHECK(largest_step(heard) <= gentle);
    CHECK(feed.underruns() == 0);
    CHECK(feed.ended());
    feed.restart();
    feed.write(level(500, 20'000));
    CHECK(take(feed, 400).back() == 20'000);
    CHECK_FALSE(feed.ended());
}

TEST_CASE("a volume is reached gently and scales the samples", "[sound_feed]") {
    SoundFeed feed(4096);
    feed.set_held(false);
    feed.set_volume(0.5F);
    feed.write(level(1500, 20'000));
    CHECK(take(feed, 500).back() == 10'000);
    feed.set_volume(1.0F);
    const auto heard = take(feed, 500);
    CHECK(largest_step(heard, 10'000) <= gentle);
    CHECK(heard.back() == 20'000);
}

TEST_CASE("turns nobody takes are settled by the last one", "[sound_feed]") {
    SoundFeed feed(4096);
    feed.set_held(false);
    for (int i = 0; i < 400; ++i) {  // each leaves two turns
        feed.write(level(10, 100));
        (void)take(feed, 20);
    }
    PieceMap turns;
    while (const auto turn = feed.take_turn()) {
        turns.add(*turn);
    }
    (void)take(feed, 20);
    while (const auto turn = feed.take_turn()) {
        turns.add(*turn);
    }
    CHECK(turns.at(feed.given())->frame == 4000);
}

TEST_CASE("two threads pass every sample in order", "[sound_feed]") {
    SoundFeed feed(1024);
    feed.set_held(false);
    constexpr std::int64_t total = 200'000;
    std::thread writer([&feed] {
        std::vector<std::int16_t> chunk;
        for (std::int64_t done = 0; done < total;) {
            const std::int64_t frames = std::min({feed.free_frames(), total - done, std::int64_t{300}});
            chunk.clear();
            for (std::int64_t i = 0; i < frames; ++i) {
                const auto value = static_cast<std::int16_t>((done + i) % 30'000 + 1);
                chunk.insert(chunk.end(), {value, value});
            }
            feed.write(chunk);
            done += frames;
            std::this_thread::yield();
        }
    });
    PieceMap turns;
    std::int64_t wrong = 0;
    while (feed.written() < total || feed.free_frames() < 1024) {
        const std::int64_t first = feed.given();
        const auto heard = take(feed, 128);
        while (const auto turn = feed.take_turn()) {
            turns.add(*turn);
        }
        for (std::int64_t i = 0; i < 128; ++i) {
            const std::int16_t value = heard[static_cast<std::size_t>(i) * 2];
            const auto written = turns.at(first + i);
            const std::int64_t expected = written ? written->frame % 30'000 + 1 : 0;
            wrong += value > expected ? 1 : 0;  // quieter where it fades in; never another sample
        }
    }
    writer.join();
    CHECK(wrong == 0);
}
