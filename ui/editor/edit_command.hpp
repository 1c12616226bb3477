// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"

#include <QUndoCommand>

#include <chrono>

namespace gasp {

class Document;

/// One of core's edits on Qt's undo stack.
class EditCommand : public QUndoCommand {
  public:
    /// `done`: the document already stands as after the edit, as at the end of a drag.
    EditCommand(Document& document, Edit edit, int merge, bool done);

    void undo() override;
    void redo() override;
    [[nodiscard]] int id() const override { return merge_; }
    bool mergeWith(const QUndoCommand* other) override;

  private:
    Document& document_;
    Edit edit_;
    int merge_;
    bool done_;
    std::chrono::steady_clock::time_point last_ = std::chrono::steady_clock::now();
};

}  // namespace gasp
