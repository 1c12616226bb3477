// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"
#include "core/show/show.hpp"
#include "ui/editor/selection.hpp"

#include <QObject>
#include <QString>
#include <QUndoStack>

#include <cstdint>
#include <functional>
#include <memory>

namespace gasp {

/// The open show: the document, its undo stack, its file, and which sequence and things are looked at. Lives
/// on the window's thread. Everything that changes the show goes through perform() or a preview; views read
/// show() and repaint on changed().
class Document : public QObject {
    Q_OBJECT

  public:
    explicit Document(QObject* parent = nullptr);
    ~Document() override;

    [[nodiscard]] const Show& show() const { return show_; }
    /// Raised by every change of the show, never reused: results of the background carry it, and old ones are
    /// dropped.
    [[nodiscard]] std::uint64_t revision() const { return revision_; }
    /// The show as it is now for another thread; made once a revision.
    [[nodiscard]] std::shared_ptr<const Show> snapshot() const;

    /// Replaces the whole document (new, opened); the undo stack is emptied and the show counts as saved.
    void reset(Show show, const QString& path);
    /// Empty while it was never saved.
    [[nodiscard]] const QString& path() const { return path_; }
    /// The folder sound files are relative to: that of the show's file, or of the first sound dropped on a
    /// new show.
    [[nodiscard]] QString folder() const;
    void set_folder(const QString& folder);
    void mark_saved(const QString& path);
    /// What is open stands in no file as it is: it was recovered after a crash.
    void mark_unsaved();
    [[nodiscard]] bool modified() const { return !undo_.isClean(); }

    [[nodiscard]] QUndoStack& undo_stack() { return undo_; }

    /// Does an edit and puts it on the undo stack under its sentence; an empty one is dropped. Edits with the
    /// same `merge` key (not 0) that follow each other closely become one step: held nudge keys.
    void perform(Edit edit, int merge = 0);

    /// A drag: each call undoes the previous preview and shows this one instead, without a step on the undo
    /// stack.
    void preview(Edit edit);
    /// The same for an edit that is made from the document as it was before the drag.
    void preview(const std::function<Edit(const Show&)>& make);
    /// Leaves what is previewed as one step.
    void commit_preview();
    /// Puts everything back as before the drag.
    void cancel_preview();
    [[nodiscard]] bool previewing() const { return !preview_.empty(); }

    [[nodiscard]] const Sequence& sequence() const;  ///< the one looked at; a show always has at least one
    [[nodiscard]] SequenceId sequence_id() const { return sequence_; }
    void look_at(SequenceId sequence);

    [[nodiscard]] const Selection& selection() const { return selection_; }
    void select(Selection selection);

  signals:
    /// The show changed by this edit (done or undone): repaint what it touches.
    void changed(const gasp::Edit& edit);
    /// Another document, or another sequence of it, is looked at.
    void replaced();
    void selection_changed();
    void file_changed();  ///< its path, or whether it is saved

  private:
    friend class EditCommand;
    void apply_edit(const Edit& edit);
    void revert_edit(const Edit& edit);
    void after(const Edit& edit);

    Show show_;
    std::uint64_t revision_ = 1;
    mutable std::shared_ptr<const Show> snapshot_;
    mutable std::uint64_t snapshot_revision_ = 0;
    QUndoStack undo_;
    Edit preview_;
    Selection selection_;
    SequenceId sequence_;
    QString path_;
    QString folder_;
};

}  // namespace gasp
