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

}  // namespace

Result<Outcome> run(const PictureOptions& options) {
    const Painting painting;
    if (!options.output.ends_with(".png") && !options.output.ends_with(".svg")) {
        return fail("the picture's file must end in .png or .svg", options.output,
                    "Give it one of these names");
    }
    const Result<OpenShow> open = open_show(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    if (const Result<void> named = check_output_name(options.output, open->files); !named) {
        return tl::unexpected(named.error());
    }
    const Sequence& sequence = *open->sequences.front();
    if (const Result<void> good = check_stretch(options, sequence); !good) {
        return tl::unexpected(good.error());
    }
    Outcome outcome;
    if (open->sequences.size() > 1) {
        outcome.messages.push_back(
            fmt::format("{}: this is \"{}\", the first of {} sequences. Choose another with "
                        "--sequence NAME.",
                        options.show, sequence.name, open->sequences.size()));
    }
    const Result<std::string> bytes = paint(*open, sequence, options, outcome.messages);
    if (!bytes) {
        return tl::unexpected(bytes.error());
    }
    if (const Result<void> written = atomic_write(options.output, *bytes); !written) {
        return tl::unexpected(written.error());
    }
    if (options.json) {
        outcome.text = json_text({{"show", open->show.name},
                                  {"sequence", sequence.name},
                                  {"file", options.output},
                                  {"file_bytes", bytes->size()},
                                  {"width_px", options.width_px}});
    }
    return outcome;
}

}  // namespace gasp
