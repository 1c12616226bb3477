// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/analysis.hpp"
#include "ui/panels/form_row.hpp"

#include <QScrollArea>

#include <string_view>
#include <vector>

namespace gasp {

/// The form of one part: every field core describes, in sections.
class PartForm : public QScrollArea {
    Q_OBJECT

  public:
    PartForm(Document& document, Analysis& analysis, const Settings& settings, QWidget* parent = nullptr);

    void show_part(Part part);
    [[nodiscard]] Part part() const { return part_; }
    void refresh();
    /// Puts the focus on the field of this key path; false when the part has none of it.
    bool focus_field(std::string_view key);
    [[nodiscard]] const std::vector<FormRow*>& rows() const { return rows_; }

  signals:
    void help_changed(const QString& text);  ///< about the field that has the focus

  private:
    void show_rows_of_use();

    Document& document_;
    Analysis& analysis_;
    const Settings& settings_;
    Part part_;
    std::vector<FormRow*> rows_;
};

}  // namespace gasp
