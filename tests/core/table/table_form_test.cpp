// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/table_form.hpp"

#include "tests/core/table/random_tables.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

using namespace gasp;

TEST_CASE("a file's first bytes tell its form, and every form but image and waveform reads back") {
    REQUIRE(rc::check("for any show", [] {
        Show show = random_show(Names::utf8);
        const std::vector<EventTable> tables = random_tables(show);
        for (const TableForm form : {TableForm::csv, TableForm::c_header, TableForm::vcd, TableForm::json}) {
            const Result<std::string> text = write_form(form, show, tables, std::nullopt);
            RC_ASSERT(text.has_value());
            RC_ASSERT(form_of(*text) == form);
            const Result<std::vector<EventTable>> read = read_form(*text, "t");
            RC_ASSERT(read.has_value() == (form != TableForm::vcd));
            if (read) {
                RC_ASSERT(*read == tables);
            }
        }
    }));
}

TEST_CASE("a board's part of a table has its channels alone") {
    REQUIRE(rc::check("for any show", [] {
        const Show show = random_show(Names::utf8);
        const std::vector<EventTable> tables = random_tables(show);
        for (const Board& board : show.rig.boards) {
            const auto text = write_form(TableForm::csv, show, tables, board.id);
            const std::vector<EventTable> read = read_form(text.value(), "t").value();
            RC_ASSERT(read.size() == tables.size());
            for (std::size_t index = 0; index < tables.size(); ++index) {
                RC_ASSERT(read[index] == of_board(tables[index], board.name));
            }
        }
    }));
}

TEST_CASE("a board image of a show with several boards wants one of them") {
    Show show;
    show.rig.boards.resize(2);
    show.rig.boards[0].name = "quay";
    show.rig.boards[1].name = "pier";
    const Result<std::string> image = write_form(TableForm::board_image, show, {}, std::nullopt);
    REQUIRE_FALSE(image);
    CHECK(image.error().remedy == "Choose one of \"quay\", \"pier\"");
}

TEST_CASE("a file is named after its board without what a path would take otherwise") {
    CHECK(file_name_of("Deck board") == "Deck board");
    CHECK(file_name_of("../../etc/x") == "_.._.._etc_x");
    CHECK(file_name_of("a/b\\c:d\n\"e\"") == "a_b_c_d__e_");
    CHECK(file_name_of("") == "_");
    CHECK(file_name_of("-rf") == "_-rf");
    CHECK(file_name_of(std::string(500, 'n')).size() == 80);
}
