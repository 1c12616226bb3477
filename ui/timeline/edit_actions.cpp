// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/edit_actions.hpp"

#include "core/show/edits.hpp"
#include "core/show/limits.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/mark_names.hpp"
#include "ui/look/icons.hpp"
#include "ui/timeline/clipboard.hpp"
#include "ui/timeline/placing.hpp"
#include "ui/timeline/strikes.hpp"

#include <QAction>
#include <QClipboard>
#include <QGuiApplication>
#include <QMimeData>
#include <QWidget>

#include <algorithm>

namespace gasp {

namespace {

constexpr Micros new_cue_length{500'000};
}  // namespace

EditActions::EditActions(Scene& scene, QWidget& home) : QObject(&home), scene_(scene), home_(home) {
    make_clipboard_actions();
    make_cue_actions();
    make_move_actions();
    make_sound_actions();
    connect(&scene_, &Scene::selection_changed, this, &EditActions::refresh);
    connect(&scene_, &Scene::lanes_changed, this, &EditActions::refresh);
    refresh();
}

QAction* EditActions::make(const Words& words, void (EditActions::*does)()) {
    auto* action = new QAction(icon(words.icon), tr(words.text), this);
    action->setShortcuts(words.keys);
    action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    const QString key =
        words.keys.isEmpty() ? QString() : words.keys.front().toString(QKeySequence::NativeText);
    action->setToolTip(key.isEmpty() ? action->text() : QStringLiteral("%1 (%2)").arg(action->text(), key));
    connect(action, &QAction::triggered, this, does);
    home_.addAction(action);
    if (words.needs == Words::Needs::cues) {
        need_cues_.push_back(action);
    } else if (words.needs == Words::Needs::anything) {
        need_any_.push_back(action);
    } else if (words.needs == Words::Needs::clip) {
        need_clip_.push_back(action);
    }
    return action;
}

void EditActions::make_clipboard_actions() {
    using Needs = Words::Needs;
    edit_ = {
        make({Icon::cut, "Cut cues", {QKeySequence::Cut}}, &EditActions::cut),
        make({Icon::copy, "Copy cues", {QKeySequence::Copy}}, &EditActions::copy),
        make({Icon::paste, "Paste cues at the playhead", {QKeySequence::Paste}, Needs::nothing},
             &EditActions::paste),
        make({Icon::copy, "Repeat cues after themselves", {QKeySequence("Ctrl+D")}, Needs::anything},
             &EditActions::duplicate),
        make({Icon::remove,
              "Delete",
              {QKeySequence(Qt::Key_Delete), QKeySequence(Qt::Key_Backspace)},
              Needs::anything},
             &EditActions::remove),
        nullptr,
        make({Icon::fit, "Select every cue", {QKeySequence::SelectAll}, Needs::nothing},
             &EditActions::select_all),
        make({Icon::fit, "Select the cues of the lane", {QKeySequence("Ctrl+Shift+A")}, Needs::nothing},
             &EditActions::select_lane),
        nullptr,
    };
}

void EditActions::make_cue_actions() {
    using Needs = Words::Needs;
    for (QAction* action : {
             make({Icon::cue, "Add a cue at the playhead", {QKeySequence("C")}, Needs::nothing},
                  &EditActions::add_cue),
             make({Icon::mark, "Add a mark at the playhead", {QKeySequence("M")}, Needs::nothing},
                  &EditActions::add_mark),
             make({Icon::rename, "Rename", {QKeySequence("F2")}, Needs::anything}, &EditActions::rename),
             static_cast<QAction*>(nullptr),
             make({Icon::tie, "Tie to the nearest mark", {QKeySequence("T")}}, &EditActions::tie),
             make({Icon::untie, "Free from its mark", {QKeySequence("Shift+T")}}, &EditActions::free),
             make({Icon::trigger, "Place by strike", {QKeySequence("S")}}, &EditActions::place_by_strike),
             make({Icon::cue, "Place by start", {QKeySequence("Shift+S")}}, &EditActions::place_by_start),
             make({Icon::nudge_right, "More freedom to stagger", {QKeySequence("D")}},
                  &EditActions::more_freedom),
             make({Icon::nudge_left, "Less freedom to stagger", {QKeySequence("Shift+D")}},
                  &EditActions::less_freedom),
             static_cast<QAction*>(nullptr),
             make({Icon::flashes, "Make flashes", {QKeySequence("F")}}, &EditActions::flash),
             make({Icon::steady, "Make steady", {QKeySequence("Shift+F")}}, &EditActions::steady),
             make({Icon::up, "Flash faster", {QKeySequence("]")}}, &EditActions::faster),
             make({Icon::down, "Flash slower", {QKeySequence("[")}}, &EditActions::slower),
         }) {
        edit_.push_back(action);
    }
}

void EditActions::refresh() {
    const Selection& selection = scene_.document().selection();
    for (QAction* action : need_cues_) {
        action->setEnabled(!selection.cues.empty());
    }
    for (QAction* action : need_any_) {
        action->setEnabled(!selection.empty());
    }
    for (QAction* action : need_clip_) {
        action->setEnabled(selection.clip.has_value());
    }
}

const std::vector<CueId>& EditActions::selected() const {
    return scene_.document().selection().cues;
}

Micros EditActions::earliest_selected() const {
    Micros earliest = Micros::max();
    for (const CueId id : selected()) {
        if (const PlacedCue* cue = scene_.cues().find(id)) {
            earliest = std::min(earliest, cue->begin);
        }
    }
    return earliest == Micros::max() ? Micros{0} : earliest;
}

// The clipboard and what is selected
// ------------------------------------------------------------------------------

void EditActions::remove() {
    Document& document = scene_.document();
    const Selection selection = document.selection();
    const SequenceId sequence = document.sequence_id();
    if (selection.mark) {
        document.perform(remove_mark(document.show(), sequence, *selection.mark));
    } else if (selection.clip) {
        document.perform(remove_clip(document.show(), sequence, *selection.clip));
    } else {
        document.perform(remove_cues(document.show(), sequence, selection.cues));
    }
}

void EditActions::copy() {
    const Document& document = scene_.document();
    auto* data = new QMimeData;
    data->setData(cues_mime_type, copied_cues(document.show(), document.sequence(), selected()));
    QGuiApplication::clipboard()->setMimeData(data);
}

void EditActions::cut() {
    copy();
    remove();
}

void EditActions::put(std::vector<Cue> cues) {
    for (Cue& cue : cues) {
        cue.from_voice = false;  // put there by hand
    }
    Document& document = scene_.document();
    const std::uint32_t first = document.show().next_id;
    const Edit edit = add_cues(document.show(), document.sequence_id(), std::move(cues));
    const std::uint32_t count = edit.ids_taken;
    if (count == 0) {
        return;
    }
    document.perform(edit);
    Selection selection;
    for (std::uint32_t i = 0; i < count; ++i) {
        selection.cues.push_back(CueId{first + i});
    }
    selection.channel = document.selection().channel;
    document.select(std::move(selection));
    emit shown(earliest_selected());
}

void EditActions::paste() {
    const QMimeData* data = QGuiApplication::clipboard()->mimeData();
    if (data == nullptr || !data->hasFormat(cues_mime_type)) {
        emit said(tr("Nothing to paste: the clipboard holds no cues"));
        return;
    }
    std::vector<Cue> cues = pasted_cues(data->data(cues_mime_type), scene_.document().show(),
                                        scene_.playhead(), scene_.document().selection().channel);
    if (cues.empty()) {
        emit said(
            tr("Nothing pasted: this show has no channel of that name and kind; select a lane of the kind "
               "first"));
        return;
    }
    put(std::move(cues));
}

void EditActions::duplicate() {
    if (const SoundClip* clip = selected_clip()) {
        repeat_clip(*clip);
        return;
    }
    const Sequence& sequence = scene_.document().sequence();
    std::vector<Cue> cues;
    Micros end{0};
    for (const CueId id : selected()) {
        if (const Cue* cue = find(sequence, id)) {
            cues.push_back(*cue);
            end = std::max(end, start_of(sequence, *cue) + cue->length);
        }
    }
    const Micros shift = end - earliest_selected();
    for (Cue& cue : cues) {
        cue.at = start_of(sequence, cue) + shift;
        cue.mark.reset();
    }
    put(std::move(cues));
}

void EditActions::select_all() {
    Selection selection;
    for (const Cue& cue : scene_.document().sequence().cues) {
        selection.cues.push_back(cue.id);
    }
    scene_.document().select(std::move(selection));
}

void EditActions::select_lane() {
    Selection selection;
    selection.channel = scene_.document().selection().channel;
    for (const Cue& cue : scene_.document().sequence().cues) {
        if (cue.channel == selection.channel) {
            selection.cues.push_back(cue.id);
        }
    }
    scene_.document().select(std::move(selection));
}

void EditActions::rename() {
    emit rename_requested();
}

// Cues and marks
// ----------------------------------------------------------------------------------------------------

void EditActions::add_cue() {
    add_cue_at(scene_.playhead());
}

void EditActions::add_cue_at(Micros time) {
    const Document& document = scene_.document();
    std::optional<ChannelId> channel = document.selection().channel;
    if (!channel && !document.show().rig.channels.empty()) {
        channel = document.show().rig.channels.front().id;
    }
    if (!channel) {
        emit said(tr("No cue added: the rig has no channels yet"));
        return;
    }
    Cue cue;
    cue.channel = *channel;
    cue.at = time;
    cue.length = new_cue_length;
    put({cue});
}

void EditActions::add_mark() {
    add_mark_at(scene_.playhead());
}

void EditActions::add_mark_at(Micros time) {
    Document& document = scene_.document();
    document.perform(gasp::add_mark(document.show(), document.sequence_id(), std::max(time, Micros{0}),
                                    next_mark_name(document.sequence())));
}

void EditActions::tie() {
    Document& document = scene_.document();
    const Mark* mark = nearest_mark(document.sequence(), earliest_selected());
    if (mark == nullptr) {
        emit said(tr("Nothing to tie to: there is no mark yet"));
        return;
    }
    document.perform(tie_cues(document.show(), document.sequence_id(), selected(), mark->id));
}

void EditActions::free() {
    Document& document = scene_.document();
    document.perform(tie_cues(document.show(), document.sequence_id(), selected(), std::nullopt));
}

void EditActions::next_cue() {
    select_cue_after(1);
}
void EditActions::previous_cue() {
    select_cue_after(-1);
}

bool EditActions::select_cue_after(int way) {
    const Sequence& sequence = scene_.document().sequence();
    const auto key_of = [&](const Cue& cue) { return std::pair(start_of(sequence, cue), cue.id); };
    const Cue* from =
        selected().empty() ? nullptr : find(sequence, way > 0 ? selected().back() : selected().front());
    const Cue* best = nullptr;
    for (const Cue& cue : sequence.cues) {
        const bool after =
            from == nullptr || (way > 0 ? key_of(cue) > key_of(*from) : key_of(cue) < key_of(*from));
        const bool nearer =
            best == nullptr || (way > 0 ? key_of(cue) < key_of(*best) : key_of(cue) > key_of(*best));
        if (after && nearer) {
            best = &cue;
        }
    }
    if (best != nullptr) {
        const Micros start = start_of(sequence, *best);
        scene_.document().select({{best->id}, {}, {}, best->channel});
        emit shown(start);
    }
    return best != nullptr;
}

}  // namespace gasp
