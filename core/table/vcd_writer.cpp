// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/c_names.hpp"
#include "core/table/table_head.hpp"
#include "core/table/vcd.hpp"

#include <fmt/compile.h>
#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace gasp {

namespace {

/// The identifier codes of a dump: its printable characters without the space, the shortest first.
std::string code_of(std::size_t number) {
    constexpr std::size_t first = '!';
    constexpr std::size_t count = '~' - '!' + 1;
    std::string code;
    do {
        code += static_cast<char>(first + number % count);
        number /= count;
    } while (number-- > 0);
    return code;
}

struct ChannelCodes {
    std::string output;
    std::string load;
};

/// The codes of one sequence's wires.
struct SequenceCodes {
    std::string running;
    std::vector<ChannelCodes> channels;
};

struct Change {
    Micros time{0};
    const std::string* code = nullptr;
    bool value = false;
};

std::string wire(const std::string& code, std::string_view name) {
    return fmt::format("$var wire 1 {} {} $end\n", code, name);
}

/// Appends the wires of a sequence, each channel in a scope of its own.
SequenceCodes declare(std::string& text, const EventTable& table, const std::string& name,
                      std::size_t& next) {
    SequenceCodes codes{code_of(next++), {}};
    text += fmt::format("$scope module {} $end\n", name);
    text += wire(codes.running, "running");
    CNames names;
    for (const TableChannel& channel : table.channels) {
        const ChannelCodes& own = codes.channels.emplace_back(ChannelCodes{code_of(next), code_of(next + 1)});
        next += 2;
        text += fmt::format("$scope module {} $end\n", "ch_" + names.give(channel.name));
        text += wire(own.output, "output") + wire(own.load, "load") + "$upscope $end\n";
    }
    text += "$upscope $end\n";
    return codes;
}

/// How everything stands at 0, before any event.
std::string first_values(std::span<const EventTable> tables, std::span<const SequenceCodes> codes) {
    std::string text = "#0\n$dumpvars\n";
    for (std::size_t place = 0; place < tables.size(); ++place) {
        text += "1" + codes[place].running + "\n";
        for (std::size_t channel = 0; channel < tables[place].channels.size(); ++channel) {
            const bool load = load_on(tables[place].channels[channel].contact, false);
            text += "0" + codes[place].channels[channel].output + "\n";
            text += (load ? "1" : "0") + codes[place].channels[channel].load + "\n";
        }
    }
    return text + "$end\n";
}

/// The changes of all sequences on one time axis.
std::vector<Change> changes_of(std::span<const EventTable> tables, std::span<const SequenceCodes> codes) {
    std::vector<Change> changes;
    for (std::size_t place = 0; place < tables.size(); ++place) {
        const EventTable& table = tables[place];
        for (const EventRow& row : table.changes()) {
            const ChannelCodes& own = codes[place].channels[row.channel];
            changes.push_back({row.time, &own.output, row.driven});
            changes.push_back(
                {row.time, &own.load, load_on(table.channels[row.channel].contact, row.driven)});
        }
        changes.push_back({table.length, &codes[place].running, false});
    }
    std::ranges::stable_sort(changes, {}, &Change::time);
    return changes;
}

}  // namespace

std::string write_vcd(std::span<const EventTable> tables) {
    std::string text;
    for (const std::string& line : head_lines(tables, "$")) {
        text += "$comment " + line + " $end\n";
    }
    text += "$timescale 1 us $end\n";
    std::vector<SequenceCodes> codes;
    CNames names;
    std::size_t next = 0;
    for (const EventTable& table : tables) {
        codes.push_back(declare(text, table, "seq_" + names.give(table.sequence), next));
    }
    text += "$enddefinitions $end\n" + first_values(tables, codes);
    Micros now{0};
    for (const Change& change : changes_of(tables, codes)) {
        if (change.time != now) {
            now = change.time;
            fmt::format_to(std::back_inserter(text), FMT_COMPILE("#{}\n"), now.count());
        }
        text += change.value ? '1' : '0';
        text += *change.code;
        text += '\n';
    }
    return text;
}

}  // namespace gasp
