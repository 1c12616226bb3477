// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/command_line.hpp"

#include "app/gasp/board_actions.hpp"
#include "app/gasp/size_flags.hpp"
#include "core/air/sizing/sizing.hpp"
#include "core/show/night_limits.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

namespace {

constexpr int least_px = 320;
constexpr int most_px = 16'000;

std::optional<int> pixels(std::string_view text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool good =
        error == std::errc{} && end == text.data() + text.size() && value >= least_px && value <= most_px;
    return good ? std::optional(value) : std::nullopt;
}

void add_json(CLI::App& verb, bool& json) {
    verb.add_flag("--json", json, "Print JSON; its keys name the units");
}

void add_show(CLI::App& verb, ShowOptions& options) {
    verb.add_option("SHOW", options.show, "The show file, or a sound file to make a new show of")
        ->required()
        ->option_text("");
    verb.add_option("--sequence", options.sequence, "Take this sequence alone")->option_text("NAME");
    add_json(verb, options.json);
}

void add_output(CLI::App& verb, std::string& output) {
    verb.add_option("-o", output, "Write to this file, not to standard output")->option_text("FILE");
}

void add_units(CLI::App& verb, UnitSystem& units) {
    verb.add_option_function<std::string>(
            "--units",
            [&units](const std::string& text) {
                if (text != "metric" && text != "us") {
                    throw CLI::ValidationError(
                        "--units", fmt::format("'{}' is no system of units: give metric or us", text));
                }
                units = text == "us" ? UnitSystem::us : UnitSystem::metric;
            },
            "metric (bar, mm2) or us (psi, AWG); metric where not given")
        ->option_text("metric|us");
}

/// What follows puts one.
std::string without_full_stop(std::string text) {
    if (text.ends_with('.')) {
        text.pop_back();
    }
    return text;
}

void add_time(CLI::App& verb, const std::string& flag, std::optional<Micros>& time, const std::string& help) {
    verb.add_option_function<std::string>(
            flag,
            [&time, flag](const std::string& text) {
                const Result<Micros> read = parse_time(text);
                if (!read) {
                    throw CLI::ValidationError(flag, without_full_stop(read.error().text()));
                }
                time = *read;
            },
            help)
        ->option_text("TIME");
}

void add_check(CLI::App& app, Command& command, CheckOptions& options) {
    CLI::App& verb = *app.add_subcommand("check", "Everything wrong with a show, each with one remedy");
    add_show(verb, options);
    add_output(verb, options.output);
    add_units(verb, options.units);
    verb.callback([&] { command = options; });
}

void add_budget(CLI::App& app, Command& command, BudgetOptions& options) {
    CLI::App& verb =
        *app.add_subcommand("budget", "Free air of each stroke, and the receiver's pressure after it");
    add_show(verb, options);
    add_output(verb, options.output);
    add_units(verb, options.units);
    verb.callback([&] { command = options; });
}

void add_power(CLI::App& app, Command& command, PowerOptions& options) {
    CLI::App& verb = *app.add_subcommand(
        "power", "Current of each supply over time, and the drop, wire, fuse and contact of each channel");
    add_show(verb, options);
    add_output(verb, options.output);
    add_units(verb, options.units);
    verb.callback([&] { command = options; });
}

void add_stroke(CLI::App& app, Command& command, StrokeOptions& options) {
    CLI::App& verb = *app.add_subcommand(
        "stroke", "Each actuator's times out and back, speed and energy at the stop, free air, anchor load");
    verb.add_option("SHOW", options.show, "The show file")->required()->option_text("");
    add_json(verb, options.json);
    add_output(verb, options.output);
    add_units(verb, options.units);
    verb.callback([&] { command = options; });
}

void add_night(CLI::App& app, Command& command, NightVerbOptions& options) {
    CLI::App& verb = *app.add_subcommand(
        "night", "Many nights at once: scares delivered, refused and weak, the air, the compressor");
    add_show(verb, options);
    add_output(verb, options.output);
    add_units(verb, options.units);
    namespace blank = night_where_blank;
    const auto help = [](std::string_view what, auto otherwise) {
        return fmt::format("{}; as the show's night plan says, else {}", what, otherwise);
    };
    verb.add_option("--groups", options.groups, help("Groups an hour", blank::groups_per_h))
        ->option_text("N");
    verb.add_option("--hours", options.hours, help("Length of the night in h", blank::hours))
        ->option_text("H");
    verb.add_option("--runs", options.runs, help("Nights to play", blank::runs))->option_text("R");
    verb.add_option("--seed", options.seed, help("Of the random arrivals", blank::seed))->option_text("S");
    verb.footer(fmt::format("A scare is weak when a strike comes {} ms late, unless the plan says otherwise.",
                            blank::weak_ms));
    verb.add_flag("--answers", options.answers,
                  "Also the most groups an hour, and the least receiver, delivery and regulator setting, for "
                  "95 % of nights without a weak scare");
    verb.callback([&] { command = options; });
}

std::vector<std::string> keys_of_forms() {
    std::vector<std::string> keys;
    for (const FormInfo& info : table_forms()) {
        keys.emplace_back(info.key);
    }
    return keys;
}

void add_table(CLI::App& app, Command& command, TableOptions& options) {
    CLI::App& verb = *app.add_subcommand("table", "The event table: what each channel does when");
    add_show(verb, options);
    add_output(verb, options.output);
    const std::vector<std::string> forms = keys_of_forms();
    CLI::Option* form =
        verb.add_option_function<std::string>(
                "--as",
                [&options](const std::string& key) {
                    options.form = std::ranges::find(table_forms(), key, &FormInfo::key)->form;
                },
                "The form: csv where not given; c for flash, bin as a board loads it, vcd for viewers, json")
            ->option_text(fmt::format("{}", fmt::join(forms, "|")))
            ->check(CLI::IsMember(forms).description(""));
    verb.get_option("--json")->excludes(form);
    verb.add_option("--board", options.board,
                    "Only what this board has; with -o FOLDER/ each has its own file")
        ->option_text("NAME");
    verb.add_flag_callback(
        "--no-comments", [&] { options.comments = false; }, "Leave out the head of '#' lines");
    verb.add_option("--compare", options.compare, "Tell where this table differs from the show; write none")
        ->option_text("FILE");
    verb.callback([&] {
        options.form = options.json ? TableForm::json : options.form;
        command = options;
    });
}

void add_moments(CLI::App& verb, SoundOptions& options) {
    verb.add_option("--onset-threshold", options.onsets.threshold, "Higher finds fewer onsets")
        ->capture_default_str();
    verb.add_option("--onset-gap-ms", options.onsets.least_gap_ms, "Least time between two onsets")
        ->capture_default_str();
    verb.add_option("--word-level-db", options.words.open_db,
                    "A word begins within so much of the loudest moment")
        ->capture_default_str();
    verb.add_option("--pause-level-db", options.words.close_db, "A pause is quieter than that")
        ->capture_default_str();
    verb.add_option("--pause-ms", options.words.shortest_pause_ms, "Shortest pause between two words")
        ->capture_default_str();
}

void add_sound(CLI::App& app, Command& command, SoundOptions& options) {
    CLI::App& verb =
        *app.add_subcommand("sound", "Levels, onsets and words of sound files; a show's mix, and its export");
    verb.add_option("FILE", options.files, "Sound files of any common format, or one show")
        ->option_text("...");
    add_moments(verb, options);
    verb.add_option(
            "--mix", options.mix_folder,
            "Write the mix of each sequence of the show into this folder, its head cut by the player's lag")
        ->option_text("FOLDER");
    verb.add_option("--gather", options.gather_folder,
                    "Copy the show and all its sounds into this folder, and do nothing else")
        ->option_text("FOLDER");
    verb.add_option_function<std::string>(
            "--as",
            [&options](const std::string& form) {
                if (form != "wav" && form != "flac") {
                    throw CLI::ValidationError("--as", "'" + form + "' is neither wav nor flac");
                }
                options.mix_form = form == "flac" ? MixForm::flac : MixForm::wav;
            },
            "The mixes' form; wav where not given")
        ->option_text("wav|flac");
    verb.add_option("--rate", options.mix_rate, "The mixes' rate in Hz")
        ->check(CLI::Range(8000, 96000))
        ->capture_default_str();
    verb.add_option_function<std::string>(
            "--sequence", [&options](const std::string& name) { options.sequence = name; },
            "Of the show, this sequence alone")
        ->option_text("NAME");
    verb.add_option("--player-lag", options.lag_recording,
                    "Tell a player's lag from a recording of some starts: a click, then the first sound")
        ->option_text("FILE");
    verb.add_option_function<std::string>(
            "--first-sound",
            [&options](const std::string& text) {
                const Result<Micros> read = parse_time(text);
                if (!read) {
                    throw CLI::ValidationError("--first-sound", without_full_stop(read.error().text()));
                }
                options.first_sound = *read;
            },
            "With --player-lag: how far into the played file it lies")
        ->option_text("TIME");
    add_json(verb, options.json);
    add_output(verb, options.output);
    verb.callback([&] {
        if (options.files.empty() && options.lag_recording.empty()) {
            throw CLI::RequiredError("FILE");
        }
        command = options;
    });
}

void add_picture(CLI::App& app, Command& command, PictureOptions& options) {
    CLI::App& verb = *app.add_subcommand("picture", "A timeline, the air circuit or the wiring as a picture");
    add_show(verb, options);
    CLI::Option* of = verb.add_option_function<std::string>(
        "--of",
        [&options](const std::string& text) {
            options.of = text == "air"      ? PictureOf::air
                         : text == "wiring" ? PictureOf::wiring
                                            : PictureOf::timeline;
        },
        "Of what: the timeline of one sequence where not given; circuits are drawn black on white");
    of->option_text("timeline|air|wiring")
        ->check(CLI::IsMember({"timeline", "air", "wiring"}).description(""));
    verb.add_option("-o", options.output, "The picture's file, .png or .svg")
        ->required()
        ->option_text("FILE");
    verb.add_option_function<std::string>(
            "--size",
            [&options](const std::string& text) {
                const std::size_t cross = text.find_first_of("xX");
                const std::optional<int> width = pixels(text.substr(0, cross));
                const std::optional<int> height =
                    cross == std::string::npos ? 0 : pixels(text.substr(cross + 1));
                if (!width || !height) {
                    throw CLI::ValidationError(
                        "--size",
                        fmt::format(
                            "'{}' is no size: give it as 1600x900, or 1600 alone, each side {} to {} px",
                            text, least_px, most_px));
                }
                options.width_px = *width;
                options.height_px = *height;
            },
            "Pixels; 1600 wide and as high as its lanes need where not given")
        ->option_text("WIDTHxHEIGHT");
    add_time(verb, "--from", options.from, "Begin here on the ruler, as 1.5 or 0:01.500");
    add_time(verb, "--to", options.to, "End here");
    CLI::Option* dark = verb.add_flag("--dark", options.dark, "Light on dark");
    verb.add_flag_function(
            "--light", [](std::int64_t) {}, "Dark on light, as without either")
        ->excludes(dark);
    add_units(verb, options.units);
    verb.callback([&] { command = options; });
}

void add_sheet(CLI::App& app, Command& command, SheetOptions& options) {
    CLI::App& verb = *app.add_subcommand(
        "sheet", "The build pack: cue sheets, circuits, parts, checklists and notices on pages to print");
    add_show(verb, options);
    verb.add_option("-o", options.output, "The pack's file, .pdf")->required()->option_text("FILE");
    verb.add_option_function<std::string>(
            "--paper", [&options](const std::string& text) { options.letter = text == "letter"; },
            "The size of its pages; a4 where not given, letter with --units us")
        ->option_text("a4|letter")
        ->check(CLI::IsMember({"a4", "letter"}).description(""));
    add_units(verb, options.units);
    verb.callback([&] { command = options; });
}

void add_size(CLI::App& app, Command& command, SizeOptions& options) {
    CLI::App& verb = *app.add_subcommand(
        "size", "Bore, valve, tube, receiver and compressor from standard sizes for a wanted stroke");
    for (const SizeFlag& flag : size_flags) {
        const auto all = fields<SizingTask>().figures;
        const auto field = std::ranges::find(all, flag.key, &FigureField<SizingTask>::key);
        CLI::Option* option = verb.add_option_function<std::string>(
            std::string(flag.flag),
            [&options, key = std::string(flag.key)](const std::string& text) {
                options.figures.emplace_back(key, text);
            },
            without_full_stop(std::string(field->help)));
        option->option_text(std::string(flag.value));
    }
    verb.add_option("--drive", options.drive,
                    "What sends it out and back: air both ways, or air out and its weight or a spring back")
        ->option_text("double|gravity|spring")
        ->check(CLI::IsMember({"double", "gravity", "spring"}).description(""));
    CLI::Option* like =
        verb.add_option("--like", options.like,
                        "Take what is not given from an actuator of this show, linkage and all")
            ->option_text("SHOW");
    CLI::Option* actuator = verb.add_option("--actuator", options.actuator, "The name of that actuator")
                                ->option_text("NAME")
                                ->needs(like);
    like->needs(actuator);
    add_units(verb, options.units);
    add_json(verb, options.json);
    add_output(verb, options.output);
    verb.footer(
        "Write figures with their units: --lift 18in --mass \"6 lb\" --pressure 60psi; bare numbers are in "
        "--units.\n"
        "Standard sizes are metric, or inch with --units us.");
    verb.callback([&] { command = options; });
}

void add_fit(CLI::App& app, Command& command, FitOptions& options) {
    CLI::App& verb =
        *app.add_subcommand("fit", "The model of an actuator fitted to strokes timed on the real thing");
    verb.add_option("SHOW", options.show, "The show file")->required()->option_text("");
    verb.add_option("--actuator", options.actuator, "Its name in the rig")->required()->option_text("NAME");
    CLI::Option* out = verb.add_option("--out", options.out,
                                       "Strokes out, from the coil switching to the stop: 312,305,318");
    CLI::Option* back = verb.add_option("--back", options.back, "Strokes back, likewise");
    for (CLI::Option* option : {out, back}) {
        option->option_text("MS,MS,...")->delimiter(',');
    }
    verb.add_option("--recording", options.recording,
                    "Find the strokes in this sound file, by the valve's click and the thump at the stop")
        ->option_text("FILE")
        ->excludes(out)
        ->excludes(back);
    verb.add_option(
            "--reading", options.reading,
            "Spread of one timing: 30 where not given, by stopwatch; 2 with a recording; a film of 240 "
            "pictures a second has 4")
        ->option_text("MS");
    add_json(verb, options.json);
    verb.add_option("-o", options.output, "Keep the fit in this show file, a new one or SHOW itself")
        ->option_text("SHOW");
    verb.callback([&] { command = options; });
}

void add_board(CLI::App& app, Command& command, BoardOptions& options) {
    CLI::App& verb =
        *app.add_subcommand("board", "Speak with a board: load its table, read it back, fire, its log");
    verb.add_option("PORT", options.port,
                    "Serial port of the board, as /dev/ttyUSB0; list: tell the ports there are")
        ->required()
        ->option_text("");
    std::vector<std::string> actions;
    std::string help = "What to do; identify where not given.";
    for (const BoardAction& action : board_actions()) {
        actions.emplace_back(action.key);
        help += fmt::format("\n{}: {}", action.key, action.help);
    }
    verb.add_option("ACTION", options.action, help)
        ->option_text("")
        ->check(CLI::IsMember(actions).description(""));
    verb.add_option("TARGET", options.target,
                    "load: the show. fire: the output, from 1. run: the sequence, from 1")
        ->option_text("");
    verb.add_option("--show", options.show, "The show its table is of: names channels and sequences")
        ->option_text("SHOW");
    verb.add_option("--board", options.board, "Which board of the show this is")->option_text("NAME");
    verb.add_option("--sequence", options.sequence, "load: this sequence alone")->option_text("NAME");
    verb.add_flag("--despite-stops", options.despite_stops,
                  "load: even if findings of severity stop stand against the table");
    verb.add_option("--for", options.for_ms, "fire: so long; else while the Enter key is held")
        ->option_text("MS")
        ->check(CLI::Range(1, most_fire_ms).description(""));
    verb.add_option_function<std::string>(
            "--as",
            [&options](const std::string& key) {
                options.form = std::ranges::find(table_forms(), key, &FormInfo::key)->form;
            },
            "read: the form of what is read back; csv where not given")
        ->option_text(fmt::format("{}", fmt::join(keys_of_forms(), "|")))
        ->check(CLI::IsMember(keys_of_forms()).description(""));
    add_json(verb, options.json);
    add_output(verb, options.output);
    verb.callback([&] { command = options; });
}

/// What is wrong with the arguments; a verb that is none is answered with those that are.
std::string trouble(const CLI::App& app, const CLI::ParseError& error, int argc, char** argv) {
    if (!app.get_subcommands().empty()) {
        return error.what();
    }
    const std::string_view first = argc > 1 ? argv[1] : "";
    if (!first.empty() && first.front() == '-') {
        return error.what();
    }
    std::vector<std::string> verbs;
    for (const CLI::App* verb : app.get_subcommands([](const CLI::App*) { return true; })) {
        verbs.push_back(verb->get_name());
    }
    const std::string missing =
        first.empty() ? std::string("a verb is missing") : fmt::format("there is no verb \"{}\"", first);
    return fmt::format("{}; the verbs are {}", missing, fmt::join(verbs, ", "));
}

}  // namespace

std::variant<Command, Answer> read_command_line(int argc, char** argv) {
    CLI::App app{"Plans, checks and hands over the timed sequences of a pneumatic prop.", "gasp"};
    app.set_version_flag("--version", "gasp " GASPWORKS_VERSION);
    app.require_subcommand(1);
    app.get_formatter()->label("SUBCOMMAND", "VERB");
    app.get_formatter()->label("Subcommands", "Verbs");
    app.footer(
        "Results go to standard output, messages to standard error.\n"
        "Exit codes: 0 clean, 1 findings of severity stop, 2 unusable input or arguments.\n"
        "gasp VERB --help tells the options of a verb.");
    Command command;
    CheckOptions check;
    BudgetOptions budget;
    PowerOptions power;
    StrokeOptions stroke;
    NightVerbOptions night;
    TableOptions table;
    SoundOptions sound;
    PictureOptions picture;
    SheetOptions sheet;
    SizeOptions size;
    FitOptions fit;
    BoardOptions board;
    add_check(app, command, check);
    add_stroke(app, command, stroke);
    add_budget(app, command, budget);
    add_power(app, command, power);
    add_night(app, command, night);
    add_table(app, command, table);
    add_sound(app, command, sound);
    add_picture(app, command, picture);
    add_sheet(app, command, sheet);
    add_size(app, command, size);
    add_fit(app, command, fit);
    add_board(app, command, board);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        std::ostringstream text;
        std::ostringstream ignored;
        if (app.exit(error, text, ignored) == 0) {
            return Answer{text.str(), {}};
        }
        return Answer{
            {}, fmt::format("{}. Run gasp --help, or gasp VERB --help", trouble(app, error, argc, argv))};
    }
    return command;
}

}  // namespace gasp
