// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/json.hpp"
#include "app/gasp/long_work.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/painting.hpp"
#include "app/gasp/verbs.hpp"
#include "core/file/atomic_write.hpp"
#include "core/file/output_name.hpp"
#include "ui/sheet/pack/pack.hpp"
#include "ui/sheet/picture_file.hpp"

#include <QDate>

#include <utility>

namespace gasp {

namespace {

Json json_of(const Pack& pack, const SheetOptions& options, std::size_t bytes) {
    Json sections = Json::array();
    for (const PackSection& section : pack.sections()) {
        sections.push_back({{"title", section.title.toStdString()},
                            {"first_page", section.first_page},
                            {"pages", section.pages}});
    }
    return {{"show", pack.content().show.name},
            {"revision", pack.content().revision},
            {"date", pack.style().date.toStdString()},
            {"file", options.output},
            {"file_bytes", bytes},
            {"pages", pack.page_count()},
            {"sections", std::move(sections)}};
}

PackStyle style_of(const SheetOptions& options) {
    const bool letter = options.letter.value_or(options.units == UnitSystem::us);
    return {letter ? Paper::letter : Paper::a4, QDate::currentDate().toString(Qt::ISODate)};
}

}  // namespace

Result<Outcome> run(const SheetOptions& options) {
    const Painting painting;
    if (!options.output.ends_with(".pdf")) {
        return fail("the build pack's file must end in .pdf", options.output, "Give it such a name");
    }
    if (const std::optional<Error> error = picture_fonts_missing()) {
        return tl::unexpected(*error);
    }
    Result<OpenShow> open = open_show(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    if (const Result<void> named = check_output_name(options.output, open->files); !named) {
        return tl::unexpected(named.error());
    }
    PackWish wish;
    wish.units = options.units;
    wish.folder = open->folder;
    if (options.sequence) {
        wish.sequence = open->sequences.front()->id;
    }
    const LongWork work("build pack");
    const auto content = work_out_pack(std::move(open->show), wish, work.stop(), {});
    Outcome outcome;
    if (content == nullptr) {
        outcome.code = ExitCode::stopped;
        outcome.messages.push_back("stopped; nothing was written");
        return outcome;
    }
    outcome.messages = content->messages;
    const Pack pack(content, style_of(options));
    const Result<std::string> bytes = pdf_of(pack, work.stop(), {});
    if (!bytes) {
        return tl::unexpected(bytes.error());
    }
    if (const Result<void> written = atomic_write(options.output, *bytes); !written) {
        return tl::unexpected(written.error());
    }
    if (options.json) {
        outcome.text = json_text(json_of(pack, options, bytes->size()));
    }
    return outcome;
}

}  // namespace gasp
