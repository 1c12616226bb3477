// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/document.hpp"

#include "ui/editor/edit_command.hpp"

#include <QFileInfo>

#include <algorithm>
#include <utility>

namespace gasp {
namespace {

template <class T>
bool takes_or_puts(const Exchange<T>& exchange) {
    return exchange.before.has_value() != exchange.after.has_value();
}

/// Whether something that may be selected comes or goes with this change, done or undone.
struct ComesOrGoes {
    template <class T>
    bool operator()(const InSequence<T>& change) const {
        return std::any_of(change.exchanges.begin(), change.exchanges.end(), takes_or_puts<T>);
    }
    template <class T>
    bool operator()(const Exchange<T>& change) const {
        return takes_or_puts(change);
    }
    template <class T>
    bool operator()(const Replacement<T>&) const {
        return false;
    }
};

/// What is left of a selection in a sequence that lost some of its things.
Selection left_of(const Selection& selection, const Show& show, const Sequence& sequence) {
    Selection left = selection;
    std::erase_if(left.cues, [&](CueId id) { return find(sequence, id) == nullptr; });
    if (left.mark && find(sequence, *left.mark) == nullptr) {
        left.mark.reset();
    }
    if (left.clip && find(sequence, *left.clip) == nullptr) {
        left.clip.reset();
    }
    if (left.channel && find(show, *left.channel) == nullptr) {
        left.channel.reset();
    }
    return left;
}

}  // namespace

Document::Document(QObject* parent) : QObject(parent), show_(empty_show()) {
    sequence_ = show_.sequences.front().id;
    connect(&undo_, &QUndoStack::cleanChanged, this, &Document::file_changed);
}

/// The stack tells of its end as of every change; nobody may hear that from half a document.
Document::~Document() {
    undo_.disconnect(this);
}

std::shared_ptr<const Show> Document::snapshot() const {
    if (!snapshot_ || snapshot_revision_ != revision_) {
        snapshot_ = std::make_shared<const Show>(show_);
        snapshot_revision_ = revision_;
    }
    return snapshot_;
}

void Document::reset(Show show, const QString& path) {
    preview_ = {};
    show_ = std::move(show);
    ++revision_;
    path_ = path;
    folder_.clear();
    sequence_ = show_.sequences.front().id;
    selection_ = {};
    undo_.clear();
    emit replaced();
    emit selection_changed();
    emit file_changed();
}

QString Document::folder() const {
    return path_.isEmpty() ? folder_ : QFileInfo(path_).absolutePath();
}

void Document::set_folder(const QString& folder) {
    folder_ = folder;
    emit file_changed();
}

void Document::mark_saved(const QString& path) {
    path_ = path;
    undo_.setClean();
    emit file_changed();
}

void Document::mark_unsaved() {
    undo_.resetClean();
    emit file_changed();
}

void Document::perform(Edit edit, int merge) {
    cancel_preview();
    if (!edit.empty()) {
        undo_.push(new EditCommand(*this, std::move(edit), merge, false));
    }
}

void Document::preview(Edit edit) {
    preview([&edit](const Show&) { return std::move(edit); });
}

void Document::preview(const std::function<Edit(const Show&)>& make) {
    const Edit old = std::exchange(preview_, {});
    if (!old.empty()) {
        revert_edit(old);
    }
    preview_ = make(show_);
    if (!preview_.empty()) {
        apply_edit(preview_);
    }
    // Told only now, so that nobody paints the moment between the two.
    if (!old.empty()) {
        after(old);
    }
    if (!preview_.empty()) {
        after(preview_);
    }
}

void Document::commit_preview() {
    if (previewing()) {
        undo_.push(new EditCommand(*this, std::exchange(preview_, {}), 0, true));
    }
}

void Document::cancel_preview() {
    if (previewing()) {
        const Edit old = std::exchange(preview_, {});
        revert_edit(old);
        after(old);
    }
}

const Sequence& Document::sequence() const {
    const Sequence* sequence = find(show_, sequence_);
    return sequence != nullptr ? *sequence : show_.sequences.front();
}

void Document::look_at(SequenceId sequence) {
    if (sequence == sequence_ || find(show_, sequence) == nullptr) {
        return;
    }
    cancel_preview();
    sequence_ = sequence;
    selection_ = {};
    emit replaced();
    emit selection_changed();
}

void Document::select(Selection selection) {
    std::sort(selection.cues.begin(), selection.cues.end());
    selection.cues.erase(std::unique(selection.cues.begin(), selection.cues.end()), selection.cues.end());
    if (selection != selection_) {
        selection_ = std::move(selection);
        emit selection_changed();
    }
}

void Document::apply_edit(const Edit& edit) {
    apply(edit, show_);
    ++revision_;
}

void Document::revert_edit(const Edit& edit) {
    revert(edit, show_);
    ++revision_;
}

void Document::after(const Edit& edit) {
    const bool sequence_gone = find(show_, sequence_) == nullptr;
    if (sequence_gone) {
        sequence_ = show_.sequences.front().id;
    }
    if (std::any_of(edit.changes.begin(), edit.changes.end(),
                    [](const Change& change) { return std::visit(ComesOrGoes{}, change); })) {
        select(left_of(selection_, show_, sequence()));
    }
    emit changed(edit);
    if (sequence_gone) {
        emit replaced();
    }
}

}  // namespace gasp
