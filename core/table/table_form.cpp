// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/table_form.hpp"

#include "core/table/board_image.hpp"
#include "core/table/c_header.hpp"
#include "core/table/csv.hpp"
#include "core/table/image_form.hpp"
#include "core/table/json.hpp"
#include "core/table/vcd.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace gasp {

namespace {

Result<BoardId> only_board(const Show& show) {
    if (show.rig.boards.size() == 1) {
        return show.rig.boards.front().id;
    }
    std::string names;
    for (const Board& board : show.rig.boards) {
        names += fmt::format("{}\"{}\"", names.empty() ? "" : ", ", board.name);
    }
    return fail(fmt::format("a board image is of one board, and the show has {}", show.rig.boards.size()), {},
                names.empty() ? std::string("Give the show its board") : "Choose one of " + names);
}

Result<std::string> image_text(const Show& show, std::span<const EventTable> tables, BoardId board) {
    const Result<BoardImage> image = image_of(show, tables, board);
    return image ? Result<std::string>(write_image(*image)) : tl::unexpected(image.error());
}

}  // namespace

std::span<const FormInfo> table_forms() {
    static constexpr std::array forms{
        FormInfo{TableForm::csv, "csv", "CSV table", ".csv", false, true},
        FormInfo{TableForm::c_header, "c", "C header", ".h", false, true},
        FormInfo{TableForm::board_image, "bin", "Board image", ".bin", true, false},
        FormInfo{TableForm::vcd, "vcd", "VCD waveform", ".vcd", false, true},
        FormInfo{TableForm::json, "json", "JSON table", ".json", false, true},
    };
    return forms;
}

const FormInfo& info_of(TableForm form) {
    return *std::ranges::find(table_forms(), form, &FormInfo::form);
}

Result<std::string> write_form(TableForm form, const Show& show, std::span<const EventTable> tables,
                               std::optional<BoardId> board, bool comments) {
    if (form == TableForm::board_image) {
        const Result<BoardId> one = board ? Result<BoardId>(*board) : only_board(show);
        return one.and_then([&](BoardId id) { return image_text(show, tables, id); });
    }
    std::vector<EventTable> parts;
    if (board) {
        const Board* found = find(show, *board);
        for (const EventTable& table : tables) {
            parts.push_back(of_board(table, found != nullptr ? found->name : ""));
        }
        tables = parts;
    }
    switch (form) {
        case TableForm::c_header:
            return write_c_header(tables);
        case TableForm::vcd:
            return write_vcd(tables);
        case TableForm::json:
            return write_json(tables);
        default:
            return write_csv(tables, {.comments = comments});
    }
}

TableForm form_of(std::string_view bytes) {
    if (bytes.starts_with(image_magic)) {
        return TableForm::board_image;
    }
    if (bytes.starts_with("/*")) {
        return TableForm::c_header;
    }
    if (bytes.starts_with("$")) {
        return TableForm::vcd;
    }
    return bytes.starts_with("{") ? TableForm::json : TableForm::csv;
}

Result<std::vector<EventTable>> read_form(std::string_view bytes, std::string_view name) {
    switch (form_of(bytes)) {
        case TableForm::c_header:
            return read_c_header(bytes, name);
        case TableForm::json:
            return read_json(bytes, name);
        case TableForm::csv:
            return read_csv(bytes, name);
        default:
            return fail("the file says nothing of its channels", std::string(name),
                        "Give the table as csv, c or json");
    }
}

std::string file_name_of(std::string_view name) {
    constexpr std::string_view refused = "/\\:*?\"<>|";
    std::string result;
    for (const char c : name) {
        const bool plain =
            static_cast<unsigned char>(c) >= 0x20 && c != 0x7f && refused.find(c) == std::string_view::npos;
        result += plain ? c : '_';
    }
    constexpr std::size_t longest = 80;  // bytes, of the 255 that file systems take
    result = result.substr(0, longest);
    return result.empty() || result.starts_with('.') || result.starts_with('-') ? "_" + result : result;
}

}  // namespace gasp
