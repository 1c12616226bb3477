// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/pack.hpp"

#include "ui/sheet/pack/pack_parts.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QPainter>

#include <algorithm>

namespace gasp {

namespace {

constexpr double firm = 4.0;

void lay_out(PackFlow& flow, const PackSource& source) {
    add_cover(flow, source);
    for (const PackSequence& one : source.content.sequences) {
        add_cue_sheet(flow, source, one);
        add_timeline(flow, source, one);
    }
    add_night(flow, source);
    add_air_circuit(flow, source);
    add_wiring(flow, source);
    add_power(flow, source);
    add_boards(flow, source);
    add_parts_list(flow, source);
    add_checklists(flow, source);
    add_stops(flow, source);
    add_notices(flow, source);
}

/// What stands at the head and the foot of every page.
struct Frame {
    PrintMeasure& measure;
    PackPage& page;
    QSizeF size;

    void left(double base, const QString& text, const PrintFace& face, double width) {
        page.words.push_back({{PackFlow::margin, base}, measure.cut(face, text, width), face});
    }
    void right(double base, const QString& text, const PrintFace& face, double width) {
        const QString cut = measure.cut(face, text, width);
        page.words.push_back({{size.width() - PackFlow::margin - measure.width(face, cut), base}, cut, face});
    }
    void rule(double y) {
        page.lines.push_back({{PackFlow::margin, y, size.width() - PackFlow::margin, y}, firm, false});
    }
};

}  // namespace

Pack::Pack(std::shared_ptr<const PackContent> content, PackStyle style)
    : content_(std::move(content)),
      style_(std::move(style)),
      sections_(std::make_shared<std::vector<PackSection>>()) {
    PackFlow flow(style_.paper);
    lay_out(flow, {*content_, style_, sections_});
    pages_ = std::move(flow.pages());
    *sections_ = std::move(flow.sections());
    add_frames(flow.measure());
}

void Pack::add_frames(PrintMeasure& measure) {
    const PrintFace strong{PrintSize::body, true};
    const PrintFace body;
    const PrintFace soft{PrintSize::small, false, true};
    const QString name =
        content_->show.name.empty() ? QStringLiteral("Show without a name") : shown(content_->show.name);
    for (int i = 0; i < page_count(); ++i) {
        PackPage& page = pages_[static_cast<std::size_t>(i)];
        Frame frame{measure, page, page_size(i)};
        const double half = (frame.size.width() - 2 * PackFlow::margin) / 2 - 20;
        const double head = PackFlow::margin + 36;
        frame.left(head, name, strong, half);
        frame.right(head, (*sections_)[page.section].title, body, half);
        frame.rule(head + 22);
        const double foot = frame.size.height() - PackFlow::margin;
        frame.rule(foot - 52);
        frame.left(foot - 14,
                   QStringLiteral("revision %1, printed %2")
                       .arg(QString::fromStdString(content_->revision), style_.date),
                   soft, half);
        frame.left(
            foot + 18,
            QStringLiteral("A plan, no protection: emergency stop, guarding and isolation are hardware. "
                           "Local codes and licensed people come first."),
            soft, 2 * half);
        frame.right(foot - 14, QStringLiteral("page %1 of %2").arg(i + 1).arg(page_count()), body, half);
    }
}

bool Pack::landscape(int page) const {
    return pages_[static_cast<std::size_t>(page)].landscape;
}

QSizeF Pack::page_size(int page) const {
    const QSizeF upright = size_of(style_.paper);
    return landscape(page) ? upright.transposed() : upright;
}

void Pack::paint(QPainter& painter, int index) const {
    const PackPage& page = pages_[static_cast<std::size_t>(index)];
    painter.save();
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    // A name in Arabic letters must not turn the order of the figures beside it.
    painter.setLayoutDirection(Qt::LeftToRight);
    for (const PackDrawing& drawing : page.drawings) {
        painter.save();
        drawing.paint(painter, drawing.box);
        painter.restore();
    }
    for (const PackLine& line : page.lines) {
        painter.setPen(QPen(line.soft ? print_rule() : print_ink(), line.width));
        painter.drawLine(line.line);
    }
    const PrintFace* last = nullptr;
    for (const PackWords& words : page.words) {
        if (last == nullptr || last->size != words.face.size || last->strong != words.face.strong) {
            painter.setFont(print_font(words.face.size, words.face.strong));
        }
        if (last == nullptr || last->soft != words.face.soft) {
            painter.setPen(print_ink(words.face.soft));
        }
        painter.drawText(words.at, words.text);
        last = &words.face;
    }
    painter.restore();
}

}  // namespace gasp
