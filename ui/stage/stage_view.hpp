// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/stage/audition.hpp"

#include <QWidget>

namespace gasp {

/// The rig as it stands at the audition's position: contacts, lamps, valves, figures, receiver and
/// loudspeaker, all drawn from the schedule and the air budget of the analysis.
class StageView : public QWidget {
    Q_OBJECT

  public:
    StageView(Document& document, Analysis& analysis, Audition& audition, QWidget* parent = nullptr);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    Document& document_;
    Analysis& analysis_;
    Audition& audition_;
};

}  // namespace gasp
