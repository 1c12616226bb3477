// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/part_form.hpp"

#include "ui/look/look.hpp"
#include "ui/panels/stroke_readout.hpp"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

#include <algorithm>

namespace gasp {
namespace {

QLabel* heading(const QString& title) {
    auto* label = new QLabel(title);
    label->setFont(gasp::font(TypeSize::body, true));
    label->setContentsMargins(0, grid_px, 0, 0);
    return label;
}

}  // namespace

PartForm::PartForm(Document& document, Analysis& analysis, const Settings& settings, QWidget* parent)
    : QScrollArea(parent), document_(document), analysis_(analysis), settings_(settings) {
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
}

void PartForm::show_part(Part part) {
    part_ = part;
    rows_.clear();
    auto* page = new QWidget;
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(grid_px, 0, grid_px, grid_px);
    column->setSpacing(grid_px / 2);
    for (const Section& section : sections_of(document_.show(), part)) {
        column->addWidget(heading(section.title));
        for (const Entry& entry : section.entries) {
            FormRow* row = make_row(document_, settings_, entry, page);
            connect(row, &FormRow::entered, this, [this, row] { emit help_changed(row->help()); });
            column->addWidget(row);
            rows_.push_back(row);
        }
        if (part.kind == PartKind::actuator && rows_.size() == 1) {
            // Right below its name.
            column->addWidget(new StrokeReadout(document_, analysis_, settings_, ActuatorId{part.id}));
        }
    }
    column->addStretch(1);
    show_rows_of_use();
    setWidget(page);
    emit help_changed({});
}

void PartForm::refresh() {
    if (!exists(document_.show(), part_)) {
        show_part({PartKind::show, 0});
        return;
    }
    for (FormRow* row : rows_) {
        row->refresh();
    }
    show_rows_of_use();
}

void PartForm::show_rows_of_use() {
    for (FormRow* row : rows_) {
        row->setVisible(row->has_anything() && is_of_use(document_.show(), part_, row->key()));
    }
}

bool PartForm::focus_field(std::string_view key) {
    const auto row =
        std::find_if(rows_.begin(), rows_.end(), [&](const FormRow* r) { return r->key() == key; });
    if (row == rows_.end()) {
        return false;
    }
    ensureWidgetVisible(*row);
    (*row)->editor()->setFocus(Qt::OtherFocusReason);
    if (auto* edit = qobject_cast<QLineEdit*>((*row)->editor())) {
        edit->selectAll();  // what is typed stands in place of it
    }
    return true;
}

}  // namespace gasp
