// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/listening.hpp"
#include "core/sound/mix_file.hpp"
#include "core/sound/words.hpp"
#include "core/table/table_form.hpp"
#include "core/units/quantity.hpp"
#include "core/units/time.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace gasp {

/// What every verb that reads a show takes.
struct ShowOptions {
    std::string show;                     ///< path of the file
    std::optional<std::string> sequence;  ///< one by its name; all without
    bool json = false;
    UnitSystem units = UnitSystem::metric;  ///< of what is printed for people; JSON names its own
    std::string output;                     ///< path; standard output where empty
};

struct CheckOptions : ShowOptions {};

struct BudgetOptions : ShowOptions {};

struct PowerOptions : ShowOptions {};

struct StrokeOptions : ShowOptions {};

struct NightVerbOptions : ShowOptions {
    std::optional<double> groups;  ///< an hour; what follows and this as the show's plan says where not given
    std::optional<double> hours;
    std::optional<int> runs;
    std::optional<std::uint64_t> seed;
    bool answers = false;
};

struct TableOptions : ShowOptions {
    TableForm form = TableForm::csv;
    std::optional<std::string> board;  ///< one by its name; all without
    bool comments = true;
    std::string compare;  ///< path of a table to compare with the show's; none where empty
};

struct SoundOptions {
    std::vector<std::string> files;  ///< sounds, or a show
    std::string mix_folder;          ///< where the mixes of a show go; none where empty
    std::string gather_folder;       ///< where show and sounds are copied to, and no more; none where empty
    MixForm mix_form = MixForm::wav;
    int mix_rate = gasp::mix_rate;
    std::optional<std::string> sequence;  ///< of a show, by its name; all without
    std::string lag_recording;            ///< of starts of a player, instead of all that
    Micros first_sound{0};                ///< into the file that was played there
    OnsetOptions onsets;
    WordOptions words;
    bool json = false;
    std::string output;
};

enum class PictureOf { timeline, air, wiring };

struct PictureOptions : ShowOptions {
    PictureOf of = PictureOf::timeline;
    int width_px = 1600;
    int height_px = 0;  ///< 0: as high as the lanes need
    std::optional<Micros> from;
    std::optional<Micros> to;
    bool dark = false;
};

struct SheetOptions : ShowOptions {
    std::optional<bool> letter;  ///< US Letter or A4; by the units where not given
};

struct SizeOptions {
    /// As written, by the key of the SizingTask's figure; bare numbers are in `units`.
    std::vector<std::pair<std::string, std::string>> figures;
    std::string drive;  ///< key of the SizingTask's action; "double" where empty
    std::string like;   ///< path of a show with an actuator that gives what is not written; none where empty
    std::string actuator;                   ///< its name
    UnitSystem units = UnitSystem::metric;  ///< of what is read and printed, and of the standard sizes
    bool json = false;
    std::string output;
};

struct FitOptions {
    std::string show;
    std::string actuator;           ///< its name
    std::vector<std::string> out;   ///< timed strokes, as written
    std::vector<std::string> back;  ///< likewise
    std::string recording;          ///< path of a sound file instead of them
    std::string reading;            ///< spread of one timing, as written; by the kind of timing where empty
    bool json = false;
    std::string output;  ///< path of the fitted show; none is written where empty
};

struct BoardOptions {
    std::string port;                     ///< path; "list" for the ports there are
    std::string action;                   ///< a key of board_actions()
    std::string target;                   ///< the show, output or sequence; empty where not given
    std::string show;                     ///< path of the show the board's table is of; none where empty
    std::optional<std::string> board;     ///< of the show, by its name
    std::optional<std::string> sequence;  ///< load this one alone
    bool despite_stops = false;           ///< load though findings of severity stop stand against it
    std::optional<int> for_ms;            ///< fire so long; else while the Enter key is held
    TableForm form = TableForm::csv;
    bool json = false;
    std::string output;
};

using Command =
    std::variant<CheckOptions, BudgetOptions, PowerOptions, TableOptions, SoundOptions, PictureOptions,
                 SheetOptions, StrokeOptions, SizeOptions, FitOptions, NightVerbOptions, BoardOptions>;

}  // namespace gasp
