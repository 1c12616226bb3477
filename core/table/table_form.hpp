// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/table/event_table.hpp"
#include "core/units/error.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

/// The forms in which a table is handed over.
enum class TableForm : std::uint8_t { csv, c_header, board_image, vcd, json };

struct FormInfo {
    TableForm form;
    std::string_view key;     ///< as the command line names it: "csv"
    std::string_view label;   ///< as the screen does
    std::string_view suffix;  ///< of its files: ".csv"
    bool one_board;           ///< a file of it is of one board
    bool text;                ///< a person can read it
};

[[nodiscard]] std::span<const FormInfo> table_forms();
[[nodiscard]] const FormInfo& info_of(TableForm form);

/// Writes tables of a show in a form; with a board, its part of them alone. Error: what the form cannot hold;
/// a form of one board without one, unless the show has just one.
[[nodiscard]] Result<std::string> write_form(TableForm form, const Show& show,
                                             std::span<const EventTable> tables, std::optional<BoardId> board,
                                             bool comments = true);

/// The form of a file, by its first bytes.
[[nodiscard]] TableForm form_of(std::string_view bytes);

/// The tables of a file in a form that says all of them by itself: CSV, C header or JSON. A board image needs
/// its show beside it (board_image.hpp); a VCD waveform is for viewers. Error: `where` names the file.
[[nodiscard]] Result<std::vector<EventTable>> read_form(std::string_view bytes, std::string_view name);

/// A name of a file for what a board gets: its name without what a folder's or a shell's name may not have.
[[nodiscard]] std::string file_name_of(std::string_view name);

}  // namespace gasp
