// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/time.hpp"

#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <cstdlib>
#include <limits>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

Micros read(std::string_view text) {
    const auto time = parse_time(text);
    INFO(text);
    if (!time) {
        FAIL(time.error().text());
    }
    return *time;
}

constexpr std::int64_t longest = 86'400'000'000;

Micros random_time() {
    const std::int64_t most =
        *rc::gen::elementOf(std::vector<std::int64_t>{2'000, 2'000'000, 100'000'000, longest});
    return Micros{*rc::gen::resize(rc::kNominalSize, rc::gen::inRange<std::int64_t>(-most, most + 1))};
}

}  // namespace

TEST_CASE("times as people write them") {
    CHECK(read("1.25") == 1250ms);
    CHECK(read("1,25") == 1250ms);
    CHECK(read("1.25 s") == 1250ms);
    CHECK(read("250 ms") == 250ms);
    CHECK(read("250ms") == 250ms);
    CHECK(read("400 us") == 400us);
    CHECK(read("400 \u00b5s") == 400us);
    CHECK(read("1/2 s") == 500ms);
    CHECK(read("2 min") == 120s);
    CHECK(read("1 min 30 s") == 90s);
    CHECK(read("1 h 2 min 3 s 4 ms") == 3723004ms);
    CHECK(read("1:02.5") == 62500ms);
    CHECK(read("1:02,500") == 62500ms);
    CHECK(read("1:12,500") == 72500ms);
    CHECK(read("90:00") == 90min);
    CHECK(read("1:02:03.000004") == 3723000004us);
    CHECK(read("-0:01.5") == -1500ms);
    CHECK(read("-1.5") == -1500ms);
    CHECK(read("\u22121.5") == -1500ms);
    CHECK(read("+3 s") == 3s);
    CHECK(read("0.0000004") == 0us);
    CHECK(read("24:00:00") == 24h);
}

TEST_CASE("what is no time is refused with an example") {
    for (const char* text : {"", "soon", "1:60", "1:2:3:4", "1::2", ":30", "1:", "1:-5", "1:5 s", "1.5:30",
                             "5 s 3 min", "1 s 2 s", "1 2", "3 bar", "nan", "--1", "1:0x5", "1:1e1"}) {
        INFO(text);
        REQUIRE_FALSE(parse_time(text));
        CHECK(parse_time(text).error().remedy == "Write it like 1.25, 250 ms or 1:02.5");
    }
    CHECK(parse_time("24:00:00.000001").error().what == "\"24:00:00.000001\" is beyond 24 h");
    CHECK(parse_time("-25 h").error().what == "\"-25 h\" is beyond 24 h");
    CHECK(parse_time("1e300").error().what == "\"1e300\" is beyond 24 h");
    CHECK(parse_time("1,500").error().remedy == "Write 1500 or 1.500");
}

TEST_CASE("moments on the ruler") {
    CHECK(print_time(7420ms) == "0:07.420");
    CHECK(print_time(7420ms, 0) == "0:07");
    CHECK(print_time(7500ms, 0) == "0:08");
    CHECK(print_time(59'999'500us) == "1:00.000");
    CHECK(print_time(59'999'499us) == "0:59.999");
    CHECK(print_time(1h + 2min + 3s, 1) == "1:02:03.0");
    CHECK(print_time(-1500ms, 1) == "-0:01.5");
    CHECK(print_time(-400us, 3) == "0:00.000");
    CHECK(print_time(1us, 6) == "0:00.000001");
    CHECK(print_time(Micros{std::numeric_limits<std::int64_t>::min()}, 0).starts_with("-"));
}

TEST_CASE("lengths in the unit that suits them") {
    CHECK(print_duration(420ms) == "420 ms");
    CHECK(print_duration(400us) == "0.4 ms");
    CHECK(print_duration(0us) == "0 ms");
    CHECK(print_duration(12500ms) == "12.5 s");
    CHECK(print_duration(-12500ms) == "-12.5 s");
    CHECK(print_duration(59'999'600us) == "1:00.000");
    CHECK(print_duration(125s) == "2:05.000");
}

TEST_CASE("milliseconds round to the nearest microsecond, halves away from 0") {
    CHECK(from_ms(1.0005) == 1001us);
    CHECK(from_ms(-0.0005) == -1us);
    CHECK(from_ms(0.1) == 100us);
    CHECK(to_ms(1500us) == 1.5);
    CHECK(to_s(1500ms) == 1.5);
    CHECK(from_ms(1e300).count() > 0);
}

TEST_CASE("a printed moment reads back exactly, or to within its rounding") {
    REQUIRE(rc::check([] {
        const Micros time = random_time();
        RC_ASSERT((parse_time(print_time(time, 6)) == time));
        const auto back = parse_time(print_time(time, 3));
        RC_ASSERT(back.has_value());
        RC_ASSERT(std::abs((*back - time).count()) <= 500);
        RC_ASSERT(from_ms(to_ms(time)) == time);
    }));
}

TEST_CASE("a printed length reads back to within half a millisecond, and exactly below a second") {
    REQUIRE(rc::check([] {
        const Micros time = random_time();
        const auto back = parse_time(print_duration(time));
        RC_ASSERT(back.has_value());
        const std::int64_t rounding = std::abs(time.count()) < 1'000'000 ? 0 : 500;
        RC_ASSERT(std::abs((*back - time).count()) <= rounding);
    }));
}

TEST_CASE("any bytes are a time of at most 24 h, or refused") {
    REQUIRE(rc::check([] {
        const auto text = *rc::gen::container<std::string>(rc::gen::oneOf(
            rc::gen::arbitrary<char>(), rc::gen::elementOf(std::string("0123456789.,:/-+ eminhsu"))));
        const auto time = parse_time(text);
        RC_ASSERT((time ? std::abs(time->count()) <= longest : !time.error().text().empty()));
    }));
}
