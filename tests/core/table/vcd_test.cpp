// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/vcd.hpp"

#include "tests/core/table/random_tables.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <sstream>

using namespace gasp;

TEST_CASE("a waveform has a wire for each output and its load, and one that is 1 while the sequence runs") {
    EventTable table;
    table.show = "Keeper";
    table.sequence = "night";
    table.length = Micros{40'000};
    TableChannel lock;
    lock.name = "the $end lock";
    lock.contact = Contact::normally_closed;
    table.channels.push_back(lock);
    add_rest(table, Micros{0});
    table.rows.push_back({Micros{0}, 0, true});
    table.rows.push_back({Micros{12'500}, 0, false});
    add_rest(table, table.length);
    const std::string text = write_vcd(std::vector{table});
    CHECK(text.substr(text.find("$timescale")) ==
          "$timescale 1 us $end\n"
          "$scope module seq_night $end\n"
          "$var wire 1 ! running $end\n"
          "$scope module ch_the_end_lock $end\n"
          "$var wire 1 \" output $end\n"
          "$var wire 1 # load $end\n"
          "$upscope $end\n"
          "$upscope $end\n"
          "$enddefinitions $end\n"
          "#0\n$dumpvars\n1!\n0\"\n1#\n$end\n"
          "1\"\n0#\n"
          "#12500\n0\"\n1#\n"
          "#40000\n0!\n");
}

TEST_CASE("no name ends a comment of a waveform early") {
    REQUIRE(rc::check("for any show", [] {
        std::istringstream text(write_vcd(random_tables(random_show())));
        std::string line;
        while (std::getline(text, line) && line.starts_with("$comment ")) {
            RC_ASSERT(line.find("$end") == line.size() - 4);
        }
        RC_ASSERT(line == "$timescale 1 us $end");
    }));
}
