// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/sheet/pack/pack.hpp"

#include <QHash>
#include <QPixmap>
#include <QScrollArea>

#include <memory>

namespace gasp {

/// The pages of a build pack one below the other, as they will be printed. Ctrl and wheel, or Ctrl and plus
/// and minus, change their size.
class PackView : public QScrollArea {
    Q_OBJECT

  public:
    explicit PackView(QWidget* parent = nullptr);

    void set_pack(std::shared_ptr<const Pack> pack);
    void show_page(int page);
    [[nodiscard]] int page() const;                      ///< the topmost that is seen, from 0
    [[nodiscard]] double zoom() const { return zoom_; }  ///< 1: as wide as the window
    void set_zoom(double zoom);

  signals:
    void page_changed();

  protected:
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    class Pages;
    void lay_out();

    Pages* pages_;
    double zoom_ = 1.0;
};

}  // namespace gasp
