// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/quantity.hpp"

#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <limits>

using namespace gasp;
using Q = Quantity;

namespace {

constexpr std::array systems{UnitSystem::metric, UnitSystem::us};

constexpr std::array all_quantities{
    Q::small_length, Q::length, Q::gauge_pressure, Q::volume,  Q::free_air_flow, Q::free_air,  Q::mass,
    Q::force,        Q::angle,  Q::temperature,    Q::time_ms, Q::time_s,        Q::frequency, Q::current,
    Q::voltage,      Q::power,  Q::sound_level,    Q::percent, Q::number};

double metric(Q quantity, std::string_view text) {
    const auto value = parse_quantity(quantity, text, UnitSystem::metric);
    INFO(text);
    if (!value) {
        FAIL(value.error().text());
    }
    return *value;
}

double us(Q quantity, std::string_view text) {
    const auto value = parse_quantity(quantity, text, UnitSystem::us);
    INFO(text);
    if (!value) {
        FAIL(value.error().text());
    }
    return *value;
}

std::string error(Q quantity, std::string_view text) {
    const auto value = parse_quantity(quantity, text, UnitSystem::metric);
    return value ? "read as " + std::to_string(*value) : value.error().text();
}

}  // namespace

TEST_CASE("a bare number is in the shown unit") {
    CHECK(metric(Q::gauge_pressure, "4") == 400);
    CHECK(us(Q::small_length, "1.5") == 38.1);
    CHECK(us(Q::mass, "0") == 0);
    CHECK(metric(Q::number, "2.5") == 2.5);
    CHECK(metric(Q::percent, "60") == 60);
    CHECK(us(Q::temperature, "50") == 10);
}

TEST_CASE("fractions as on a tape measure") {
    for (const char* text : {"1 1/2 in", "1-1/2 in", "1-1/2\"", "1 1/2\"", "1.5 inches", "1\u00bd in",
                             "1 \u00bd\u2033", "1 1\u20442 in", "3/2 inch", "1.5in", " 1.5  IN. "}) {
        INFO(text);
        CHECK(metric(Q::small_length, text) == 38.1);
    }
    CHECK(metric(Q::small_length, "1-1/16 in") == 26.9875);
    CHECK(metric(Q::small_length, "3/4\"") == 19.05);
    CHECK(metric(Q::small_length, "-3/4 in") == -19.05);
    CHECK(metric(Q::small_length, "\u22123/4 in") == -19.05);
    CHECK(metric(Q::small_length, "\u215d in") == 15.875);
}

TEST_CASE("feet with inches, pounds with ounces") {
    for (const char* text :
         {"5 ft 3 in", "5' 3\"", "5'3\"", "5'-3\"", "5\u2032 3\u2033", "63 in", "5.25 ft"}) {
        INFO(text);
        CHECK(metric(Q::length, text) == 1.6002);
    }
    CHECK(metric(Q::length, "-5' 3\"") == -1.6002);
    CHECK(metric(Q::length, "5' 3 1/2\"") == 1.6129);
    CHECK(metric(Q::mass, "3 lb 4 oz") == metric(Q::mass, "3.25 lb"));
    CHECK(error(Q::length, "5 in 3 ft") == "There is more than one number. Write one number and one unit.");
    CHECK(error(Q::length, "5 3") == "There is more than one number. Write one number and one unit.");
}

TEST_CASE("a comma is a decimal sign where it can be nothing else") {
    CHECK(metric(Q::gauge_pressure, "4,1 bar") == 410);
    CHECK(metric(Q::gauge_pressure, "0,125 bar") == 12.5);
    CHECK(metric(Q::gauge_pressure, "4,1375 bar") == 413.75);
    CHECK(metric(Q::free_air_flow, "1,234.5 L/min") == 1234.5);
    CHECK(metric(Q::free_air_flow, "1.234,5 L/min") == 1234.5);
    CHECK(metric(Q::free_air_flow, "1,234,567 L/min") == 1234567);
    CHECK(metric(Q::free_air_flow, "1.234.567 L/min") == 1234567);
    CHECK(metric(Q::free_air_flow, "1.500") == 1.5);
    CHECK(error(Q::free_air_flow, "1,500 L/min") ==
          "\"1,500\" can be read in two ways. Write 1500 or 1.500.");
    CHECK(error(Q::free_air_flow, "1,2,3") == "\"1,2,3\" is not a number. Write it like 1234.5.");
    CHECK(error(Q::free_air_flow, "1,23.4,5") == "\"1,23.4,5\" is not a number. Write it like 1234.5.");
}

TEST_CASE("units by any of their names, in any case") {
    CHECK(metric(Q::gauge_pressure, "0.6 mpa") == 600);
    CHECK(metric(Q::gauge_pressure, "80 PSI") == metric(Q::gauge_pressure, "80 psig"));
    CHECK(metric(Q::gauge_pressure, "5 kgf/cm\u00b2") == metric(Q::gauge_pressure, "5 kg/cm2"));
    CHECK(metric(Q::free_air_flow, "6 m\u00b3/h") == 100);
    CHECK(metric(Q::free_air_flow, "6 m^3/h") == 100);
    CHECK(metric(Q::free_air_flow, "50 l/min ANR") == 50);
    CHECK(metric(Q::free_air_flow, "3 CFM") == metric(Q::free_air_flow, "3 cu. ft/min"));
    CHECK(metric(Q::volume, "24 litres") == 24);
    CHECK(metric(Q::volume, "250 cc") == 0.25);
    CHECK(metric(Q::volume, "1 ft\u00b3") == metric(Q::volume, "1 cu ft"));
    CHECK(metric(Q::force, "50 lb") == metric(Q::force, "50 lbf"));
    CHECK(metric(Q::force, "1 kg") == metric(Q::force, "1 kgf"));
    CHECK(metric(Q::temperature, "20 \u00b0C") == 20);
    CHECK(metric(Q::temperature, "20C") == 20);
    CHECK(metric(Q::temperature, "293.15 K") == 20);
    CHECK(metric(Q::angle, "45\u00b0") == 45);
    CHECK(metric(Q::angle, "45 deg") == 45);
    CHECK(metric(Q::time_ms, "0.25 s") == 250);
    CHECK(metric(Q::time_ms, "400 \u00b5s") == 0.4);
    CHECK(metric(Q::time_s, "2 min") == 120);
    CHECK(metric(Q::frequency, "120 /min") == 2);
    CHECK(metric(Q::current, "350 mA") == 0.35);
    CHECK(metric(Q::sound_level, "88 dB") == 88);
    CHECK(metric(Q::power, "0.5 kW") == 500);
    CHECK(metric(Q::percent, "12.5 %") == 12.5);
}

TEST_CASE("what is refused says what would do") {
    CHECK(error(Q::gauge_pressure, "60 psia") ==
          "\"psia\" is not a unit of gauge pressure. Use kPa, bar, psi, MPa, mbar, Pa, kgf/cm2.");
    CHECK(error(Q::small_length, "4 bar") == "\"bar\" is not a unit of length. Use mm, cm, m, in, ft.");
    CHECK(error(Q::number, "4 bar") == "\"bar\" is not a unit of count or ratio. Write the number alone.");
    CHECK(error(Q::mass, "") == "There is no number. Write it like 12.5 kg.");
    CHECK(error(Q::mass, "heavy") == "\"heavy\" is not a number. Write it like 12.5 kg.");
    for (const char* text :
         {"nan", "inf", "-", "+-1", "1/0 in", "1e999", "..", ",", "1 1/", "0x10", "1e", "--1"}) {
        CHECK_FALSE(parse_quantity(Q::number, text, UnitSystem::metric));
    }
    CHECK_FALSE(parse_quantity(Q::small_length, "1e308 m", UnitSystem::metric));
}

TEST_CASE("printing: what was typed comes back, what was not is rounded") {
    CHECK(print_quantity(Q::gauge_pressure, us(Q::gauge_pressure, "60 psi"), UnitSystem::us) == "60 psi");
    CHECK(print_quantity(Q::gauge_pressure, us(Q::gauge_pressure, "60 psi"), UnitSystem::metric) ==
          "4.137 bar");
    CHECK(print_quantity(Q::small_length, 38.1, UnitSystem::us) == "1.5 in");
    CHECK(print_quantity(Q::small_length, 26.9875, UnitSystem::us) == "1.0625 in");
    CHECK(print_quantity(Q::small_length, 38.1, UnitSystem::metric) == "38.1 mm");
    CHECK(print_quantity(Q::angle, 45, UnitSystem::us) == "45\u00b0");
    CHECK(print_quantity(Q::temperature, 20, UnitSystem::us) == "68 \u00b0F");
    CHECK(print_quantity(Q::number, 3, UnitSystem::us) == "3");
    CHECK(print_number(Q::number, 123456, UnitSystem::metric) == "123456");
    CHECK(print_number(Q::number, 123456.789, UnitSystem::metric) == "123500");
    CHECK(print_number(Q::number, 9999990, UnitSystem::metric) == "9999990");
    CHECK(print_number(Q::number, 1e7, UnitSystem::metric) == "1e+07");
    CHECK(print_number(Q::number, 2.0 / 3, UnitSystem::metric) == "0.6667");
    CHECK(print_number(Q::number, 99999.96, UnitSystem::metric) == "100000");
    CHECK(print_number(Q::number, 0.00012345678, UnitSystem::metric) == "0.0001235");
    CHECK(print_number(Q::number, -0.0, UnitSystem::metric) == "0");
}

TEST_CASE("every quantity shows a unit of its own, and keeps the first") {
    for (const Q quantity : all_quantities) {
        CHECK(units_of(quantity).front().scale == 1);
        CHECK(units_of(quantity).front().offset == 0);
        for (const Unit& unit : units_of(quantity)) {
            INFO(unit.name);
            CHECK(metric(quantity, "1 " + std::string(unit.name)) == Approx(unit.scale + unit.offset));
        }
    }
}

TEST_CASE("a printed quantity reads back to within its rounding") {
    REQUIRE(rc::check([] {
        const Q quantity = *rc::gen::elementOf(all_quantities);
        const UnitSystem system = *rc::gen::elementOf(systems);
        const double size = std::pow(10, *rc::gen::inRange(-3, 8));
        const double value = size * *rc::gen::inRange(-1'000'000, 1'000'000) / 1e6;
        const auto back = parse_quantity(quantity, print_quantity(quantity, value, system), system);
        RC_ASSERT(back.has_value());
        const Unit& unit = shown_unit(quantity, system);
        RC_ASSERT(std::abs(*back - value) <= 5.001e-4 * std::abs(value - unit.offset) + 1e-9);
        const auto alone = parse_quantity(quantity, print_number(quantity, value, system), system);
        RC_ASSERT((alone == back));
    }));
}

TEST_CASE("what is typed with six digits is printed as it was typed") {
    REQUIRE(rc::check([] {
        const Q quantity = *rc::gen::elementOf(all_quantities);
        const UnitSystem system = *rc::gen::elementOf(systems);
        const int decimals = *rc::gen::inRange(0, 4);
        std::string text = std::to_string(*rc::gen::inRange(1, 1000));
        if (decimals > 0) {
            for (int i = 1; i < decimals; ++i) {
                text += static_cast<char>('0' + *rc::gen::inRange(0, 10));
            }
            text.insert(text.size() - static_cast<std::size_t>(decimals - 1), ".");
            text += static_cast<char>('1' + *rc::gen::inRange(0, 9));
        }
        const auto value = parse_quantity(quantity, text, system);
        RC_ASSERT(value.has_value());
        RC_ASSERT(print_number(quantity, *value, system) == text);
    }));
}

TEST_CASE("any bytes are read or refused") {
    REQUIRE(rc::check([] {
        const auto text = *rc::gen::container<std::string>(
            rc::gen::oneOf(rc::gen::arbitrary<char>(),
                           rc::gen::elementOf(std::string("0123456789.,/-+ eE'\"inftbar\xc2\xb0"))));
        const auto value = parse_quantity(*rc::gen::elementOf(all_quantities), text, UnitSystem::us);
        RC_ASSERT((value ? std::isfinite(*value) : !value.error().text().empty()));
    }));
}

TEST_CASE("wire is written as a gauge or an area, and shown as the system has it") {
    const auto mm2 = [](std::string_view text, UnitSystem system) {
        const auto read = parse_quantity(Quantity::wire_area, text, system);
        INFO(text);
        REQUIRE(read);
        return *read;
    };
    for (const char* text : {"18 AWG", "awg 18", "18AWG", "#18", "18 ga."}) {
        CHECK(mm2(text, UnitSystem::metric) == Approx(0.8230).epsilon(0.0005));
    }
    CHECK(mm2("18", UnitSystem::us) == mm2("18 AWG", UnitSystem::metric));
    CHECK(mm2("0.75", UnitSystem::us) == 0.75);
    CHECK(mm2("18", UnitSystem::metric) == 18.0);
    CHECK(mm2("0,75 mm\u00b2", UnitSystem::us) == 0.75);
    CHECK(mm2("2.5 sq mm", UnitSystem::metric) == 2.5);
    CHECK(mm2("0000 AWG", UnitSystem::us) == mm2("4/0", UnitSystem::us));
    CHECK(mm2("4/0 AWG", UnitSystem::metric) == Approx(107.2).epsilon(0.001));

    CHECK(print_quantity(Quantity::wire_area, mm2("18 AWG", UnitSystem::us), UnitSystem::us) == "18 AWG");
    CHECK(print_number(Quantity::wire_area, mm2("2/0 AWG", UnitSystem::us), UnitSystem::us) == "2/0 AWG");
    CHECK(print_quantity(Quantity::wire_area, 0.75, UnitSystem::us) == "0.75 mm2");
    CHECK(print_quantity(Quantity::wire_area, 0.75, UnitSystem::metric) == "0.75 mm2");
    CHECK(print_number(Quantity::wire_area, 2.5, UnitSystem::metric) == "2.5");

    for (const char* text : {"41 AWG", "5/0 AWG", "-1 AWG", "18.5 AWG", "AWG", "x AWG", "18 A"}) {
        INFO(text);
        const auto read = parse_quantity(Quantity::wire_area, text, UnitSystem::us);
        REQUIRE_FALSE(read);
        CHECK(read.error().remedy.find("AWG") != std::string::npos);
    }
}
