// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/mix_reader.hpp"

#include "tests/support/catch.hpp"

#include <QTemporaryDir>

#include <cstring>
#include <fstream>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

/// A mono WAV of one value, one second at 48 kHz.
void write_level(const std::filesystem::path& path, std::int16_t value) {
    const std::vector<std::int16_t> samples(sound_rate, value);
    const auto bytes = static_cast<std::uint32_t>(samples.size() * 2);
    std::string head("RIFF....WAVEfmt ....................data....", 44);
    const auto put = [&head](std::size_t at, auto number) {
        std::memcpy(head.data() + at, &number, sizeof number);
    };
    put(4, bytes + 36);
    put(16, std::uint32_t{16});
    put(20, std::uint16_t{1});
    put(22, std::uint16_t{1});
    put(24, std::uint32_t{sound_rate});
    put(28, std::uint32_t{sound_rate * 2});
    put(32, std::uint16_t{2});
    put(34, std::uint16_t{16});
    put(40, bytes);
    std::ofstream out(path, std::ios::binary);
    out << head;
    out.write(reinterpret_cast<const char*>(samples.data()), static_cast<std::streamsize>(bytes));
}

std::shared_ptr<const Programme> level_programme(const std::filesystem::path& folder,
                                                 const std::string& file) {
    Sequence sequence;
    sequence.length = 1s;
    SoundClip clip;
    clip.id = ClipId{1};
    clip.file = file;
    clip.length = clip.file_length = 1s;
    sequence.clips.push_back(clip);
    return std::make_shared<const Programme>(Programme{sequence, folder});
}

template <class Condition>
bool wait_for(Condition condition) {
    for (int i = 0; i < 2000 && !condition(); ++i) {
        std::this_thread::sleep_for(5ms);
    }
    return condition();
}

std::vector<std::int16_t> take(SoundFeed& feed, std::int64_t frames) {
    std::vector<std::int16_t> out(static_cast<std::size_t>(frames * sound_channels));
    feed.read(out);
    return out;
}

}  // namespace

TEST_CASE("sounds exchanged in play follow without a gap or a click", "[mix_reader]") {
    const QTemporaryDir temporary;
    const std::filesystem::path folder = temporary.path().toStdString();
    write_level(folder / "high.wav", 8000);
    write_level(folder / "low.wav", -8000);
    SoundFeed feed(4096);
    std::atomic<int> problems = 0;
    MixReader reader(feed, [&](const std::string&) { ++problems; });
    feed.set_held(false);
    reader.start(level_programme(folder, "high.wav"), {0, {}, {}, 1, 7});
    REQUIRE(wait_for([&] { return feed.free_frames() < 1024; }));
    std::vector<std::int16_t> heard = take(feed, 2048);
    reader.exchange(level_programme(folder, "low.wav"));
    while (heard.back() != -8000 && heard.size() < sound_rate) {
        REQUIRE(wait_for([&] { return feed.free_frames() < 2048; }));
        const auto more = take(feed, 512);
        heard.insert(heard.end(), more.begin(), more.end());
    }
    CHECK(heard.back() == -8000);
    int largest = 0;
    for (std::size_t i = 2 * sound_channels; i < heard.size(); i += sound_channels) {
        largest = std::max(largest, std::abs(heard[i] - heard[i - sound_channels]));
    }
    CHECK(largest <= 16'000 / SoundFeed::ramp_frames + 2);
    CHECK(feed.underruns() == 0);
    CHECK(problems == 0);
    // The place on the ruler runs through.
    CHECK(reader.place_of(1000) == PieceMap::Value{1000, 7});
    CHECK(reader.level_of(1000) == Approx(8000.0 / 32768.0));
}

TEST_CASE("a start in the middle, and the end of the sequence", "[mix_reader]") {
    const QTemporaryDir temporary;
    const std::filesystem::path folder = temporary.path().toStdString();
    write_level(folder / "high.wav", 8000);
    SoundFeed feed;
    std::atomic<int> problems = 0;
    MixReader reader(feed, [&](const std::string&) { ++problems; });
    feed.set_held(false);
    reader.start(level_programme(folder, "high.wav"), {47'000, {}, {}, 1, 3});
    REQUIRE(wait_for([&] { return feed.written() == 1000; }));
    CHECK(reader.place_of(0) == PieceMap::Value{47'000, 3});
    REQUIRE(wait_for([&] {
        (void)take(feed, 64);
        return feed.ended();
    }));
    CHECK(feed.underruns() == 0);
    CHECK(problems == 0);
}

TEST_CASE("a slow run lasts as many times as long, and every frame is known by its place", "[mix_reader]") {
    const QTemporaryDir temporary;
    const std::filesystem::path folder = temporary.path().toStdString();
    write_level(folder / "high.wav", 8000);
    SoundFeed feed;
    MixReader reader(feed, [](const std::string&) {});
    feed.set_held(false);
    reader.start(level_programme(folder, "high.wav"), {24'000, {}, {}, 4, 5});
    REQUIRE(wait_for([&] { return feed.free_frames() < 1024; }));
    CHECK(reader.place_of(0) == PieceMap::Value{24'000, 5});
    CHECK(reader.place_of(8000) == PieceMap::Value{26'000, 5});
    REQUIRE(wait_for([&] {
        (void)take(feed, 512);
        return feed.ended();
    }));
    CHECK(feed.written() == 4 * 24'000);
    CHECK(feed.underruns() == 0);
}

TEST_CASE("a slow loop comes round, and its places with it", "[mix_reader]") {
    const QTemporaryDir temporary;
    const std::filesystem::path folder = temporary.path().toStdString();
    write_level(folder / "high.wav", 8000);
    SoundFeed feed;
    MixReader reader(feed, [](const std::string&) {});
    feed.set_held(false);
    reader.start(level_programme(folder, "high.wav"), {10'000, FrameSpan{10'000, 12'000}, {}, 2, 6});
    std::int64_t heard = 0;
    while (heard < 40'000) {
        REQUIRE(wait_for([&] { return feed.free_frames() < 8192; }));
        (void)take(feed, 1000);
        heard += 1000;
        const auto place = reader.place_of(heard - 1);
        REQUIRE(place);
        CHECK(place->frame == 10'000 + (heard - 1) % 4000 / 2);
    }
    CHECK(feed.underruns() == 0);
}

TEST_CASE("a piece of a scrub is short, begins and ends faded, and its programme stays open",
          "[mix_reader]") {
    const QTemporaryDir temporary;
    const std::filesystem::path folder = temporary.path().toStdString();
    write_level(folder / "high.wav", 8000);
    SoundFeed feed;
    std::atomic<int> problems = 0;
    MixReader reader(feed, [&](const std::string&) { ++problems; });
    feed.set_held(false);
    const auto programme = level_programme(folder, "high.wav");
    std::vector<std::int16_t> heard;
    for (std::uint32_t tag = 1; tag <= 3; ++tag) {
        const std::int64_t before = feed.written();
        reader.start(programme, {tag * 5000, {}, 4320, 1, tag});
        REQUIRE(wait_for([&] { return feed.written() == before + 4320; }));
        CHECK(reader.place_of(before + 100) == PieceMap::Value{tag * 5000 + 100, tag});
        const auto more = take(feed, 2880);  // the next begins before this one is over
        heard.insert(heard.end(), more.begin(), more.end());
        std::filesystem::remove(folder / "high.wav");  // held open: not looked for again
    }
    const auto rest = take(feed, 4320);
    heard.insert(heard.end(), rest.begin(), rest.end());
    int largest = 0;
    int loudest = 0;
    for (std::size_t i = sound_channels; i < heard.size(); i += sound_channels) {
        largest = std::max(largest, std::abs(heard[i] - heard[i - sound_channels]));
        loudest = std::max<int>(loudest, heard[i]);
    }
    CHECK(largest <= 8000 / SoundFeed::ramp_frames + 2);
    CHECK(loudest == 8000);
    CHECK(heard.back() == 0);
    CHECK(problems == 0);
}
