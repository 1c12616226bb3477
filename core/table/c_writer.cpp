// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/c_header.hpp"
#include "core/table/c_names.hpp"
#include "core/table/table_head.hpp"

#include <fmt/compile.h>
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <limits>
#include <numeric>

namespace gasp {

namespace {

constexpr std::string_view opening = R"(#ifndef {0}
#define {0}

#include <stdint.h>

#ifdef __AVR__
#include <avr/pgmspace.h> /* read with memcpy_P() */
#define GASPWORKS_IN_FLASH PROGMEM
#else
#define GASPWORKS_IN_FLASH
#endif

#ifdef __cplusplus
#define GASPWORKS_CHECK(claim, otherwise) static_assert(claim, otherwise)
#else
#define GASPWORKS_CHECK(claim, otherwise) _Static_assert(claim, otherwise)
#endif

typedef {1} gaspworks_time;
typedef {2} gaspworks_channel;

/* One change of one channel, or the end of the sequence, at which every channel goes to rest. */
typedef struct {{
    gaspworks_time time;       /* from the start of the sequence, in steps of its GASPWORKS_STEP_US_... */
    gaspworks_channel channel; /* GASPWORKS_CHANNEL_..., or GASPWORKS_END */
    uint8_t driven;            /* 1: the output is driven, away from its rest */
}} gaspworks_event;

#define GASPWORKS_END {3}
)";

constexpr std::string_view closing = R"(
#endif
)";

bool same_channels(std::span<const EventTable> tables) {
    return std::ranges::all_of(
        tables, [&](const EventTable& table) { return table.channels == tables.front().channels; });
}

/// The step of a sequence's times: the largest of which every change is a multiple.
std::int64_t step_of(const EventTable& table) {
    std::int64_t step = 0;
    for (const TableChannel& channel : table.channels) {
        step = std::gcd(step, channel.tick.count());
    }
    return std::max<std::int64_t>(step, 1);
}

std::int64_t steps_up(Micros time, std::int64_t step) {
    return (time.count() + step - 1) / step;
}

bool fits_32_bits(std::span<const EventTable> tables) {
    return std::ranges::all_of(tables, [](const EventTable& table) {
        return steps_up(table.length, step_of(table)) <= std::numeric_limits<std::uint32_t>::max();
    });
}

std::string guard(std::span<const EventTable> tables) {
    CNames names;
    const std::vector<std::string> boards = boards_of(tables);
    return fmt::format("GASPWORKS_TABLE_{}_{}_H",
                       upper_case(names.give(tables.empty() ? "" : tables.front().show)),
                       upper_case(names.give(boards.size() == 1 ? boards.front() : "boards")));
}

/// "static const uint8_t gaspworks_NAME[] GASPWORKS_IN_FLASH = {1, 2};"
template <class Value>
std::string list(std::string_view type, std::string_view name, const EventTable& table, Value value) {
    std::vector<std::uint64_t> values;
    std::ranges::transform(table.channels, std::back_inserter(values), value);
    return fmt::format("static const {} gaspworks_{}[GASPWORKS_CHANNELS] GASPWORKS_IN_FLASH = {{{}}};\n",
                       type, name, fmt::join(values, ", "));
}

std::string channel_lines(const EventTable& table) {
    std::string text = fmt::format("\n#define GASPWORKS_CHANNELS {}\n", table.channels.size());
    CNames names;
    for (std::size_t place = 0; place < table.channels.size(); ++place) {
        text += fmt::format("#define GASPWORKS_CHANNEL_{} {}\n",
                            upper_case(names.give(table.channels[place].name)), place);
    }
    if (!table.channels.empty()) {
        text += "\n/* Of each channel: its output as counted on the board, from 1; 0 where it has none. */\n";
        text +=
            list("uint32_t", "output", table, [](const TableChannel& one) { return one.output.value_or(0); });
        text += "/* Of each channel: 1 where its load has power at rest. */\n";
        text += list("uint8_t", "load_at_rest", table,
                     [](const TableChannel& one) { return load_on(one.contact, false) ? 1U : 0U; });
    }
    return text;
}

void add_sequence(std::string& text, const EventTable& table, const std::string& name) {
    const std::int64_t step = step_of(table);
    const std::span<const EventRow> changes = table.changes();
    const std::string upper = upper_case(name);
    const auto out = std::back_inserter(text);
    fmt::format_to(out, "\n#define GASPWORKS_STEP_US_{} {}u\n", upper, step);
    fmt::format_to(out, "#define GASPWORKS_LENGTH_{} {}u /* steps */\n", upper, steps_up(table.length, step));
    fmt::format_to(out, "#define GASPWORKS_EVENTS_{} {}u /* without the end */\n", upper, changes.size());
    fmt::format_to(out, "static const gaspworks_event gaspworks_events_{}[] GASPWORKS_IN_FLASH = {{\n", name);
    for (const EventRow& row : changes) {
        fmt::format_to(out, FMT_COMPILE("    {{{}u, {}u, {}u}},\n"), row.time.count() / step, row.channel,
                       row.driven ? 1 : 0);
    }
    fmt::format_to(out, "    {{GASPWORKS_LENGTH_{}, GASPWORKS_END, 0u}},\n}};\n", upper);
    fmt::format_to(out,
                   "GASPWORKS_CHECK(sizeof gaspworks_events_{0} / sizeof gaspworks_events_{0}[0] == "
                   "GASPWORKS_EVENTS_{1} + 1,\n                \"events are missing, or too many\");\n",
                   name, upper);
}

}  // namespace

Result<std::string> write_c_header(std::span<const EventTable> tables) {
    if (!same_channels(tables)) {
        return fail("the sequences do not have the same channels", {}, "Write one header for each sequence");
    }
    std::string text =
        "/* An event table for flash. Written by a program: change the show and write it again. */\n";
    for (const std::string& line : head_lines(tables, "*/?")) {
        text += "/* " + line + " */\n";
    }
    const std::size_t channels = tables.empty() ? 0 : tables.front().channels.size();
    const bool few = channels < 255;
    text += fmt::format(fmt::runtime(opening), guard(tables), fits_32_bits(tables) ? "uint32_t" : "uint64_t",
                        few ? "uint8_t" : "uint32_t", few ? "255u" : "4294967295u");
    text += tables.empty() ? "" : channel_lines(tables.front());
    CNames names;
    for (const EventTable& table : tables) {
        add_sequence(text, table, names.give(table.sequence));
    }
    return text + std::string(closing);
}

}  // namespace gasp
