// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"
#include "ui/panels/part_form.hpp"

#include <QWidget>

class QAction;
class QLabel;
class QTreeWidget;
class QTreeWidgetItem;

namespace gasp {

/// The rig as a list of its parts, and below it the form of the one that is chosen.
class RigPanel : public QWidget {
    Q_OBJECT

  public:
    RigPanel(Document& document, Analysis& analysis, Settings& settings, QWidget* parent = nullptr);

    /// Chooses a part; its form shows it.
    void choose(Part part);
    [[nodiscard]] Part chosen() const { return form_->part(); }
    /// Chooses the part a finding names and focuses its field; false when the place names no part of the rig.
    bool show_place(const Place& place);
    void add(PartKind kind);

    [[nodiscard]] PartForm& form() { return *form_; }
    /// For a menu: adding, duplicating, removing, moving up and down.
    [[nodiscard]] QList<QAction*> part_actions() const { return actions_; }

  private:
    void make_actions();
    void rebuild();
    void refresh();
    void update_actions();
    void item_chosen(QTreeWidgetItem* item);
    QAction* action(const QString& text, const QString& help, int icon, const QKeySequence& key);
    void perform_and_choose(Edit edit);

    Document& document_;
    QTreeWidget* tree_;
    PartForm* form_;
    QLabel* help_;
    QList<QAction*> actions_;
    QAction* duplicate_ = nullptr;
    QAction* remove_ = nullptr;
    QAction* up_ = nullptr;
    QAction* down_ = nullptr;
};

}  // namespace gasp
