// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/ruler.hpp"

#include "core/show/edits.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/mark_names.hpp"
#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"

#include <QApplication>
#include <QContextMenuEvent>
#include <QFontMetrics>
#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <QWheelEvent>

#include <algorithm>
#include <array>
#include <cmath>

namespace gasp {

namespace {

constexpr int flag_pad = 5;
constexpr int flag_height = 16;
constexpr double pin_px = 12.0;

int rank(const Finding* finding) {
    return static_cast<int>(finding->severity);
}

}  // namespace

Ruler::Ruler(Scene& scene, QWidget* parent) : QWidget(parent), scene_(scene) {
    setFixedHeight(ticks_px + marks_px + findings_px);
    setMouseTracking(true);
    setFocusPolicy(Qt::ClickFocus);
    setAttribute(Qt::WA_OpaquePaintEvent);
    setAccessibleName(tr("Ruler, marks and findings"));
    for (const auto signal :
         {&Scene::view_changed, &Scene::lanes_changed, &Scene::marks_changed, &Scene::loop_changed,
          &Scene::result_changed, &Scene::selection_changed, &Scene::drag_changed}) {
        connect(&scene_, signal, this, &Ruler::repaint_all);
    }
    connect(&scene_, &Scene::playhead_moved, this, [this](Micros before) {
        update(QRegion(playhead_rect(before)) + playhead_rect(scene_.playhead()));
    });
}

Ruler::~Ruler() = default;

void Ruler::repaint_all() {
    update();
}

void Ruler::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange) {
        update();
    }
    QWidget::changeEvent(event);
}

// Painting
// --------------------------------------------------------------------------------------------------------

void Ruler::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Palette& p = look();
    painter.fillRect(rect(), p.ground);
    painter.setFont(gasp::font(TypeSize::small));
    paint_loop(painter);
    paint_ticks(painter);
    paint_marks(painter);
    paint_findings(painter);
    painter.setPen(p.rule);
    painter.drawLine(0, ticks_px - 1, width(), ticks_px - 1);
    painter.drawLine(0, ticks_px + marks_px - 1, width(), ticks_px + marks_px - 1);
    painter.setPen(p.rule_strong);
    painter.drawLine(0, height() - 1, width(), height() - 1);
    if (scene_.drag().snap) {
        const int x = static_cast<int>(std::lround(scene_.view().x_of(scene_.drag().snap->time)));
        painter.fillRect(x, 0, 1, height(), p.brass);
    }
    paint_playhead(painter);
}

void Ruler::paint_ticks(QPainter& painter) const {
    const Palette& p = look();
    const TickScale scale = scene_.tick_scale();
    const QFontMetrics metrics(painter.font());
    for (const Tick& tick : scene_.ticks_from(std::max(scene_.view().left(), Micros{0}))) {
        const int x = static_cast<int>(std::lround(scene_.view().x_of(tick.time)));
        painter.setPen(tick.labelled ? p.text_soft : p.rule_strong);
        painter.drawLine(x, ticks_px - (tick.labelled ? 10 : 5), x, ticks_px - 2);
        if (tick.labelled) {
            painter.setPen(p.text);
            painter.drawText(QPoint(x + 4, 4 + metrics.ascent()),
                             QString::fromStdString(tick_label(scene_.grid(), scale, tick.unit)));
        }
    }
}

void Ruler::paint_loop(QPainter& painter) const {
    if (const auto& loop = scene_.loop()) {
        const int from = static_cast<int>(std::lround(scene_.view().x_of(loop->begin)));
        const int to = static_cast<int>(std::lround(scene_.view().x_of(loop->end)));
        painter.fillRect(from, 0, to - from, ticks_px - 1, look().selection);
        painter.fillRect(from, 0, to - from, 3, look().brass);
    }
}

std::vector<Ruler::Flag> Ruler::flags() const {
    std::vector<const Mark*> marks;
    for (const Mark& mark : scene_.document().sequence().marks) {
        marks.push_back(&mark);
    }
    std::stable_sort(marks.begin(), marks.end(),
                     [](const Mark* a, const Mark* b) { return a->time < b->time; });
    const QFontMetrics metrics(gasp::font(TypeSize::small));
    std::vector<Flag> flags;
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const int x =
            static_cast<int>(std::lround(std::clamp(scene_.view().x_of(marks[i]->time), -1e5, 1e5)));
        const double next = i + 1 < marks.size() ? scene_.view().x_of(marks[i + 1]->time) : 1e6;
        const int room = static_cast<int>(std::min(next - x - 2, 400.0)) - 2 * flag_pad;
        Flag flag{marks[i]->id, {}, {}};
        if (room >= 24) {
            flag.text = metrics.elidedText(QString::fromStdString(marks[i]->name), Qt::ElideRight, room);
        }
        const int text_px = flag.text.isEmpty() ? 0 : metrics.horizontalAdvance(flag.text) + 2 * flag_pad;
        flag.box = QRect(x, ticks_px + 3, std::max(text_px, 7), flag_height);
        flags.push_back(std::move(flag));
    }
    return flags;
}

void Ruler::paint_marks(QPainter& painter) const {
    const Palette& p = look();
    for (const Flag& flag : flags()) {
        if (flag.box.right() < 0 || flag.box.left() > width()) {
            continue;
        }
        const bool selected = scene_.document().selection().mark == flag.mark;
        painter.fillRect(flag.box.left(), flag.box.top(), 1, height() - flag.box.top(), p.brass);
        painter.fillRect(flag.box, selected ? p.brass : p.raised);
        painter.fillRect(flag.box.left(), flag.box.top(), 2, flag.box.height(), p.brass);
        painter.setPen(selected ? p.on_brass : p.text);
        painter.drawText(flag.box.adjusted(flag_pad, 0, 0, 0), Qt::AlignVCenter | Qt::AlignLeft, flag.text);
    }
}

void Ruler::sort_findings() {
    auto result = scene_.result();
    if (result == sorted_result_) {
        return;
    }
    sorted_result_ = std::move(result);
    timed_.clear();
    if (sorted_result_) {
        for (const Finding& finding : sorted_result_->findings) {
            if (finding.place.time && !finding.not_checked) {
                timed_.push_back({*finding.place.time, &finding});
            }
        }
    }
    std::stable_sort(timed_.begin(), timed_.end(),
                     [](const TimedFinding& a, const TimedFinding& b) { return a.time < b.time; });
}

std::vector<Ruler::Pin> Ruler::pins() {
    sort_findings();
    std::vector<Pin> pins;
    for (std::size_t i = 0; i < timed_.size(); ++i) {
        const Finding* finding = timed_[i].finding;
        const double x = scene_.view().x_of(timed_[i].time);
        if (pins.empty() || x - pins.back().x > pin_px + 8) {
            pins.push_back({x, std::span(timed_).subspan(i, 1), finding});
            continue;
        }
        Pin& pin = pins.back();
        pin.findings = {pin.findings.data(), pin.findings.size() + 1};
        if (rank(finding) < rank(pin.gravest)) {
            pin.gravest = finding;
        }
    }
    return pins;
}

void Ruler::paint_findings(QPainter& painter) {
    const int top = ticks_px + marks_px;
    for (const Pin& pin : pins()) {
        if (pin.x < -pin_px || pin.x > width() + pin_px) {
            continue;
        }
        const Severity worst = pin.gravest->severity;
        const QRectF box(std::round(pin.x) - pin_px / 2, top + (findings_px - 1 - pin_px) / 2, pin_px,
                         pin_px);
        paint_severity(painter, box, worst, look().severity(worst));
        if (pin.findings.size() > 1) {
            painter.setPen(look().severity_text(worst));
            painter.drawText(QRectF(box.right() + 3, top, 24, findings_px - 1),
                             Qt::AlignVCenter | Qt::AlignLeft, QString::number(pin.findings.size()));
        }
    }
}

QRect Ruler::playhead_rect(Micros time) const {
    const double x = std::clamp(scene_.view().x_of(time), -64.0, width() + 64.0);
    return {static_cast<int>(std::lround(x)) - 6, 0, 13, height()};
}

void Ruler::paint_playhead(QPainter& painter) const {
    const QRect box = playhead_rect(scene_.playhead());
    const double x = box.left() + 6.5;
    painter.fillRect(box.left() + 5, 8, 3, height() - 8, look().ground);
    painter.fillRect(box.left() + 6, 8, 1, height() - 8, look().brass);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(look().brass);
    painter.drawPolygon(QPolygonF{QPointF(x - 6, 0), QPointF(x + 6, 0), QPointF(x + 6, 4), QPointF(x, 11),
                                  QPointF(x - 6, 4)});
    painter.setRenderHint(QPainter::Antialiasing, false);
}

// The mouse
// -------------------------------------------------------------------------------------------------------

QRect Ruler::flag_of(MarkId mark) const {
    for (const Flag& flag : flags()) {
        if (flag.mark == mark) {
            return flag.box;
        }
    }
    return {};
}

std::optional<MarkId> Ruler::mark_at(QPointF at) const {
    std::optional<MarkId> found;
    for (const Flag& flag : flags()) {
        if (QRectF(flag.box).adjusted(-3, -3, 2, 5).contains(at)) {
            found = flag.mark;
        }
    }
    return found;
}

const Ruler::Pin* Ruler::pin_at(const std::vector<Pin>& pins, QPointF at) const {
    if (at.y() < ticks_px + marks_px) {
        return nullptr;
    }
    const auto found = std::find_if(pins.begin(), pins.end(), [at](const Pin& pin) {
        return std::abs(pin.x - at.x()) <= pin_px / 2 + 3;
    });
    return found == pins.end() ? nullptr : &*found;
}

Pointer Ruler::pointer_of(const QMouseEvent& event) const {
    return {event.position(), scene_.view().time_at(event.position().x()), event.modifiers()};
}

Micros Ruler::snapped_time(const Pointer& pointer) const {
    const std::array edge{pointer.time};
    SnapPlaces places = scene_.snap_places();
    places.playhead = Micros{-1'000'000'000};
    const auto found = pointer.snaps() ? snap(places, edge, {}) : std::nullopt;
    return std::max(found ? found->time : pointer.time, Micros{0});
}

void Ruler::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) {
        return;
    }
    pressed_ = pointer_of(*event);
    if (pressed_->at.y() >= ticks_px) {
        press_strip(*pressed_);
    } else if (pressed_->keys & Qt::ShiftModifier) {
        loop_from_ = snapped_time(*pressed_);
    } else {
        scrubbing_ = true;
        emit playhead_requested(snapped_time(*pressed_));
    }
}

void Ruler::press_strip(const Pointer& pointer) {
    const std::vector<Pin> all = pins();
    if (const Pin* pin = pin_at(all, pointer.at)) {
        emit finding_chosen(*pin->gravest);
    } else if (pointer.at.y() < ticks_px + marks_px) {
        pressed_mark_ = mark_at(pointer.at);
        Selection selection;
        selection.mark = pressed_mark_;
        selection.channel = scene_.document().selection().channel;
        scene_.document().select(std::move(selection));
    }
}

void Ruler::mouseMoveEvent(QMouseEvent* event) {
    const Pointer pointer = pointer_of(*event);
    if (scrubbing_) {
        emit playhead_dragged(snapped_time(pointer));
    } else if (loop_from_) {
        const Micros to = snapped_time(pointer);
        if (to != *loop_from_) {
            emit loop_requested(Dwell{std::min(to, *loop_from_), std::max(to, *loop_from_)});
        }
    } else if (pressed_mark_) {
        const bool far =
            (pointer.at - pressed_->at).manhattanLength() >= QApplication::startDragDistance() / 2.0;
        if (!drag_ && far) {
            drag_ = mark_drag(scene_, *pressed_mark_, pressed_->time);
        }
        if (drag_) {
            // The read-out hangs below the flags, over the lanes.
            drag_->move({QPointF(pointer.at.x(), 0), pointer.time, pointer.keys});
        }
    } else {
        setCursor(mark_at(pointer.at) ? Qt::SizeHorCursor : Qt::ArrowCursor);
    }
}

void Ruler::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) {
        return;
    }
    if (drag_) {
        drag_->finish();
        drag_.reset();
    }
    scrubbing_ = false;
    loop_from_.reset();
    pressed_mark_.reset();
    pressed_.reset();
}

void Ruler::mouseDoubleClickEvent(QMouseEvent* event) {
    const Pointer pointer = pointer_of(*event);
    if (event->button() != Qt::LeftButton) {
        return;
    }
    if (pointer.at.y() < ticks_px) {
        emit loop_requested(std::nullopt);
    } else if (pointer.at.y() < ticks_px + marks_px) {
        if (!mark_at(pointer.at)) {
            const Show& show = scene_.document().show();
            const MarkId id{show.next_id};
            const std::string name = next_mark_name(scene_.document().sequence());
            scene_.document().perform(
                add_mark(show, scene_.document().sequence_id(), snapped_time(pointer), name));
            Selection selection;
            selection.mark = id;
            scene_.document().select(std::move(selection));
        }
        emit rename_requested();
    }
}

void Ruler::contextMenuEvent(QContextMenuEvent* event) {
    if (const auto mark = mark_at(event->pos())) {
        Selection selection;
        selection.mark = mark;
        scene_.document().select(std::move(selection));
    }
    emit menu_requested(event->globalPos(), scene_.view().time_at(event->pos().x()));
}

void Ruler::wheelEvent(QWheelEvent* event) {
    ViewTransform view = scene_.view();
    view.zoom_about(event->position().x(), std::pow(1.25, event->angleDelta().y() / 120.0));
    scene_.set_view(view);
    event->accept();
}

void Ruler::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && drag_) {
        drag_->cancel();
        drag_.reset();
        pressed_mark_.reset();
    } else {
        QWidget::keyPressEvent(event);
    }
}

QStringList Ruler::lines_of(std::span<const TimedFinding> findings) {
    constexpr std::size_t most = 12;
    std::vector<TimedFinding> sorted(findings.begin(), findings.end());
    std::stable_sort(sorted.begin(), sorted.end(), [](const TimedFinding& a, const TimedFinding& b) {
        return rank(a.finding) < rank(b.finding);
    });
    QStringList lines;
    for (std::size_t i = 0; i < std::min(most, sorted.size()); ++i) {
        lines << QString::fromStdString(text(*sorted[i].finding));
    }
    if (sorted.size() > most) {
        lines << tr("and %1 more").arg(sorted.size() - most);
    }
    return lines;
}

bool Ruler::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) {
        return QWidget::event(event);
    }
    auto* help = static_cast<QHelpEvent*>(event);
    const std::vector<Pin> all = pins();
    if (const Pin* pin = pin_at(all, help->pos())) {
        const QStringList lines = lines_of(pin->findings);
        QToolTip::showText(help->globalPos(), lines.join("\n"), this);
    } else if (help->pos().y() < ticks_px) {
        QToolTip::showText(help->globalPos(),
                           tr("Click: move the playhead. Drag: hear what is there. Shift and drag: loop. "
                              "Double-click: no loop."),
                           this);
    } else if (const auto mark = mark_at(help->pos())) {
        const Mark* found = gasp::find(scene_.document().sequence(), *mark);
        QToolTip::showText(help->globalPos(),
                           QString::fromStdString(found->name + "   " + print_time(found->time)), this);
    } else {
        QToolTip::hideText();
    }
    return true;
}

}  // namespace gasp
