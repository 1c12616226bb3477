// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/selection.hpp"
#include "ui/timeline/drag.hpp"
#include "ui/timeline/hit.hpp"
#include "ui/timeline/lanes_image.hpp"
#include "ui/timeline/scene.hpp"

#include <QRegion>
#include <QWidget>

#include <memory>
#include <optional>

namespace gasp {

/// The lanes: shows the kept picture and what moves over it, and turns the mouse into drags. Keys are actions
/// of the timeline, but for Escape and Tab.
class Canvas : public QWidget {
    Q_OBJECT

  public:
    explicit Canvas(Scene& scene, QWidget* parent = nullptr);
    ~Canvas() override;

    [[nodiscard]] const Scene& scene() const { return scene_; }
    [[nodiscard]] const LanesImage& picture() const { return image_; }
    /// The place under the last right click or pointer move.
    [[nodiscard]] Micros pointed_time() const { return pointed_; }

  signals:
    void menu_requested(QPoint global);
    void rename_requested();
    void rig_requested();
    void sound_requested();
    /// Tab went past the last cue, or before the first.
    void cue_after_requested(int way, bool& found);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;
    bool event(QEvent* event) override;
    bool focusNextPrevChild(bool next) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    void listen();
    void repaint_all();
    void repaint_selection();
    void repaint_overlay();
    void move_playhead(Micros before);
    [[nodiscard]] QRect playhead_rect(Micros time) const;
    [[nodiscard]] QRegion overlay_region() const;

    void press_left(const Pointer& pointer);
    void press_cue(const Hit& found, const Pointer& pointer);
    void press_clip(const Hit& found, const Pointer& pointer);
    void start_drag(const Pointer& pointer);
    void pan_to(QPointF at);
    void scroll_at_edges(const Pointer& pointer);
    void end_press(bool keep);
    void update_cursor(QPointF at);
    void add_cue_at(const Pointer& pointer, const Lane& lane);
    [[nodiscard]] Pointer pointer_of(const QMouseEvent& event) const;
    [[nodiscard]] bool empty_sound() const;

    Scene& scene_;
    LanesImage image_;
    Selection shown_selection_;
    QRegion shown_overlay_;
    std::unique_ptr<Drag> drag_;
    std::optional<Pointer> pressed_;  ///< the left button, before and during a drag
    Hit pressed_hit_;
    std::optional<CueId> deselect_on_release_;
    std::optional<CueId> select_alone_on_release_;
    std::optional<QPointF> pan_;
    Micros pointed_{0};
};

}  // namespace gasp
