// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/pack_parts.hpp"
#include "ui/sheet/pack/pack_words.hpp"

#include <QPainter>

#include <algorithm>

namespace gasp {

namespace {

struct Notice {
    QString title;
    QString text;
    QString where;
};

/// The quickest flashes of any cue, in Hz; 0 without any.
double quickest_flashes(const Show& show) {
    double rate = 0.0;
    for (const Sequence& sequence : show.sequences) {
        for (const Cue& cue : sequence.cues) {
            const Channel* channel = cue.flashes ? find(show, cue.channel) : nullptr;
            if (channel != nullptr && channel->kind == ChannelKind::lamp) {
                rate = std::max(rate, cue.flashes->rate_hz);
            }
        }
    }
    return rate;
}

bool has_sound(const Show& show) {
    return show.rig.speaker.power_w.has_value() ||
           std::ranges::any_of(show.sequences,
                               [](const Sequence& sequence) { return !sequence.clips.empty(); });
}

std::vector<Notice> notices_of(const Show& show) {
    std::vector<Notice> notices;
    if (const double rate = quickest_flashes(show); rate > 0.0) {
        notices.push_back(
            {"Flashing light",
             QStringLiteral("Lamps in this show flash up to %1 times a second. Flashing light can "
                            "bring on seizures in people with photosensitive epilepsy. Ask us for a "
                            "way round it.")
                 .arg(rate, 0, 'g', 3),
             "at the entrance, where it is read before anybody sees a lamp"});
    }
    if (has_sound(show)) {
        notices.push_back({"Sudden loud sound",
                           "There are sudden loud sounds in this show. Those who cannot bear them, and small "
                           "children, are better off outside.",
                           "at the entrance"});
    }
    if (!show.rig.actuators.empty()) {
        notices.push_back(
            {"Sudden movement",
             "Figures here move suddenly and with force. Stay behind the rail. Do not touch them, do "
             "not reach in, and keep hold of children.",
             "at the entrance, and at each figure's rail"});
        notices.push_back(
            {"Compressed air",
             "Air stays in tubes, cylinders and the receiver when the power is off, and figures may "
             "move. Nobody reaches in before the air is shut off, vented and locked, and the sensor "
             "is blocked.",
             "for the crew: at the compressor, and at each figure's back"});
    }
    return notices;
}

void add_notice(PackFlow& flow, const Notice& notice) {
    constexpr double inside = 70.0;
    const double width = flow.width() - 2 * inside;
    const PrintFace title{PrintSize::title, true};
    const PrintFace body{PrintSize::head};
    const QStringList words = flow.measure().lines(body, notice.text, width, 12);
    const double height =
        2 * inside + print_line(title.size) + 30 + static_cast<double>(words.size()) * print_line(body.size);
    const double below = 2 * print_line(PrintSize::small);
    flow.need(height + below);
    const QRectF box(flow.left(), flow.y(), flow.width(), height);
    for (const QLineF& edge :
         {QLineF(box.topLeft(), box.topRight()), QLineF(box.topRight(), box.bottomRight()),
          QLineF(box.bottomRight(), box.bottomLeft()), QLineF(box.bottomLeft(), box.topLeft())}) {
        flow.page().lines.push_back({edge, 10.0, false});
    }
    double base = box.top() + inside + print_px(title.size);
    flow.page().words.push_back({{box.left() + inside, base}, notice.title, title});
    base += 30 + print_line(body.size);
    for (const QString& line : words) {
        flow.page().words.push_back({{box.left() + inside, base}, line, body});
        base += print_line(body.size);
    }
    flow.gap(height + 8);
    flow.paragraph("To post " + notice.where + '.', {PrintSize::small, false, true});
    flow.gap(60);
}

}  // namespace

void add_notices(PackFlow& flow, const PackSource& source) {
    const std::vector<Notice> notices = notices_of(source.content.show);
    if (notices.empty()) {
        return;
    }
    flow.section(QStringLiteral("Notices to post"));
    flow.heading(QStringLiteral("Notices to post"));
    flow.paragraph(
        QStringLiteral("Made from what the show does. The rules of the place, its fire officer and its "
                       "insurer may want other words, other sizes and more of them: ask."));
    flow.gap(30);
    for (const Notice& notice : notices) {
        add_notice(flow, notice);
    }
}

}  // namespace gasp
