// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/painting.hpp"
#include "app/gasp/verbs.hpp"
#include "core/checks/check.hpp"
#include "core/checks/sound_shelf.hpp"
#include "core/file/atomic_write.hpp"
#include "core/file/output_name.hpp"
#include "core/show/validity.hpp"
#include "ui/sheet/circuit/circuit_picture.hpp"
#include "ui/sheet/missing_letters.hpp"
#include "ui/sheet/picture_file.hpp"
#include "ui/sheet/picture_peaks.hpp"

#include <fmt/format.h>

#include <atomic>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>

namespace gasp {

namespace {

Result<void> check_stretch(const PictureOptions& options, const Sequence& sequence) {
    const Micros from = options.from.value_or(Micros{0});
    const Micros to = options.to.value_or(sequence.length);
    if (from < Micros{0} || from >= sequence.length || to <= from || to > longest_sequence) {
        return fail(
            fmt::format("{} to {} is no stretch of sequence \"{}\", which is {} long", print_time(from),
                        print_time(to), sequence.name, print_duration(sequence.length)),
            options.show, "Give --from and --to inside it, the earlier first");
    }
    return {};
}

Result<std::string> paint(const OpenShow& open, const Sequence& sequence, const PictureOptions& options,
                          std::vector<std::string>& messages) {
    const Show& show = open.show;
    AirMemo memo;
    SequenceRun run = work_out(show, sequence, memo);
    add_bands(run, show, memo);
    SoundShelf sounds(open.folder);
    const std::atomic<bool> never{false};
    const std::vector<Finding> findings =
        check(show, sequence, run, memo, {.units = options.units, .sounds = &sounds});
    const TimelinePicture picture(
        {show, run.played(sequence), run.schedule, run.air, findings,
         peaks_of(sequence, open.folder, never, messages)},
        {options.dark ? Theme::dark : Theme::light, options.units, options.from, options.to});
    const QSize size(options.width_px, options.height_px);
    return options.output.ends_with(".svg") ? svg_of(picture, size) : png_of(picture, size);
}

Result<std::string> paint_circuit(const Show& show, const PictureOptions& options) {
    const Result<CircuitPicture> picture =
        options.of == PictureOf::air ? air_picture(show, options.units) : wiring_picture(show, options.units);
    if (!picture) {
        return tl::unexpected(picture.error());
    }
    return options.output.ends_with(".svg") ? svg_of(*picture, options.width_px)
                                            : png_of(*picture, options.width_px);
}

/// What is not for a circuit, which has no time.
Result<void> check_options(const PictureOptions& options) {
    if (options.of != PictureOf::timeline &&
        (options.sequence || options.from || options.to || options.dark || options.height_px > 0)) {
        return fail("a circuit has no sequence, no stretch of time, no theme and no height of its own",
                    options.show, "Leave out --sequence, --from, --to and --dark; give --size a width alone");
    }
    return {};
}

Result<std::string> paint_timeline(const OpenShow& open, const PictureOptions& options, Outcome& outcome) {
    const Sequence& sequence = *open.sequences.front();
    if (const Result<void> good = check_stretch(options, sequence); !good) {
        return tl::unexpected(good.error());
    }
    if (open.sequences.size() > 1) {
        outcome.messages.push_back(
            fmt::format("{}: this is \"{}\", the first of {} sequences. Choose another with "
                        "--sequence NAME.",
                        options.show, sequence.name, open.sequences.size()));
    }
    return paint(open, sequence, options, outcome.messages);
}

}  // namespace

Result<Outcome> run(const PictureOptions& options) {
    const Painting painting;
    if (!options.output.ends_with(".png") && !options.output.ends_with(".svg")) {
        return fail("the picture's file must end in .png or .svg", options.output,
                    "Give it one of these names");
    }
    if (const Result<void> fitting = check_options(options); !fitting) {
        return tl::unexpected(fitting.error());
    }
    const Result<OpenShow> open = open_show(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    if (const Result<void> named = check_output_name(options.output, open->files); !named) {
        return tl::unexpected(named.error());
    }
    Outcome outcome;
    if (const std::optional<std::string> missing = letters_missing(open->show)) {
        outcome.messages.push_back(*missing);
    }
    const bool timeline = options.of == PictureOf::timeline;
    const Result<std::string> bytes =
        timeline ? paint_timeline(*open, options, outcome) : paint_circuit(open->show, options);
    if (!bytes) {
        return tl::unexpected(bytes.error());
    }
    if (const Result<void> written = atomic_write(options.output, *bytes); !written) {
        return tl::unexpected(written.error());
    }
    if (options.json) {
        Json json{{"show", open->show.name},
                  {"file", options.output},
                  {"file_bytes", bytes->size()},
                  {"width_px", options.width_px}};
        if (timeline) {
            json["sequence"] = open->sequences.front()->name;
        }
        outcome.text = json_text(json);
    }
    return outcome;
}

}  // namespace gasp
