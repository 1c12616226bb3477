// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QScrollArea>

#include <vector>

class QGridLayout;

namespace gasp {

/// Parts of a panel side by side, as many as fit its width, in rows that fill its height or scroll.
class TileArea : public QScrollArea {
    Q_OBJECT

  public:
    explicit TileArea(QWidget* parent = nullptr);
    void add(QWidget* tile);
    /// Scrolls until the tile begins at the top, or as near to it as there is to scroll.
    void bring_up(const QWidget& tile);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    void lay(int columns);

    std::vector<QWidget*> tiles_;
    QGridLayout* grid_;
    int columns_ = 0;
};

}  // namespace gasp
