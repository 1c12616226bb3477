// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/canvas.hpp"

#include "core/show/edits.hpp"
#include "ui/editor/document.hpp"
#include "ui/look/look.hpp"
#include "ui/timeline/accessible_canvas.hpp"
#include "ui/timeline/overlay.hpp"
#include "ui/timeline/strikes.hpp"

#include <QApplication>
#include <QContextMenuEvent>
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

constexpr double wheel_zoom = 1.25;    ///< for a notch
constexpr double edge_scroll_px = 24;  ///< near the edge a drag scrolls
constexpr Micros new_cue_length{500'000};

}  // namespace

Canvas::Canvas(Scene& scene, QWidget* parent) : QWidget(parent), scene_(scene), image_(scene) {
    make_canvas_accessible();
    setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setAttribute(Qt::WA_OpaquePaintEvent);
    setMinimumSize(160, 64);
    setAccessibleName(tr("Lanes of the timeline"));
    listen();
}

Canvas::~Canvas() = default;

void Canvas::listen() {
    connect(&scene_, &Scene::view_changed, this, &Canvas::repaint_all);
    connect(&scene_, &Scene::lanes_changed, this, [this] {
        image_.forget_curves();
        repaint_all();
    });
    connect(&scene_, &Scene::marks_changed, this, &Canvas::repaint_all);
    connect(&scene_, &Scene::loop_changed, this, &Canvas::repaint_all);
    connect(&scene_, &Scene::result_changed, this, [this] {
        image_.forget_curves();
        repaint_all();
    });
    connect(&scene_, &Scene::cues_changed, this, [this](const std::vector<ChannelId>& channels) {
        for (const ChannelId channel : channels) {
            image_.dirty(channel);
            image_.forget_curve(channel);
            if (const Lane* lane = scene_.lanes().of(channel)) {
                update(0, scene_.top_of(*lane), width(), lane->height);
            }
        }
    });
    connect(&scene_, &Scene::clips_changed, this, [this] {
        image_.dirty(Lane::Kind::sound);
        for (const Lane& sound : scene_.lanes().sounds()) {
            update(0, scene_.top_of(sound), width(), sound.height);
        }
    });
    connect(&scene_, &Scene::selection_changed, this, &Canvas::repaint_selection);
    connect(&scene_, &Scene::selection_changed, this, [this] { tell_selection(*this); });
    connect(&scene_, &Scene::playhead_moved, this, &Canvas::move_playhead);
    connect(&scene_, &Scene::drag_changed, this, &Canvas::repaint_overlay);
    connect(&scene_, &Scene::flash_changed, this, qOverload<>(&QWidget::update));
}

// Painting
// --------------------------------------------------------------------------------------------------------

void Canvas::repaint_all() {
    image_.dirty_all();
    update();
}

void Canvas::repaint_selection() {
    constexpr std::size_t few = 64;
    const Selection& now = scene_.document().selection();
    const bool same_rest = now.mark == shown_selection_.mark && now.clip == shown_selection_.clip;
    if (!same_rest || now.cues.size() > few || shown_selection_.cues.size() > few) {
        repaint_all();
    } else {
        for (const Selection* selection : {&now, static_cast<const Selection*>(&shown_selection_)}) {
            for (const CueId id : selection->cues) {
                if (const Cue* cue = gasp::find(scene_.document().sequence(), id)) {
                    image_.dirty(cue->channel);
                }
            }
        }
        update();
    }
    shown_selection_ = now;
}

QRect Canvas::playhead_rect(Micros time) const {
    const double x = std::clamp(scene_.view().x_of(time), -16.0, width() + 16.0);
    return {static_cast<int>(std::lround(x)) - 1, 0, 3, height()};
}

void Canvas::move_playhead(Micros before) {
    const QRect from = playhead_rect(before);
    const QRect to = playhead_rect(scene_.playhead());
    if (from != to) {
        update(QRegion(from) + to);
    }
}

QRegion Canvas::overlay_region() const {
    return overlay::region(scene_, rect());
}

void Canvas::repaint_overlay() {
    const QRegion now = overlay_region();
    update(shown_overlay_ + now);
    shown_overlay_ = now;
}

void Canvas::paintEvent(QPaintEvent* event) {
    image_.resize(size(), devicePixelRatioF());
    const QImage& picture = image_.fresh();
    QPainter painter(this);
    const double scale = devicePixelRatioF();
    for (const QRect& part : event->region()) {
        const QRectF source(QPointF(part.topLeft()) * scale, QSizeF(part.size()) * scale);
        painter.drawImage(QRectF(part), picture, source);
    }
    painter.fillRect(playhead_rect(scene_.playhead()), look().canvas);
    painter.fillRect(playhead_rect(scene_.playhead()).adjusted(1, 0, -1, 0), look().brass);
    overlay::paint(painter, scene_, rect(), hasFocus());
}

void Canvas::resizeEvent(QResizeEvent*) {
    ViewTransform view = scene_.view();
    const bool whole = view.shows_just_the_whole();
    view.set_width(width());
    if (whole) {
        view.fit();
    }
    scene_.set_view(view);
    scene_.set_lanes_px(height());
}

void Canvas::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::StyleChange) {
        repaint_all();
    }
    QWidget::changeEvent(event);
}

void Canvas::focusInEvent(QFocusEvent*) {
    update();
}
void Canvas::focusOutEvent(QFocusEvent*) {
    update();
}

// The mouse
// -------------------------------------------------------------------------------------------------------

Pointer Canvas::pointer_of(const QMouseEvent& event) const {
    return {event.position(), scene_.view().time_at(event.position().x()), event.modifiers()};
}

bool Canvas::empty_sound() const {
    return scene_.document().sequence().clips.empty();
}

void Canvas::mousePressEvent(QMouseEvent* event) {
    const Pointer pointer = pointer_of(*event);
    pointed_ = pointer.time;
    if (event->button() == Qt::MiddleButton) {
        pan_ = event->position();
        setCursor(Qt::ClosedHandCursor);
    } else if (event->button() == Qt::LeftButton) {
        press_left(pointer);
    } else if (event->button() == Qt::RightButton && !drag_) {
        const Hit found = hit(scene_, event->position());
        if (found.cue && !scene_.document().selection().has(*found.cue)) {
            scene_.document().select({{*found.cue}, {}, {}, found.lane->channel});
        }
    }
}

void Canvas::press_left(const Pointer& pointer) {
    pressed_ = pointer;
    pressed_hit_ = hit(scene_, pointer.at);
    deselect_on_release_.reset();
    select_alone_on_release_.reset();
    if (pressed_hit_.cue) {
        press_cue(pressed_hit_, pointer);
    } else if (pressed_hit_.clip) {
        scene_.document().select({{}, {}, pressed_hit_.clip, {}});
    } else if (!(pointer.keys & (Qt::ControlModifier | Qt::ShiftModifier))) {
        Selection selection;
        if (pressed_hit_.lane != nullptr && pressed_hit_.lane->kind == Lane::Kind::channel) {
            selection.channel = pressed_hit_.lane->channel;
        }
        scene_.document().select(std::move(selection));
    }
}

void Canvas::press_cue(const Hit& found, const Pointer& pointer) {
    Selection selection = scene_.document().selection();
    const bool has = selection.has(*found.cue);
    if (pointer.keys & (Qt::ControlModifier | Qt::ShiftModifier)) {
        if (has) {
            deselect_on_release_ = found.cue;
        } else {
            selection.cues.insert(std::upper_bound(selection.cues.begin(), selection.cues.end(), *found.cue),
                                  *found.cue);
        }
    } else if (has) {
        select_alone_on_release_ = found.cue;
    } else {
        selection.cues = {*found.cue};
    }
    selection.mark.reset();
    selection.clip.reset();
    selection.channel = found.lane->channel;
    scene_.document().select(std::move(selection));
}

void Canvas::start_drag(const Pointer& pointer) {
    const Hit& found = pressed_hit_;
    const bool extends = (pressed_->keys & (Qt::ControlModifier | Qt::ShiftModifier)) != 0;
    const Cue* cue = found.cue ? gasp::find(scene_.document().sequence(), *found.cue) : nullptr;
    // The start of a cue that is placed by its strike follows from that.
    const bool bound = cue != nullptr && cue->strikes && found.part == Hit::Part::start_edge;
    if (found.cue && (found.part == Hit::Part::body || bound)) {
        drag_ = move_cues_drag(scene_, *found.cue, pressed_->time);
    } else if (found.part == Hit::Part::strike) {
        drag_ = strike_drag(scene_, *found.cue, pressed_->time);
    } else if (found.cue) {
        drag_ = stretch_cue_drag(scene_, *found.cue, found.part == Hit::Part::start_edge);
    } else if (found.clip) {
        const ClipPart part = found.part == Hit::Part::body         ? ClipPart::body
                              : found.part == Hit::Part::start_edge ? ClipPart::start
                              : found.part == Hit::Part::fade_in    ? ClipPart::fade_in
                              : found.part == Hit::Part::fade_out   ? ClipPart::fade_out
                                                                    : ClipPart::end;
        drag_ = clip_drag(scene_, *found.clip, part, *pressed_);
    } else {
        drag_ = empty_drag(scene_, *pressed_, extends, extends);
    }
    deselect_on_release_.reset();
    select_alone_on_release_.reset();
    drag_->move(pointer);
}

void Canvas::mouseMoveEvent(QMouseEvent* event) {
    const Pointer pointer = pointer_of(*event);
    pointed_ = pointer.time;
    if (pan_) {
        pan_to(event->position());
    } else if (drag_) {
        scroll_at_edges(pointer);
        drag_->move(pointer_of(*event));
    } else if (pressed_) {
        if ((pointer.at - pressed_->at).manhattanLength() >= QApplication::startDragDistance() / 2.0) {
            start_drag(pointer);
        }
    } else {
        update_cursor(event->position());
    }
}

void Canvas::pan_to(QPointF at) {
    ViewTransform view = scene_.view();
    view.scroll_by(pan_->x() - at.x());
    scene_.set_follow(false);
    scene_.set_view(view);
    scene_.set_scroll_y(scene_.scroll_y() + static_cast<int>(std::lround(pan_->y() - at.y())));
    pan_ = at;
}

void Canvas::scroll_at_edges(const Pointer& pointer) {
    ViewTransform view = scene_.view();
    const double over_left = edge_scroll_px - pointer.at.x();
    const double over_right = pointer.at.x() - (width() - edge_scroll_px);
    if (over_left > 0 || over_right > 0) {
        view.scroll_by(over_left > 0 ? -over_left : over_right);
        scene_.set_view(view);
    }
}

void Canvas::end_press(bool keep) {
    if (drag_ && keep) {
        drag_->finish();
    } else if (drag_) {
        drag_->cancel();
    }
    drag_.reset();
    pressed_.reset();
}

void Canvas::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() == Qt::MiddleButton && pan_) {
        pan_.reset();
        update_cursor(event->position());
        return;
    }
    if (event->button() != Qt::LeftButton || !pressed_) {
        return;
    }
    const bool dragged = drag_ != nullptr;
    // Looked up again: the lanes may have been laid out anew since the press.
    const Hit found = hit(scene_, pressed_->at);
    end_press(true);
    if (dragged) {
        update_cursor(event->position());
        return;
    }
    Selection selection = scene_.document().selection();
    if (deselect_on_release_) {
        std::erase(selection.cues, *deselect_on_release_);
        scene_.document().select(std::move(selection));
    } else if (select_alone_on_release_) {
        selection.cues = {*select_alone_on_release_};
        scene_.document().select(std::move(selection));
    } else if (found.lane != nullptr && found.lane->kind == Lane::Kind::sound && empty_sound()) {
        emit sound_requested();
    } else if (scene_.document().show().rig.channels.empty()) {
        emit rig_requested();
    }
}

void Canvas::mouseDoubleClickEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) {
        return;
    }
    const Hit found = hit(scene_, event->position());
    if (found.cue) {
        scene_.document().select({{*found.cue}, {}, {}, found.lane->channel});
        emit rename_requested();
    } else if (found.lane != nullptr && found.lane->kind == Lane::Kind::channel) {
        add_cue_at(pointer_of(*event), *found.lane);
    }
}

void Canvas::add_cue_at(const Pointer& pointer, const Lane& lane) {
    const std::array edge{pointer.time};
    const auto found = pointer.snaps() ? snap(scene_.snap_places(), edge, {}) : std::nullopt;
    Cue cue;
    cue.channel = lane.channel;
    cue.at = std::max(found ? found->time : pointer.time, Micros{0});
    cue.length = new_cue_length;
    if (found && found->mark) {
        cue.mark = found->mark;
        cue.at = Micros{0};
    }
    const CueId id{scene_.document().show().next_id};
    scene_.document().perform(add_cues(scene_.document().show(), scene_.document().sequence_id(), {cue}));
    scene_.document().select({{id}, {}, {}, lane.channel});
}

void Canvas::contextMenuEvent(QContextMenuEvent* event) {
    if (!drag_) {
        if (event->reason() == QContextMenuEvent::Mouse) {
            pointed_ = scene_.view().time_at(event->pos().x());
        }
        emit menu_requested(event->globalPos());
    }
}

void Canvas::wheelEvent(QWheelEvent* event) {
    const QPointF notches = QPointF(event->angleDelta()) / 120.0;
    ViewTransform view = scene_.view();
    if (event->modifiers() & Qt::ControlModifier) {
        scene_.set_scroll_y(scene_.scroll_y() -
                            static_cast<int>(std::lround(notches.y() * 2 * LaneLayout::channel_px)));
    } else if ((event->modifiers() & (Qt::ShiftModifier | Qt::AltModifier)) ||
               std::abs(notches.x()) > std::abs(notches.y())) {
        const double turn = std::abs(notches.x()) > std::abs(notches.y()) ? notches.x() : notches.y();
        view.scroll_by(-turn * view.width() / 8);
        scene_.set_follow(false);
    } else {
        view.zoom_about(event->position().x(), std::pow(wheel_zoom, notches.y()));
    }
    scene_.set_view(view);
    event->accept();
}

void Canvas::update_cursor(QPointF at) {
    const Hit found = hit(scene_, at);
    switch (found.part) {
        case Hit::Part::body:
            setCursor(Qt::ArrowCursor);
            break;
        case Hit::Part::start_edge:
        case Hit::Part::end_edge:
        case Hit::Part::strike:
        case Hit::Part::fade_in:
        case Hit::Part::fade_out:
            setCursor(Qt::SizeHorCursor);
            break;
        case Hit::Part::nothing: {
            const bool draws = found.lane != nullptr && found.lane->kind == Lane::Kind::channel;
            setCursor(draws ? Qt::CrossCursor : Qt::ArrowCursor);
            break;
        }
    }
}

// Keys and words
// ----------------------------------------------------------------------------------------------------

void Canvas::keyPressEvent(QKeyEvent* event) {
    if (event->key() != Qt::Key_Escape) {
        QWidget::keyPressEvent(event);
        return;
    }
    if (pressed_) {
        end_press(false);
    } else if (!scene_.document().selection().empty()) {
        Selection selection;
        selection.channel = scene_.document().selection().channel;
        scene_.document().select(std::move(selection));
    } else {
        event->ignore();
    }
}

bool Canvas::focusNextPrevChild(bool next) {
    bool found = false;
    if (hasFocus()) {
        emit cue_after_requested(next ? 1 : -1, found);
    }
    return found || QWidget::focusNextPrevChild(next);
}

bool Canvas::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        auto* help = static_cast<QHelpEvent*>(event);
        const Hit found = hit(scene_, help->pos());
        const Sequence& sequence = scene_.document().sequence();
        if (const Cue* cue = found.cue ? gasp::find(sequence, *found.cue) : nullptr) {
            const QString name = cue->name.empty() ? QString() : QString::fromStdString(cue->name) + "\n";
            const auto strike = seen_strike(scene_, cue->id);
            const QString more = strike ? "\n" + strike_text(scene_, *cue, *strike) : QString();
            QToolTip::showText(help->globalPos(), name + figures_of(sequence, *cue) + more, this);
        } else {
            QToolTip::hideText();
        }
        return true;
    }
    return QWidget::event(event);
}

}  // namespace gasp
