// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/signs.hpp"
#include "ui/sheet/pack/pack_parts.hpp"
#include "ui/sheet/pack/pack_words.hpp"
#include "ui/sheet/picture_text.hpp"
#include "ui/sheet/print_palette.hpp"
#include "ui/sheet/timeline_picture.hpp"

#include <QPainter>

#include <algorithm>
#include <array>

namespace gasp {

namespace {

constexpr std::size_t most_listed = 200;
constexpr int contents_columns = 2;
constexpr std::size_t most_contents_rows = 50;  // what a page has room for

PictureContent picture_of(const PackContent& content, const PackSequence& one) {
    const Sequence& written = *find(content.show, one.id);
    return {content.show, one.run.played(written), one.run.schedule, one.run.air, one.findings, one.peaks};
}

/// The first sequence with a cue, as the ruler shows it.
void add_picture(PackFlow& flow, const PackSource& source) {
    const PackContent& content = source.content;
    const auto shown_one = std::ranges::find_if(content.sequences, [&](const PackSequence& one) {
        return !find(content.show, one.id)->cues.empty();
    });
    if (shown_one == content.sequences.end()) {
        return;
    }
    constexpr double height = 900.0;
    flow.drawing(height, [&content, one = &*shown_one](QPainter& painter, const QRectF& box) {
        constexpr double units_a_px = 2.0;
        PictureStyle style;
        style.units = content.units;
        style.bare = true;
        style.ink = &print_palette();
        style.most_lanes = 12;
        painter.translate(box.topLeft());
        painter.scale(units_a_px, units_a_px);
        TimelinePicture(picture_of(content, *one), style).paint(painter, {{0, 0}, box.size() / units_a_px});
    });
    flow.paragraph(text_of(find(content.show, shown_one->id)->name), {PrintSize::small, false, true}, 1);
}

/// Sections and their pages; known once all are laid out, and so written only when it is painted.
void add_contents(PackFlow& flow, const PackSource& source) {
    const double line = print_line(PrintSize::body);
    const std::size_t most = 12 + 2 * source.content.sequences.size();
    const std::size_t rows = std::min((most + contents_columns - 1) / contents_columns, most_contents_rows);
    flow.need(static_cast<double>(rows) * line + 3 * print_line(PrintSize::head));
    flow.heading(QStringLiteral("In this pack"));
    const auto paint = [sections = source.sections, rows, line](QPainter& painter, const QRectF& box) {
        const double width = box.width() / contents_columns - 40;
        const TextStyle style{print_font(PrintSize::body), print_ink()};
        const TextStyle right{style.font, style.colour, Qt::AlignRight | Qt::AlignVCenter};
        const std::size_t places = rows * contents_columns;
        for (std::size_t i = 0; i < std::min(sections->size(), places); ++i) {
            const double x = box.left() + static_cast<double>(i / rows) * (width + 80);
            const QRectF row(x, box.top() + static_cast<double>(i % rows) * line, width, line);
            if (i + 1 == places && sections->size() > places) {
                draw_text(painter, row, style, QStringLiteral("and %1 more").arg(sections->size() - i));
                break;
            }
            draw_text(painter, row.adjusted(0, 0, -90, 0), style, (*sections)[i].title);
            draw_text(painter, row, right, QString::number((*sections)[i].first_page));
        }
    };
    flow.drawing(static_cast<double>(rows) * line, paint);
}

PackCell severity_cell(const Finding& finding) {
    const std::string_view said = word(finding.severity);
    PackCell cell(QString::fromLatin1(said.data(), static_cast<qsizetype>(said.size())));
    cell.sign = [severity = finding.severity](QPainter& painter, const QRectF& box) {
        paint_severity(painter, box, severity, print_palette().severity(severity));
    };
    return cell;
}

QString sentence_of(const Finding& finding) {
    QString text = text_of(finding.what);
    if (!finding.figure.empty()) {
        text += ": " + text_of(finding.figure);
    }
    if (!finding.limit.empty()) {
        text += ", limit " + text_of(finding.limit);
    }
    return text + '.';
}

void add_list(PackFlow& flow, const PackSource& source, const std::vector<const Finding*>& findings) {
    std::vector<PackRow> rows;
    for (const Finding* finding : findings) {
        if (rows.size() == most_listed) {
            break;
        }
        rows.push_back({severity_cell(*finding),
                        place_text(source.content.show, *finding),
                        sentence_of(*finding),
                        {text_of(finding->remedy), true}});
    }
    flow.table(
        {{"", 135}, {"Where", 250}, {"What", 0, 3, false, false, 12}, {"Remedy", 0, 2, false, false, 12}},
        rows);
    if (findings.size() > rows.size()) {
        flow.paragraph(
            QStringLiteral("and %1 more, which the findings list has.").arg(findings.size() - rows.size()));
    }
}

bool any_cue(const PackContent& content) {
    return std::ranges::any_of(content.sequences, [&](const PackSequence& one) {
        return !find(content.show, one.id)->cues.empty();
    });
}

void add_findings(PackFlow& flow, const PackSource& source) {
    if (source.content.findings.empty() && !any_cue(source.content)) {
        flow.heading(QStringLiteral("Findings left open"));
        flow.paragraph(QStringLiteral("Nothing was checked: there are no cues yet."));
        return;
    }
    std::vector<const Finding*> open;
    std::vector<const Finding*> unchecked;
    std::array<int, 3> counts{};
    for (const Finding& finding : source.content.findings) {
        if (finding.not_checked) {
            unchecked.push_back(&finding);
        } else if (finding.check != "failure") {  // those stand in the stop table
            open.push_back(&finding);
            ++counts[static_cast<std::size_t>(finding.severity)];
        }
    }
    flow.heading(QStringLiteral("Findings left open"));
    flow.paragraph(
        open.empty()
            ? QStringLiteral("None of the checks found anything in the figures it was given.")
            : QStringLiteral("%1 stop, %2 warn, %3 note.").arg(counts[0]).arg(counts[1]).arg(counts[2]));
    if (!open.empty()) {
        add_list(flow, source, open);
    }
    flow.heading(QStringLiteral("What could not be checked"));
    if (unchecked.empty()) {
        flow.paragraph(
            QStringLiteral("Every check had the figures it needs. Whether they are right is for a gauge, a "
                           "tape and a stopwatch to say."));
    } else {
        flow.paragraph(QStringLiteral("Figures are blank: nothing is claimed about these."));
        add_list(flow, source, unchecked);
    }
}

}  // namespace

void add_cover(PackFlow& flow, const PackSource& source) {
    const PackContent& content = source.content;
    flow.section(QStringLiteral("Cover"));
    flow.paragraph(
        content.show.name.empty() ? QStringLiteral("Show without a name") : text_of(content.show.name),
        {PrintSize::title, true}, 3);
    flow.paragraph(
        QStringLiteral("Build pack, revision %1, printed %2. Pages of another revision do not belong "
                       "to it.")
            .arg(QString::fromStdString(content.revision), source.style.date));
    flow.gap(20);
    add_picture(flow, source);
    add_contents(flow, source);
    add_findings(flow, source);
}

}  // namespace gasp
