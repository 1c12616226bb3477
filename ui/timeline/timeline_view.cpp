// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/timeline_view.hpp"

#include "core/show/edits.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"
#include "ui/look/icons.hpp"
#include "ui/look/look.hpp"
#include "ui/timeline/canvas.hpp"
#include "ui/timeline/edit_actions.hpp"
#include "ui/timeline/grid_actions.hpp"
#include "ui/timeline/lane_header.hpp"
#include "ui/timeline/name_editor.hpp"
#include "ui/timeline/ruler.hpp"
#include "ui/timeline/scene.hpp"

#include <QAction>
#include <QActionGroup>
#include <QGridLayout>
#include <QLabel>
#include <QMenu>
#include <QScrollBar>
#include <QSignalBlocker>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace gasp {

namespace {

constexpr double key_zoom = 1.5;
constexpr int scroll_steps = 1'000'000;

/// The words at the left of the ruler's strips.
QWidget* make_corner(QWidget* parent, QToolButton* grid) {
    auto* corner = new QWidget(parent);
    corner->setFixedWidth(LaneHeader::width_px);
    auto* column = new QVBoxLayout(corner);
    column->setContentsMargins(8, 0, 8, 0);
    column->setSpacing(0);
    grid->setFixedHeight(Ruler::ticks_px);
    grid->setAutoRaise(true);
    grid->setFont(font(TypeSize::small));
    grid->setPopupMode(QToolButton::InstantPopup);
    column->addWidget(grid, 0, Qt::AlignRight);
    const std::pair<QString, int> rows[] = {{QObject::tr("Marks"), Ruler::marks_px},
                                            {QObject::tr("Findings"), Ruler::findings_px}};
    for (const auto& [word, height] : rows) {
        auto* label = new QLabel(word, corner);
        label->setFixedHeight(height);
        label->setFont(font(TypeSize::small));
        label->setProperty("look", "soft");
        label->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
        column->addWidget(label);
    }
    return corner;
}

/// From the first to the last of what is selected.
std::optional<Dwell> selected_stretch(const Scene& scene) {
    const Selection& selection = scene.document().selection();
    Dwell stretch{Micros::max(), Micros::min()};
    for (const CueId id : selection.cues) {
        if (const PlacedCue* cue = scene.cues().find(id)) {
            stretch.begin = std::min(stretch.begin, cue->begin);
            stretch.end = std::max(stretch.end, cue->end);
        }
    }
    const Sequence& sequence = scene.document().sequence();
    if (const SoundClip* clip = selection.clip ? gasp::find(sequence, *selection.clip) : nullptr) {
        stretch = {clip->start, clip->start + clip->length};
    }
    return stretch.begin < stretch.end ? std::optional(stretch) : std::nullopt;
}

}  // namespace

struct TimelineView::Parts {
    Parts(TimelineView& owner, Document& document, Analysis& analysis)
        : view(owner),
          scene(document, analysis),
          grid_button(new QToolButton),
          corner(make_corner(&owner, grid_button)),
          ruler(new Ruler(scene, &owner)),
          header(new LaneHeader(scene, &owner)),
          canvas(new Canvas(scene, &owner)),
          across(new QScrollBar(Qt::Horizontal, &owner)),
          down(new QScrollBar(Qt::Vertical, &owner)),
          names(new NameEditor(&owner)),
          edits(new EditActions(scene, owner)),
          grids(new GridActions(scene, settings, owner)) {
        scene.set_lane_height(settings.lane_height());
    }

    void lay_out();
    void connect_scene();
    void connect_parts();
    void make_view_actions();
    void make_height_actions();
    void fill_grid_button();
    void loop_selected();
    QAction* view_action(Icon which, const QString& text, const QKeySequence& key,
                         void (TimelineView::*does)());
    void update_scroll_bars();
    void scroll_across(int value);
    void rename_selected();
    void open_menu(QPoint global, Micros time);
    void zoom(double factor);

    TimelineView& view;
    Settings settings;
    Scene scene;
    QToolButton* grid_button;
    QWidget* corner;
    Ruler* ruler;
    LaneHeader* header;
    Canvas* canvas;
    QScrollBar* across;
    QScrollBar* down;
    NameEditor* names;
    EditActions* edits;
    GridActions* grids;
    std::vector<QAction*> view_actions;
    QAction* loop_action = nullptr;
};

TimelineView::TimelineView(Document& document, Analysis& analysis, QWidget* parent)
    : QWidget(parent), parts_(std::make_unique<Parts>(*this, document, analysis)) {
    setAccessibleName(tr("Timeline"));
    setFocusProxy(parts_->canvas);
    parts_->lay_out();
    parts_->make_view_actions();
    parts_->fill_grid_button();
    parts_->connect_scene();
    parts_->connect_parts();
    parts_->update_scroll_bars();
}

TimelineView::~TimelineView() {
    // The parts listen to the scene, which goes with parts_.
    for (QWidget* part : {static_cast<QWidget*>(parts_->ruler), static_cast<QWidget*>(parts_->header),
                          static_cast<QWidget*>(parts_->canvas)}) {
        delete part;
    }
    delete parts_->edits;
    delete parts_->grids;
}

void TimelineView::Parts::lay_out() {
    auto* grid = new QGridLayout(&view);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setSpacing(0);
    grid->addWidget(corner, 0, 0);
    grid->addWidget(ruler, 0, 1);
    grid->addWidget(header, 1, 0);
    grid->addWidget(canvas, 1, 1);
    grid->addWidget(down, 1, 2);
    grid->addWidget(across, 2, 1);
    grid->setColumnStretch(1, 1);
    grid->setRowStretch(1, 1);
    across->setAccessibleName(tr("Scroll in time"));
    down->setAccessibleName(tr("Scroll the lanes"));
}

void TimelineView::Parts::connect_scene() {
    connect(&scene, &Scene::view_changed, &view, [this] { update_scroll_bars(); });
    connect(&scene, &Scene::lanes_changed, &view, [this] { update_scroll_bars(); });
    for (const auto signal : {&Scene::view_changed, &Scene::lanes_changed}) {
        connect(&scene, signal, &view, &TimelineView::stretch_changed);
    }
    connect(&scene, &Scene::follow_changed, &view, &TimelineView::follow_changed);
    connect(across, &QScrollBar::valueChanged, &view, [this](int value) { scroll_across(value); });
    connect(down, &QScrollBar::valueChanged, &view, [this](int value) { scene.set_scroll_y(value); });
}

void TimelineView::Parts::connect_parts() {
    connect(ruler, &Ruler::playhead_requested, &view, &TimelineView::playhead_requested);
    connect(ruler, &Ruler::playhead_dragged, &view, &TimelineView::playhead_dragged);
    connect(edits, &EditActions::playhead_dragged, &view, &TimelineView::playhead_dragged);
    connect(edits, &EditActions::moved_by_key, &view, &TimelineView::moved_by_key);
    connect(ruler, &Ruler::loop_requested, &view, &TimelineView::loop_requested);
    connect(ruler, &Ruler::rename_requested, &view, [this] { rename_selected(); });
    connect(ruler, &Ruler::menu_requested, &view,
            [this](QPoint global, Micros time) { open_menu(global, time); });
    connect(ruler, &Ruler::finding_chosen, &view,
            [this](const Finding& finding) { view.jump_to(finding.place); });
    connect(canvas, &Canvas::menu_requested, &view,
            [this](QPoint global) { open_menu(global, canvas->pointed_time()); });
    connect(canvas, &Canvas::rename_requested, &view, [this] { rename_selected(); });
    connect(canvas, &Canvas::rig_requested, &view, &TimelineView::rig_requested);
    connect(canvas, &Canvas::sound_requested, &view, &TimelineView::sound_requested);
    connect(canvas, &Canvas::cue_after_requested, edits,
            [this](int way, bool& found) { found = edits->select_cue_after(way); });
    connect(edits, &EditActions::said, &view, &TimelineView::said);
    connect(edits, &EditActions::rename_requested, &view, [this] { rename_selected(); });
    connect(edits, &EditActions::sound_file_requested, &view, &TimelineView::sound_file_requested);
    connect(edits, &EditActions::shown, &view, &TimelineView::reveal);
}

QAction* TimelineView::Parts::view_action(Icon which, const QString& text, const QKeySequence& key,
                                          void (TimelineView::*does)()) {
    auto* action = new QAction(icon(which), text, &view);
    action->setShortcut(key);
    action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    action->setToolTip(QStringLiteral("%1 (%2)").arg(text, key.toString(QKeySequence::NativeText)));
    connect(action, &QAction::triggered, &view, does);
    view.addAction(action);
    view_actions.push_back(action);
    return action;
}

void TimelineView::Parts::make_view_actions() {
    view_action(Icon::zoom_in, tr("Zoom in"), QKeySequence("+"), &TimelineView::zoom_in)
        ->setShortcuts({QKeySequence("+"), QKeySequence("="), QKeySequence("Ctrl++")});
    view_action(Icon::zoom_out, tr("Zoom out"), QKeySequence("-"), &TimelineView::zoom_out);
    view_action(Icon::fit, tr("Show the whole sequence"), QKeySequence("Shift+Z"), &TimelineView::fit);
    view_action(Icon::zoom_selection, tr("Show what is selected"), QKeySequence("Z"),
                &TimelineView::zoom_to_selection);
    auto* follow = new QAction(icon(Icon::follow), tr("Follow the playhead"), &view);
    follow->setCheckable(true);
    follow->setChecked(scene.follow());
    follow->setShortcut(QKeySequence("Ctrl+F8"));
    follow->setToolTip(
        tr("Follow the playhead (%1)").arg(follow->shortcut().toString(QKeySequence::NativeText)));
    connect(follow, &QAction::triggered, &view, &TimelineView::set_follow);
    connect(&scene, &Scene::follow_changed, follow, &QAction::setChecked);
    view.addAction(follow);
    view_actions.push_back(follow);
    auto* loop = new QAction(icon(Icon::loop), tr("Loop what is selected"), &view);
    loop->setShortcut(QKeySequence("L"));
    loop->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    loop->setToolTip(tr("Loop what is selected (L)"));
    connect(loop, &QAction::triggered, &view, [this] { loop_selected(); });
    view.addAction(loop);
    loop_action = loop;
    view_actions.push_back(nullptr);
    make_height_actions();
}

void TimelineView::Parts::make_height_actions() {
    auto* group = new QActionGroup(&view);
    const std::tuple<LaneHeight, Icon, const char*, const char*> choices[] = {
        {LaneHeight::compact, Icon::down, "Compact lanes", "Shift+1"},
        {LaneHeight::normal, Icon::channel, "Normal lanes", "Shift+2"},
        {LaneHeight::tall, Icon::up, "Tall lanes", "Shift+3"}};
    for (const auto& [height, sign, text, key] : choices) {
        auto* action = new QAction(icon(sign), tr(text), group);
        action->setCheckable(true);
        action->setChecked(height == scene.lane_height());
        action->setShortcut(QKeySequence(key));
        action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
        action->setToolTip(QStringLiteral("%1 (%2)").arg(
            action->text(), action->shortcut().toString(QKeySequence::NativeText)));
        connect(action, &QAction::triggered, &view, [this, chosen = height] {
            settings.set_lane_height(chosen);
            scene.set_lane_height(chosen);
        });
        view.addAction(action);
        view_actions.push_back(action);
    }
}

void TimelineView::Parts::fill_grid_button() {
    auto* menu = new QMenu(grid_button);
    for (QAction* action : grids->actions()) {
        if (action == nullptr) {
            menu->addSeparator();
        } else {
            menu->addAction(action);
        }
    }
    grid_button->setMenu(menu);
    grid_button->setToolTip(tr("By what the ruler is divided"));
    const auto show = [this] {
        grid_button->setText(grids->words() + "   ");  // the style draws the arrow of the menu there
        grid_button->setAccessibleName(tr("Grid of the ruler: %1").arg(grids->words()));
    };
    connect(grids, &GridActions::changed, &view, show);
    show();
}

void TimelineView::Parts::loop_selected() {
    if (const auto selected = selected_stretch(scene)) {
        emit view.loop_requested(selected);
    } else {
        emit view.said(tr("Nothing is selected that could be looped"));
    }
}

void TimelineView::Parts::update_scroll_bars() {
    const QSignalBlocker across_blocker(across);
    const QSignalBlocker down_blocker(down);
    const ViewTransform& transform = scene.view();
    const double range = transform.scroll_range();
    const double unit = range > 0 ? scroll_steps / range : 0.0;
    across->setRange(0, range > 0.5 ? scroll_steps : 0);
    across->setPageStep(std::max(1, static_cast<int>(std::min(transform.width() * unit, 1e9))));
    across->setSingleStep(std::max(1, static_cast<int>(std::min(32 * unit, 1e9))));
    across->setValue(static_cast<int>(std::lround(transform.scroll_position() * unit)));
    const int below = std::max(0, scene.lanes().height() - scene.lanes_px());
    down->setRange(0, below);
    down->setPageStep(std::max(1, scene.scrolling_px()));
    down->setSingleStep(LaneLayout::channel_px);
    down->setValue(scene.scroll_y());
    down->setVisible(below > 0);
}

void TimelineView::Parts::scroll_across(int value) {
    ViewTransform transform = scene.view();
    transform.scroll_to(value * transform.scroll_range() / scroll_steps);
    scene.set_follow(false);
    scene.set_view(transform);
}

void TimelineView::Parts::rename_selected() {
    Document& document = scene.document();
    const Selection& selection = document.selection();
    const SequenceId sequence = document.sequence_id();
    if (const Mark* mark = selection.mark ? gasp::find(document.sequence(), *selection.mark) : nullptr) {
        const QRect box = ruler->flag_of(mark->id).translated(ruler->pos());
        names->open(box, QString::fromStdString(mark->name),
                    [this, sequence, id = mark->id](const QString& name) {
                        if (!name.isEmpty()) {
                            scene.document().perform(
                                rename_mark(scene.document().show(), sequence, id, name.toStdString()));
                        }
                    });
    } else if (const Cue* cue = selection.cues.empty()
                                    ? nullptr
                                    : gasp::find(document.sequence(), selection.cues.front())) {
        view.reveal(start_of(document.sequence(), *cue));
        const QRect box = box_of(scene, cue->id).toAlignedRect().translated(canvas->pos());
        names->open(box, QString::fromStdString(cue->name),
                    [this, sequence, id = cue->id](const QString& name) {
                        scene.document().perform(
                            rename_cue(scene.document().show(), sequence, id, name.toStdString()));
                    });
    }
}

void TimelineView::Parts::open_menu(QPoint global, Micros time) {
    QMenu menu(&view);
    connect(menu.addAction(icon(Icon::cue), tr("Add a cue here")), &QAction::triggered, &view,
            [this, time] { edits->add_cue_at(time); });
    connect(menu.addAction(icon(Icon::mark), tr("Add a mark here")), &QAction::triggered, &view,
            [this, time] { edits->add_mark_at(time); });
    menu.addSeparator();
    for (QAction* action : edits->edit()) {
        if (action == nullptr) {
            menu.addSeparator();
        } else if (action->isEnabled()) {
            menu.addAction(action);
        }
    }
    menu.exec(global);
}

void TimelineView::Parts::zoom(double factor) {
    ViewTransform transform = scene.view();
    const double playhead = transform.x_of(scene.playhead());
    const bool seen = playhead >= 0 && playhead <= transform.width();
    transform.zoom_about(seen ? playhead : transform.width() / 2, factor);
    scene.set_view(transform);
}

Micros TimelineView::playhead() const {
    return parts_->scene.playhead();
}
void TimelineView::set_playhead(Micros time) {
    parts_->scene.set_playhead(time);
}
std::optional<Dwell> TimelineView::loop() const {
    return parts_->scene.loop();
}
void TimelineView::set_loop(std::optional<Dwell> loop) {
    parts_->scene.set_loop(loop);
}
void TimelineView::set_units(UnitSystem units) {
    parts_->scene.set_units(units);
}
bool TimelineView::follow() const {
    return parts_->scene.follow();
}
void TimelineView::set_follow(bool on) {
    parts_->scene.set_follow(on);
}
void TimelineView::zoom_in() {
    parts_->zoom(key_zoom);
}
void TimelineView::zoom_out() {
    parts_->zoom(1 / key_zoom);
}

void TimelineView::fit() {
    ViewTransform transform = parts_->scene.view();
    transform.fit();
    parts_->scene.set_view(transform);
}

void TimelineView::zoom_to_selection() {
    if (const auto selected = selected_stretch(parts_->scene)) {
        ViewTransform transform = parts_->scene.view();
        transform.fit_to(selected->begin, selected->end);
        parts_->scene.set_view(transform);
    }
}

void TimelineView::reveal(Micros time) {
    ViewTransform transform = parts_->scene.view();
    const double x = transform.x_of(time);
    if (x < 0 || x > transform.width() - ViewTransform::margin_px) {
        transform.place(time, transform.width() / 3);
        parts_->scene.set_view(transform);
    }
}

void TimelineView::jump_to(const Place& place) {
    Scene& scene = parts_->scene;
    if (place.sequence) {
        scene.document().look_at(*place.sequence);
    }
    Selection selection;
    for (const auto& cue : {place.cue, place.other_cue}) {
        if (cue && gasp::find(scene.document().sequence(), *cue) != nullptr) {
            selection.cues.push_back(*cue);
        }
    }
    std::sort(selection.cues.begin(), selection.cues.end());
    const Cue* first =
        selection.cues.empty() ? nullptr : gasp::find(scene.document().sequence(), selection.cues.front());
    selection.channel = place.channel      ? place.channel
                        : first != nullptr ? std::optional(first->channel)
                                           : std::nullopt;
    std::optional<Micros> time = place.time;
    if (!time && first != nullptr) {
        time = start_of(scene.document().sequence(), *first);
    }
    if (const Lane* lane = selection.channel ? scene.lanes().of(*selection.channel) : nullptr) {
        const int top = scene.top_of(*lane);
        if (lane != scene.pinned() && (top < 0 || top + lane->height > scene.scrolling_px())) {
            scene.set_scroll_y(lane->top - scene.scrolling_px() / 3);
        }
    }
    if (time) {
        reveal(*time);
    }
    std::vector<CueId> cues = selection.cues;
    scene.document().select(std::move(selection));
    scene.flash(std::move(cues), time);
}

void TimelineView::add_mark_at_playhead() {
    parts_->edits->add_mark_at(playhead());
}

std::vector<QAction*> TimelineView::edit_actions() const {
    return parts_->edits->edit();
}
std::vector<QAction*> TimelineView::move_actions() const {
    return parts_->edits->move();
}
QAction* TimelineView::loop_action() const {
    return parts_->loop_action;
}
std::vector<QAction*> TimelineView::grid_actions() const {
    return parts_->grids->actions();
}
std::vector<QAction*> TimelineView::view_actions() const {
    return parts_->view_actions;
}

Dwell TimelineView::stretch() const {
    return {parts_->scene.view().left(), parts_->scene.view().right()};
}
QRect TimelineView::lanes_on_screen() const {
    return {parts_->canvas->mapToGlobal(QPoint(0, 0)), parts_->canvas->size()};
}

Moments& TimelineView::moments() {
    return parts_->scene.moments();
}

Waveforms& TimelineView::waveforms() {
    return parts_->scene.waveforms();
}

}  // namespace gasp
