// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/edit_command.hpp"

#include "ui/editor/document.hpp"

#include <utility>

namespace gasp {
namespace {

/// Edits of one merge key further apart than this are steps of their own.
constexpr std::chrono::milliseconds longest_pause{1000};
constexpr int never_merged = -1;  // Qt's word for it

}  // namespace

EditCommand::EditCommand(Document& document, Edit edit, int merge, bool done)
    : QUndoCommand(QString::fromStdString(edit.sentence)),
      document_(document),
      edit_(std::move(edit)),
      merge_(merge == 0 ? never_merged : merge),
      done_(done) {}

void EditCommand::undo() {
    document_.cancel_preview();
    document_.revert_edit(edit_);
    document_.after(edit_);
}

void EditCommand::redo() {
    if (std::exchange(done_, false)) {
        return;
    }
    document_.cancel_preview();
    document_.apply_edit(edit_);
    document_.after(edit_);
}

bool EditCommand::mergeWith(const QUndoCommand* other) {
    const auto* later = dynamic_cast<const EditCommand*>(other);
    if (later == nullptr || later->last_ - last_ > longest_pause) {
        return false;
    }
    edit_ = joined(edit_, later->edit_);
    last_ = later->last_;
    setObsolete(edit_.empty());
    return true;
}

}  // namespace gasp
