// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/unit_tables.hpp"

#include "core/units/number.hpp"

#include <algorithm>
#include <array>
#include <cassert>

namespace gasp {
namespace {

// Exact by definition: NIST SP 811 (2008), appendix B; gallon: NIST Handbook 44, appendix C.
constexpr double mm_per_in = 25.4;
constexpr double kg_per_lb = 0.45359237;
constexpr double n_per_kgf = 9.80665;
constexpr double n_per_lbf = kg_per_lb * n_per_kgf;
constexpr double kpa_per_psi = n_per_lbf / (mm_per_in * mm_per_in) * 1000;
constexpr double l_per_cu_in = 0.016387064;
constexpr double l_per_cu_ft = 28.316846592;
constexpr double l_per_us_gal = 3.785411784;
constexpr double l_per_imperial_gal = 4.54609;
constexpr double rad_per_deg = 3.14159265358979323846 / 180;

constexpr std::array small_length{Unit{"mm", 1, 0}, Unit{"cm", 10, 0}, Unit{"m", 1000, 0},
                                  Unit{"in", mm_per_in, 0}, Unit{"ft", 12 * mm_per_in, 0}};
constexpr std::array length{Unit{"m", 1, 0}, Unit{"cm", 0.01, 0}, Unit{"mm", 0.001, 0}, Unit{"ft", 0.3048, 0},
                            Unit{"in", 0.0254, 0}};
constexpr std::array gauge_pressure{
    Unit{"kPa", 1, 0},    Unit{"bar", 100, 0},  Unit{"psi", kpa_per_psi, 0},       Unit{"MPa", 1000, 0},
    Unit{"mbar", 0.1, 0}, Unit{"Pa", 0.001, 0}, Unit{"kgf/cm2", 10 * n_per_kgf, 0}};
constexpr std::array volume{Unit{"L", 1, 0},
                            Unit{"mL", 0.001, 0},
                            Unit{"cm3", 0.001, 0},
                            Unit{"m3", 1000, 0},
                            Unit{"gal", l_per_us_gal, 0},
                            Unit{"imp gal", l_per_imperial_gal, 0},
                            Unit{"cu in", l_per_cu_in, 0},
                            Unit{"cu ft", l_per_cu_ft, 0}};
// A standard cubic foot is taken as one cubic foot of free air. Makers mean 14.5 or 14.7 psi absolute and 60
// to 70 F by it, which is up to 3 % more air than ISO 8778's; their sheets rarely say.
constexpr std::array free_air_flow{Unit{"L/min", 1, 0}, Unit{"L/s", 60, 0}, Unit{"m3/min", 1000, 0},
                                   Unit{"m3/h", 1000.0 / 60, 0}, Unit{"scfm", l_per_cu_ft, 0}};
constexpr std::array free_air{Unit{"L", 1, 0}, Unit{"m3", 1000, 0}, Unit{"cu ft", l_per_cu_ft, 0}};
constexpr std::array mass{Unit{"kg", 1, 0}, Unit{"g", 0.001, 0}, Unit{"lb", kg_per_lb, 0},
                          Unit{"oz", kg_per_lb / 16, 0}};
constexpr std::array force{Unit{"N", 1, 0}, Unit{"kN", 1000, 0}, Unit{"lbf", n_per_lbf, 0},
                           Unit{"kgf", n_per_kgf, 0}};
constexpr std::array angle{Unit{"\u00b0", 1, 0}, Unit{"rad", 1 / rad_per_deg, 0}};
constexpr std::array temperature{Unit{"\u00b0C", 1, 0}, Unit{"\u00b0F", 5.0 / 9, -160.0 / 9},
                                 Unit{"K", 1, -273.15}};
constexpr std::array time_ms{Unit{"ms", 1, 0}, Unit{"s", 1000, 0}, Unit{"us", 0.001, 0},
                             Unit{"min", 60'000, 0}};
constexpr std::array time_s{Unit{"s", 1, 0}, Unit{"ms", 0.001, 0}, Unit{"min", 60, 0}, Unit{"h", 3600, 0}};
constexpr std::array frequency{Unit{"Hz", 1, 0}, Unit{"/min", 1.0 / 60, 0}};
constexpr std::array current{Unit{"A", 1, 0}, Unit{"mA", 0.001, 0}};
constexpr std::array voltage{Unit{"V", 1, 0}, Unit{"mV", 0.001, 0}};
constexpr std::array power{Unit{"W", 1, 0}, Unit{"kW", 1000, 0}};
constexpr std::array sound_level{Unit{"dB", 1, 0}};
constexpr std::array percent{Unit{"%", 1, 0}};
constexpr std::array small_volume{Unit{"mL", 1, 0}, Unit{"cm3", 1, 0}, Unit{"L", 1000, 0},
                                  Unit{"cu in", 1000 * l_per_cu_in, 0},
                                  Unit{"fl oz", 1000 * l_per_us_gal / 128, 0}};
// A flow coefficient says nothing of the critical ratio, so that its conductance is a rule and no definition:
// teaching texts on pneumatics take 4 L/(s bar) for a Cv of 1 at b about 0.3, the choked-flow equation of
// American practice 3.4. Kv is 0.865 Cv.
constexpr double l_s_bar_per_cv = 4.0;
constexpr double kv_per_cv = 0.865;
constexpr std::array conductance{Unit{"L/(s bar)", 1, 0}, Unit{"Cv", l_s_bar_per_cv, 0},
                                 Unit{"Kv", l_s_bar_per_cv / kv_per_cv, 0}, Unit{"m3/(s Pa)", 1e8, 0}};
constexpr std::array stiffness{Unit{"N/mm", 1, 0}, Unit{"N/m", 0.001, 0},
                               Unit{"lbf/in", n_per_lbf / mm_per_in, 0}};
constexpr std::array damping{Unit{"N s/m", 1, 0}, Unit{"lbf s/in", n_per_lbf / mm_per_in * 1000, 0}};
constexpr std::array speed{Unit{"m/s", 1, 0}, Unit{"mm/s", 0.001, 0}, Unit{"ft/s", 0.3048, 0},
                           Unit{"in/s", 0.0254, 0}};
constexpr std::array energy{Unit{"J", 1, 0}, Unit{"ft lbf", 0.3048 * n_per_lbf, 0},
                            Unit{"in lbf", 0.0254 * n_per_lbf, 0}};
// Gauges have no scale: core/units/gauge.hpp reads and prints them.
constexpr std::array wire_area{Unit{"mm2", 1, 0}, Unit{"", 1, 0}};
constexpr std::array charge{Unit{"Ah", 1, 0}, Unit{"mAh", 0.001, 0}};
constexpr std::array number{Unit{"", 1, 0}};

struct Quantities {
    Quantity quantity;
    std::string_view name;  ///< as in "not a unit of length"
    std::span<const Unit> units;
    std::string_view metric;
    std::string_view us;
};

// In the order of the enumerators.
constexpr std::array<Quantities, 27> quantities{{
    {Quantity::small_length, "length", small_length, "mm", "in"},
    {Quantity::length, "length", length, "m", "ft"},
    {Quantity::gauge_pressure, "gauge pressure", gauge_pressure, "bar", "psi"},
    {Quantity::volume, "volume", volume, "L", "gal"},
    {Quantity::free_air_flow, "flow of free air", free_air_flow, "L/min", "scfm"},
    {Quantity::free_air, "free air", free_air, "L", "cu ft"},
    {Quantity::mass, "mass", mass, "kg", "lb"},
    {Quantity::force, "force", force, "N", "lbf"},
    {Quantity::angle, "angle", angle, "\u00b0", "\u00b0"},
    {Quantity::temperature, "temperature", temperature, "\u00b0C", "\u00b0F"},
    {Quantity::time_ms, "time", time_ms, "ms", "ms"},
    {Quantity::time_s, "time", time_s, "s", "s"},
    {Quantity::frequency, "frequency", frequency, "Hz", "Hz"},
    {Quantity::current, "current", current, "A", "A"},
    {Quantity::voltage, "voltage", voltage, "V", "V"},
    {Quantity::power, "power", power, "W", "W"},
    {Quantity::sound_level, "sound level", sound_level, "dB", "dB"},
    {Quantity::percent, "share", percent, "%", "%"},
    {Quantity::small_volume, "volume", small_volume, "mL", "cu in"},
    {Quantity::conductance, "conductance", conductance, "L/(s bar)", "Cv"},
    {Quantity::stiffness, "spring rate", stiffness, "N/mm", "lbf/in"},
    {Quantity::damping, "friction by speed", damping, "N s/m", "lbf s/in"},
    {Quantity::speed, "speed", speed, "m/s", "ft/s"},
    {Quantity::energy, "energy", energy, "J", "ft lbf"},
    {Quantity::wire_area, "wire size", wire_area, "mm2", ""},
    {Quantity::charge, "charge", charge, "Ah", "Ah"},
    {Quantity::number, "count or ratio", number, "", ""},
}};

constexpr bool in_order_of_enumerators() {
    for (std::size_t i = 0; i < quantities.size(); ++i) {
        if (static_cast<std::size_t>(quantities[i].quantity) != i) {
            return false;
        }
    }
    return true;
}
static_assert(in_order_of_enumerators());

const Quantities& about(Quantity quantity) {
    const auto index = static_cast<std::size_t>(quantity);
    assert(index < quantities.size());
    return quantities[index];
}

struct Spelling {
    std::string_view written;
    std::string_view name;
};

// Only where a quantity has no unit of that very name: "lb" stays a mass, and is lbf where a force is asked
// for.
constexpr std::array<Spelling, 68> spellings{{
    {"\"", "in"},
    {"inch", "in"},
    {"inches", "in"},
    {"'", "ft"},
    {"foot", "ft"},
    {"feet", "ft"},
    {"metre", "m"},
    {"metres", "m"},
    {"meter", "m"},
    {"meters", "m"},
    {"psig", "psi"},
    {"psi(g)", "psi"},
    {"lb/in2", "psi"},
    {"lbf/in2", "psi"},
    {"barg", "bar"},
    {"bar(g)", "bar"},
    {"kPag", "kPa"},
    {"kPa(g)", "kPa"},
    {"kg/cm2", "kgf/cm2"},
    {"litre", "L"},
    {"litres", "L"},
    {"liter", "L"},
    {"liters", "L"},
    {"cc", "cm3"},
    {"cucm", "cm3"},
    {"dm3", "L"},
    {"gallon", "gal"},
    {"gallons", "gal"},
    {"USgal", "gal"},
    {"in3", "cuin"},
    {"ft3", "cuft"},
    {"scf", "cuft"},
    {"cf", "cuft"},
    {"cfm", "scfm"},
    {"cuft/min", "scfm"},
    {"ft3/min", "scfm"},
    {"lpm", "L/min"},
    {"NL/min", "L/min"},
    {"L/minANR", "L/min"},
    {"Nm3/h", "m3/h"},
    {"lbs", "lb"},
    {"lb", "lbf"},
    {"lbs", "lbf"},
    {"pound", "lb"},
    {"pounds", "lb"},
    {"ounce", "oz"},
    {"ounces", "oz"},
    {"kg", "kgf"},
    {"degree", "deg"},
    {"degrees", "deg"},
    {"C", "degC"},
    {"F", "degF"},
    {"sec", "s"},
    {"second", "s"},
    {"seconds", "s"},
    {"hour", "h"},
    {"hours", "h"},
    {"minutes", "min"},
    {"amp", "A"},
    {"amps", "A"},
    {"percent", "%"},
    {"dm3/(s bar)", "L/(s bar)"},
    {"L/s/bar", "L/(s bar)"},
    {"L/sbar", "L/(s bar)"},
    {"ftlb", "ftlbf"},
    {"inlb", "inlbf"},
    {"lb/in", "lbf/in"},
    {"sq mm", "mm2"},
}};

const Unit* find_named(std::span<const Unit> units, std::string_view name) {
    const auto unit = std::ranges::find_if(units, [&](const Unit& u) { return folded(u.name) == name; });
    return unit != units.end() ? &*unit : nullptr;
}

}  // namespace

std::string folded(std::string_view text) {
    std::string plain = plain_text(text);
    std::erase_if(plain, [](char c) { return c == ' ' || c == '\t' || c == '.'; });
    std::ranges::transform(plain, plain.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    return plain;
}

std::span<const Unit> units_of(Quantity quantity) {
    return about(quantity).units;
}

std::string_view name_of(Quantity quantity) {
    return about(quantity).name;
}

const Unit* find_unit(Quantity quantity, std::string_view written) {
    const std::string wanted = folded(written);
    if (const Unit* unit = find_named(units_of(quantity), wanted)) {
        return unit;
    }
    for (const Spelling& spelling : spellings) {
        if (folded(spelling.written) == wanted) {
            if (const Unit* unit = find_named(units_of(quantity), folded(spelling.name))) {
                return unit;
            }
        }
    }
    return nullptr;
}

const Unit& shown_unit(Quantity quantity, UnitSystem system) {
    const Quantities& row = about(quantity);
    const std::string_view name = system == UnitSystem::us ? row.us : row.metric;
    const auto unit = std::ranges::find(row.units, name, &Unit::name);
    assert(unit != row.units.end());
    return *unit;
}

}  // namespace gasp
