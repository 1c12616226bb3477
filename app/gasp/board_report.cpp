// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/board_actions.hpp"
#include "app/gasp/json.hpp"
#include "app/gasp/text_grid.hpp"
#include "core/link/serial_port.hpp"

#include <fmt/format.h>

#include <array>

namespace gasp {

namespace {

using Align = TextGrid::Align;

constexpr std::array<std::pair<BoardInput, std::string_view>, 5> input_words{
    {{BoardInput::trigger, "trigger"},
     {BoardInput::output_enable, "output-enable"},
     {BoardInput::rearm, "re-arm"},
     {BoardInput::hold_to_run, "hold-to-run"},
     {BoardInput::start_line, "start line"}}};

Json inputs_json(std::uint8_t bits) {
    Json names = Json::array();
    for (const auto& [input, name] : input_words) {
        if ((bits & static_cast<std::uint8_t>(input)) != 0) {
            names.push_back(name);
        }
    }
    return names;
}

std::string inputs_text(std::uint8_t bits) {
    std::string text;
    for (const auto& [input, name] : input_words) {
        if ((bits & static_cast<std::uint8_t>(input)) != 0) {
            text += fmt::format("{}{}", text.empty() ? "" : ", ", name);
        }
    }
    return text.empty() ? "none" : text;
}

std::string version_text(std::uint16_t version) {
    return fmt::format("{}.{}", version >> 8U, version & 0xFFU);
}

Json json_of(const BoardIdentity& board) {
    Json json{{"chip", board.chip},
              {"player", version_text(board.player_version)},
              {"outputs", board.outputs},
              {"inputs", inputs_json(board.inputs)},
              {"store_bytes", board.store},
              {"power_ups", board.power_ups},
              {"table", Json()}};
    if (board.image == 1) {
        json["table"] = Json{{"bytes", board.image_bytes},
                             {"crc", fmt::format("{:08x}", board.image_crc)},
                             {"revision", fmt::format("{:08x}", board.revision)},
                             {"board_id", board.board_id}};
    } else {
        json["no_table_because"] = reason_words(board.image);
    }
    return json;
}

std::string text_of(const BoardIdentity& board) {
    TextGrid grid({Align::left, Align::left});
    grid.add({"chip", fmt::format("{}, player {}", board.chip, version_text(board.player_version))});
    grid.add({"outputs", fmt::to_string(board.outputs)});
    grid.add({"inputs", inputs_text(board.inputs)});
    grid.add({"room for tables", fmt::format("{} bytes", board.store)});
    grid.add({"table", board.image == 1 ? fmt::format("{} bytes, board {}, revision {:08x}",
                                                      board.image_bytes, board.board_id, board.revision)
                                        : fmt::format("none: {}", reason_words(board.image))});
    grid.add({"power-ups", fmt::to_string(board.power_ups)});
    return grid.text();
}

/// Whether its table is the one a show would give it.
Result<void> compare_with_show(const BoardIdentity& board, const BoardOptions& options, Outcome& outcome,
                               Json& json) {
    const Result<BoardImage> image = image_for(options, options.show, outcome);
    if (!image) {
        return tl::unexpected(image.error());
    }
    const std::string bytes = write_image(*image);
    const bool same = board.image == 1 && board.image_bytes == bytes.size() &&
                      board.revision == image->revision && board.board_id == image->board.value;
    json["table_of_show"] = same;
    outcome.text += same ? "its table is the show's\n" : "its table is not the show's: load it\n";
    outcome.code = same ? outcome.code : ExitCode::stop_findings;
    return {};
}

std::string up_text(std::uint32_t seconds) {
    return fmt::format("{}:{:02}:{:02}", seconds / 3600, seconds / 60 % 60, seconds % 60);
}

std::string outputs_text(std::uint32_t driven) {
    std::string text;
    for (unsigned output = 0; output < 32; ++output) {
        if ((driven >> output & 1U) != 0) {
            text += fmt::format("{}{}", text.empty() ? "" : ", ", output + 1);
        }
    }
    return text.empty() ? "none" : text;
}

Json json_of(const BoardStatus& status) {
    Json json{{"state", words(status.state)}, {"up_s", status.up_s}, {"armed", status.armed}};
    json["sequence"] = status.sequence == 0xFF ? Json() : Json(status.sequence + 1);
    json["tick"] = status.tick;
    json["driven"] = Json::array();
    for (unsigned output = 0; output < 32; ++output) {
        if ((status.driven >> output & 1U) != 0) {
            json["driven"].push_back(output + 1);
        }
    }
    json["lockout_ticks"] = status.lockout_ticks;
    json["warm_up_ticks"] = status.warm_up_ticks;
    json["inputs"] = inputs_json(status.inputs);
    json["triggers"] = status.triggers;
    json["refusals"] = status.refusals;
    json["faults"] = status.faults;
    return json;
}

std::string text_of(const BoardStatus& status) {
    TextGrid grid({Align::left, Align::left});
    grid.add({"state", std::string(words(status.state)) + (status.armed ? ", armed" : "")});
    if (status.sequence != 0xFF) {
        grid.add({"sequence", fmt::format("{}, tick {}", status.sequence + 1, status.tick)});
    }
    grid.add({"driven outputs", outputs_text(status.driven)});
    grid.add({"active inputs", inputs_text(status.inputs)});
    grid.add({"lockout left", fmt::format("{} ticks", status.lockout_ticks)});
    grid.add({"warm-up left", fmt::format("{} ticks", status.warm_up_ticks)});
    grid.add({"since power-up", up_text(status.up_s)});
    grid.add({"triggers",
              fmt::format("{}, refused {}, faults {}", status.triggers, status.refusals, status.faults)});
    return grid.text();
}

double ms(std::chrono::microseconds time) {
    return static_cast<double>(time.count()) * 1e-3;
}

}  // namespace

Result<Outcome> report_identity(Conversation& board, const BoardOptions& options) {
    const Result<BoardIdentity> identity = board.identify();
    if (!identity) {
        return tl::unexpected(identity.error());
    }
    Outcome outcome;
    outcome.text = text_of(*identity);
    Json json = json_of(*identity);
    if (!options.show.empty()) {
        if (Result<void> done = compare_with_show(*identity, options, outcome, json); !done) {
            return tl::unexpected(done.error());
        }
    }
    outcome.text = options.json ? json_text(json) : outcome.text;
    return outcome;
}

Result<Outcome> report_status(Conversation& board, const BoardOptions& options) {
    return board.identify()
        .and_then([&](const BoardIdentity&) { return board.status(); })
        .map([&](const BoardStatus& status) {
            Outcome outcome;
            outcome.text = options.json ? json_text(json_of(status)) : text_of(status);
            return outcome;
        });
}

Result<Outcome> report_log(Conversation& board, const BoardOptions& options) {
    const auto log = board.identify().and_then([&](const BoardIdentity&) { return board.read_log(); });
    if (!log) {
        return tl::unexpected(log.error());
    }
    Json json{{"entries", Json::array()}};
    TextGrid grid({Align::right, Align::left});
    for (const LogEntry& entry : *log) {
        grid.add({up_text(entry.up_s), words(entry)});
        json["entries"].push_back({{"up_s", entry.up_s},
                                   {"kind", static_cast<unsigned>(entry.kind)},
                                   {"detail", entry.detail},
                                   {"words", words(entry)}});
    }
    Outcome outcome;
    outcome.text = options.json ? json_text(json) : log->empty() ? "the log is empty\n" : grid.text();
    return outcome;
}

Result<Outcome> report_latency(Conversation& board, const BoardOptions& options) {
    return board.identify()
        .and_then([&](const BoardIdentity&) { return board.measure_latency(); })
        .map([&](const LinkLatency& latency) {
            Outcome outcome;
            outcome.text =
                options.json
                    ? json_text(Json{{"answers", latency.answers},
                                     {"least_ms", ms(latency.least)},
                                     {"median_ms", ms(latency.median)},
                                     {"most_ms", ms(latency.most)}})
                    : fmt::format("there and back: {:.1f} ms, at least {:.1f}, at most {:.1f} ({} times)\n",
                                  ms(latency.median), ms(latency.least), ms(latency.most), latency.answers);
            return outcome;
        });
}

Result<Outcome> report_ports(const BoardOptions& options) {
    Json json{{"ports", Json::array()}};
    TextGrid grid({Align::left, Align::left});
    const std::vector<PortInfo> ports = list_ports();
    for (const PortInfo& port : ports) {
        grid.add({port.path, port.label});
        json["ports"].push_back({{"path", port.path}, {"label", port.label}});
    }
    Outcome outcome;
    outcome.text = options.json ? json_text(json) : grid.text();
    if (ports.empty()) {
        outcome.messages.emplace_back("no serial port is there. Plug the board in.");
    }
    return outcome;
}

}  // namespace gasp
