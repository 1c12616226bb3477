// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/timeline/drag.hpp"
#include "ui/timeline/scene.hpp"

#include <QPixmap>
#include <QStringList>
#include <QWidget>

#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

struct AnalysisResult;
struct Finding;

/// The ruler with its three strips: ticks (click or drag: playhead, heard while it moves; Shift and drag:
/// loop), mark flags, and pins of findings.
class Ruler : public QWidget {
    Q_OBJECT

  public:
    static constexpr int ticks_px = 24;
    static constexpr int marks_px = 24;
    static constexpr int findings_px = 20;

    explicit Ruler(Scene& scene, QWidget* parent = nullptr);
    ~Ruler() override;

    /// Where a mark's flag is drawn; empty when it is gone.
    [[nodiscard]] QRect flag_of(MarkId mark) const;

  signals:
    void playhead_requested(gasp::Micros time);
    void playhead_dragged(gasp::Micros time);
    void loop_requested(std::optional<gasp::Dwell> loop);
    void menu_requested(QPoint global, gasp::Micros time);
    void rename_requested();
    void finding_chosen(const gasp::Finding& finding);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;
    bool event(QEvent* event) override;

  private:
    struct Flag {
        MarkId mark;
        QRect box;
        QString text;
    };
    struct TimedFinding {
        Micros time{0};
        const Finding* finding = nullptr;
    };
    struct Pin {
        double x = 0.0;
        std::span<const TimedFinding> findings;  ///< in order of time
        const Finding* gravest = nullptr;
    };

    void repaint_all();
    void paint_ticks(QPainter& painter) const;
    void paint_loop(QPainter& painter) const;
    void paint_marks(QPainter& painter) const;
    void paint_findings(QPainter& painter);
    void paint_playhead(QPainter& painter) const;
    [[nodiscard]] QRect playhead_rect(Micros time) const;
    [[nodiscard]] std::vector<Flag> flags() const;
    void sort_findings();
    /// Of all findings, those close to one another as one; valid until the next call.
    [[nodiscard]] std::vector<Pin> pins();
    [[nodiscard]] std::optional<MarkId> mark_at(QPointF at) const;
    /// The gravest first, and how many more there are.
    [[nodiscard]] static QStringList lines_of(std::span<const TimedFinding> findings);
    [[nodiscard]] const Pin* pin_at(const std::vector<Pin>& pins, QPointF at) const;
    [[nodiscard]] Micros snapped_time(const Pointer& pointer) const;
    [[nodiscard]] Pointer pointer_of(const QMouseEvent& event) const;
    void press_strip(const Pointer& pointer);

    Scene& scene_;
    std::shared_ptr<const AnalysisResult> sorted_result_;  ///< whose findings timed_ points at
    std::vector<TimedFinding> timed_;
    std::unique_ptr<Drag> drag_;
    std::optional<MarkId> pressed_mark_;
    std::optional<Pointer> pressed_;
    bool scrubbing_ = false;
    std::optional<Micros> loop_from_;
};

}  // namespace gasp
