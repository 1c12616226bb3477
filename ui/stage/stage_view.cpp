// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/stage_view.hpp"

#include "ui/look/look.hpp"
#include "ui/stage/stage_layout.hpp"
#include "ui/stage/stage_paint.hpp"

#include <QFontMetricsF>
#include <QPainter>

#include <cmath>

namespace gasp {

StageView::StageView(Document& document, Analysis& analysis, Audition& audition, QWidget* parent)
    : QWidget(parent), document_(document), analysis_(analysis), audition_(audition) {
    setAccessibleName(tr("Stage"));
    setAccessibleDescription(tr("Contacts, lamps, valves and figures at the position of the audition"));
    setAttribute(Qt::WA_OpaquePaintEvent);
    const auto repaint = [this] { update(); };
    connect(&audition, &Audition::position_changed, this, repaint);
    connect(&audition, &Audition::state_changed, this, repaint);
    connect(&audition, &Audition::lockout_changed, this, repaint);
    connect(&analysis, &Analysis::ready, this, &StageView::plan);
    connect(&document, &Document::replaced, this, &StageView::plan);
    plan();
}

void StageView::set_units(UnitSystem units) {
    units_ = units;
    update();
}

QSize StageView::sizeHint() const {
    return {300, 520};
}

QSize StageView::minimumSizeHint() const {
    return {260, 300};
}

void StageView::plan() {
    const auto result = analysis_.result();
    const auto show = document_.snapshot();
    // A result of another sequence is about to be followed by the right one.
    plan_ = result->sequence == document_.sequence_id()
                ? StagePlan(*show, result->schedule, result->dwells, result->commands, result->air)
                : StagePlan(*show, {}, {}, {}, {});
    const std::vector<std::string>& missing = plan_.missing_air();
    setToolTip(missing.empty()
                   ? QString()
                   : tr("The receiver has no reading: no %1").arg(QString::fromStdString(missing.front())));
    update();
}

void StageView::paintEvent(QPaintEvent*) {
    const Palette& p = look();
    QPainter painter(this);
    painter.fillRect(rect(), p.canvas);
    const StageState state = plan_.at(audition_.position());
    const StageLayout layout = stage_layout(size(), static_cast<int>(state.channels.size()),
                                            static_cast<int>(state.actuators.size()));
    painter.setPen(QPen(p.rule, 1.0));
    painter.drawLines(layout.rules.data(), static_cast<int>(layout.rules.size()));
    paint_head(painter, layout.clock, layout.state);
    for (std::size_t i = 0; i < layout.actuators.size(); ++i) {
        paint_actuator(painter, layout.actuators[i], state.actuators[i]);
    }
    for (std::size_t i = 0; i < layout.channels.size(); ++i) {
        paint_channel(painter, layout.channels[i], state.channels[i]);
    }
    if (plan_.empty()) {
        paint_empty(painter, QRectF(layout.clock.bottomLeft(), layout.loudspeaker.topRight()));
    }
    paint_left_out(painter, layout.left_out, layout.channels_left_out, layout.actuators_left_out);
    paint_gauge(painter, layout.gauge,
                {state.receiver_kpa_gauge, plan_.cut_in_kpa_gauge(), plan_.cut_out_kpa_gauge(),
                 state.compressor_fills, units_});
    const bool sounds = !document_.sequence().clips.empty();
    paint_loudspeaker(painter, layout.loudspeaker, audition_.level(), sounds ? tr("sound") : tr("no sound"));
}

void StageView::paint_head(QPainter& painter, const QRectF& clock, const QRectF& state) const {
    const Palette& p = look();
    const auto upper = [](const QRectF& box) { return QRectF(box.left(), box.top(), box.width(), 24.0); };
    const auto lower = [](const QRectF& box) {
        return QRectF(box.left(), box.top() + 26.0, box.width(), 16.0);
    };
    painter.setPen(p.text);
    painter.setFont(gasp::font(TypeSize::clock, true));
    paint_text(painter, upper(clock), Qt::AlignLeft | Qt::AlignVCenter,
               QString::fromStdString(print_time(audition_.position())));
    painter.setFont(gasp::font(TypeSize::body));
    const bool playing = audition_.playing();
    const QString still = audition_.position() == Micros{0} ? tr("at the start") : tr("paused");
    painter.setPen(playing ? p.brass_text : p.text_soft);
    paint_text(painter, upper(state), Qt::AlignRight | Qt::AlignVCenter, playing ? tr("playing") : still);
    painter.setFont(gasp::font(TypeSize::small));
    painter.setPen(audition_.silent() ? p.warn_text : p.text_soft);
    const QString runs_on = audition_.silent() ? tr("silent: steady clock") : tr("sound device");
    paint_text(painter, lower(clock), Qt::AlignLeft | Qt::AlignVCenter, runs_on);
    const bool locked = audition_.lockout_remaining() > Micros{0};
    painter.setPen(locked ? p.warn_text : p.text_soft);
    QRectF beside = lower(state);  // and as far to the left as the words there leave room
    beside.setLeft(clock.left() + QFontMetricsF(painter.font()).horizontalAdvance(runs_on) + grid_px);
    paint_text(painter, beside, Qt::AlignRight | Qt::AlignVCenter, trigger_words());
}

QString StageView::trigger_words() const {
    const Micros remaining = audition_.lockout_remaining();
    QString words = tr("trigger free");
    if (remaining > Micros{0}) {
        words = tr("locked out %1 s").arg(std::ceil(to_s(remaining) * 10.0) / 10.0, 0, 'f', 1);
    } else if (audition_.playing()) {
        words = audition_.triggers_refused() > 0 ? tr("held off") : tr("trigger held off");
    }
    const int refused = audition_.triggers_refused();
    return refused > 0 ? tr("%1, %2 refused").arg(words).arg(refused) : words;
}

void StageView::paint_empty(QPainter& painter, const QRectF& box) const {
    painter.setFont(gasp::font(TypeSize::body));
    painter.setPen(look().text_soft);
    painter.drawText(box.adjusted(grid_px, 0, -grid_px, 0), Qt::AlignCenter | Qt::TextWordWrap,
                     tr("Nothing stands here yet.\nAdd an actuator or a channel to the rig, and it moves and "
                        "lights here in time with the sound."));
}

void StageView::paint_left_out(QPainter& painter, const QRectF& box, int channels, int actuators) const {
    QStringList parts;
    if (actuators > 0) {
        parts << tr("%1 more of the actuators").arg(actuators);
    }
    if (channels > 0) {
        parts << tr("%1 more of the channels").arg(channels);
    }
    if (!parts.empty()) {
        painter.setFont(gasp::font(TypeSize::small));
        painter.setPen(look().text_soft);
        paint_text(painter, box, Qt::AlignLeft | Qt::AlignVCenter,
                   tr("and %1: make this panel larger").arg(parts.join(", ")));
    }
}

}  // namespace gasp
