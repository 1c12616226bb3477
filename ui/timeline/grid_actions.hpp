// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/settings.hpp"
#include "ui/timeline/scene.hpp"

#include <QObject>
#include <QString>

#include <vector>

class QAction;
class QKeySequence;
class QWidget;

namespace gasp {

/// Choosing by what the ruler is divided. The choice is remembered of each sequence of each show.
class GridActions : public QObject {
    Q_OBJECT

  public:
    /// The actions are added to `home`. Both must outlive it.
    GridActions(Scene& scene, Settings& settings, QWidget& home);

    /// In the order of a menu; null is a separator.
    [[nodiscard]] const std::vector<QAction*>& actions() const { return actions_; }
    /// "Seconds", "Frames 25", "Beats 92.5".
    [[nodiscard]] QString words() const;

  signals:
    void changed();

  private:
    QAction* make(const QString& text, const QKeySequence& key);
    void make_kinds();
    void show_kind();
    void take(const Grid& grid);
    void recall();
    void keep();
    void ask();

    Scene& scene_;
    Settings& settings_;
    QWidget& home_;
    std::vector<QAction*> actions_;
    std::vector<QAction*> kinds_;  ///< in the order of Grid::Kind
};

}  // namespace gasp
