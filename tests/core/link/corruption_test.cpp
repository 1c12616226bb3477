// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/conversation.hpp"
#include "tests/core/link/board_in_process.hpp"
#include "tests/core/link/image_for_link.hpp"
#include "tests/core/link/noisy_stream.hpp"
#include "tests/support/catch.hpp"

#include <random>

using namespace gasp;
using namespace gasp::testing;

namespace {

constexpr int corruptions = 100'000;

using Bytes = std::vector<std::uint8_t>;

/// A board that gives one answer, corrupted on its way, and keeps what it meant.
class CorruptingBoard : public ByteStream {
  public:
    explicit CorruptingBoard(unsigned seed) : random_(seed) {}

    Result<std::size_t> read(std::span<std::uint8_t> into, Deadline) override {
        const std::size_t count = std::min(into.size(), line_.size());
        std::copy_n(line_.begin(), count, into.begin());
        line_.erase(line_.begin(), line_.begin() + static_cast<std::ptrdiff_t>(count));
        return count;
    }
    Result<void> write(std::span<const std::uint8_t> bytes, Deadline) override;
    [[nodiscard]] const std::string& name() const override { return name_; }

    /// The payload of the next answer, without its result.
    Bytes meant;
    std::mt19937& random() { return random_; }

  private:
    void corrupt(Bytes& line);

    std::mt19937 random_;
    Bytes line_;
    std::string name_ = "corrupting";
};

Result<void> CorruptingBoard::write(std::span<const std::uint8_t> bytes, Deadline) {
    gb_frame frame{};
    gb_frame_begin(&frame);
    for (const std::uint8_t byte : bytes.subspan(1)) {
        (void)gb_frame_take(&frame, byte);
    }
    (void)gb_frame_open(&frame);
    frame.bytes[gb_frame_type] |= answer_bit;
    frame.bytes[gb_frame_payload] = 0;
    std::ranges::copy(meant, frame.bytes + gb_frame_payload + 1);
    frame.count = static_cast<std::uint8_t>(meant.size() + 1);
    gb_frame_close(&frame);
    line_.assign(frame.bytes, frame.bytes + frame.count);
    corrupt(line_);
    return {};
}

void CorruptingBoard::corrupt(Bytes& line) {
    const auto below = [&](std::size_t count) {
        return std::uniform_int_distribution<std::size_t>(0, count - 1)(random_);
    };
    const auto at = line.begin() + static_cast<std::ptrdiff_t>(below(line.size()));
    switch (below(5)) {
        case 0:
            *at = static_cast<std::uint8_t>(*at ^ 1U << below(8));
            break;
        case 1:
            *at = static_cast<std::uint8_t>(*at ^ (1 + below(255)));
            break;
        case 2:
            line.erase(at);
            break;
        case 3:
            line.insert(at, *at);
            break;
        default:
            line.insert(at, static_cast<std::uint8_t>(below(256)));
    }
}

}  // namespace

TEST_CASE("of 100 000 answers with one corruption each, none is taken for another answer") {
    CorruptingBoard board(20'261'125);
    LinkExchange exchange(board, {});
    // Zeros as often as tables have them: COBS has work.
    std::uniform_int_distribution<int> byte(-128, 255);
    std::uniform_int_distribution<std::size_t> size(0, 128);
    int wrong = 0;
    int right = 0;
    for (int done = 0; done < corruptions; ++done) {
        board.meant.resize(size(board.random()));
        for (std::uint8_t& one : board.meant) {
            one = static_cast<std::uint8_t>(std::max(0, byte(board.random())));
        }
        const auto reply =
            exchange.ask(Request::read_back, {}, board.meant.size(), std::chrono::milliseconds(1), 1);
        const bool same = reply && reply->result == BoardAnswer::done && reply->bytes == board.meant;
        wrong += reply && !same ? 1 : 0;
        right += same ? 1 : 0;
    }
    CHECK(wrong == 0);
    CHECK(right < corruptions / 20);  // as when a zero was put before the frame
}

TEST_CASE("through 100 000 corruptions of the line no load ends with a wrong table, and every call ends") {
    BoardInProcess line;
    const std::string image = image_of_flashes(330);
    std::size_t made = 0;
    int loaded = 0;
    int failed = 0;
    for (unsigned seed = 1; made < corruptions; ++seed) {
        NoisyStream noisy(line, seed % 3 == 0 ? 0.05 : 0.005, seed);
        Conversation board(noisy);
        const std::string this_one = image_of_flashes(330 + seed % 2);
        const auto report = board.load(this_one);
        loaded += report ? 1 : 0;
        failed += report ? 0 : 1;
        if (report) {
            CHECK(std::equal(this_one.begin(), this_one.end(), line.store().begin(),
                             [](char a, std::uint8_t b) { return static_cast<std::uint8_t>(a) == b; }));
        }
        const auto status = board.status();
        CHECK((!status || status->driven == 0));
        made += noisy.corruptions();
    }
    CAPTURE(loaded, failed);
    CHECK(loaded > 50);  // the line is bad, not dead
    Conversation quiet(line);
    REQUIRE(quiet.load(image));
    CHECK(quiet.read_image_back().value() == image);
}

TEST_CASE("noise alone is no board, and ends") {
    class Noise : public ByteStream {
      public:
        Result<std::size_t> read(std::span<std::uint8_t> into, Deadline) override {
            if (left_ == 0) {
                left_ = 1000;
                return 0;
            }
            --left_;
            for (std::uint8_t& byte : into) {
                byte = static_cast<std::uint8_t>(random_());
            }
            return into.size();
        }
        Result<void> write(std::span<const std::uint8_t>, Deadline) override { return {}; }
        [[nodiscard]] const std::string& name() const override { return name_; }

      private:
        std::mt19937 random_{7};
        int left_ = 1000;
        std::string name_ = "noise";
    };
    Noise noise;
    Conversation board(noise);
    const auto identity = board.identify();
    REQUIRE_FALSE(identity);
    // Megabytes of it come in that time: by chance a few bytes are a frame, one in 65 536, of another
    // request.
    const std::string& what = identity.error().what;
    CHECK((what == "what answers here is no board with the player of this program" ||
           what == "what answers here mixes up what it is asked"));
}
