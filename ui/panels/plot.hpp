// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QColor>
#include <QRectF>
#include <QString>
#include <QWidget>

#include <vector>

class QPainter;

namespace gasp {

/// A line of an axis at a round value, with what is written beside it.
struct AxisTick {
    double at = 0.0;
    QString text;
};

/// Round values (1, 2 or 5 times a power of ten apart) from the first at or above `least` to the last at or
/// below `most`; at most `count` of them, `count` at least 2. Empty unless least < most, both finite.
[[nodiscard]] std::vector<double> round_values(double least, double most, int count);
/// The decimals with which values so far apart are told from each other.
[[nodiscard]] int decimals_of(double step);
/// The same as ticks, `unit` after the last of them.
[[nodiscard]] std::vector<AxisTick> round_ticks(double least, double most, int count, const QString& unit);

/// A drawing of figures with its title, a line that reads them out, and a field with axes. What is pointed
/// at, with the mouse or (once it has the focus) with the arrow keys, is marked and read out.
class Plot : public QWidget {
    Q_OBJECT

  public:
    /// What it shows, in a sentence; read out while nothing is pointed at. Empty: there is nothing yet.
    [[nodiscard]] virtual QString summary() const = 0;
    [[nodiscard]] const QString& title() const { return title_; }
    /// What is read out now.
    [[nodiscard]] QString reading() const;
    /// The place that is pointed at, or -1.
    [[nodiscard]] int pointed() const { return pointed_; }

    [[nodiscard]] QSize minimumSizeHint() const override;
    [[nodiscard]] QSize sizeHint() const override;

  protected:
    /// `empty`: what stands in the field while there is nothing to draw.
    Plot(const QString& title, const QString& empty, QWidget* parent);

    /// How many places can be pointed at, where each lies within field(), and what is read out of it.
    [[nodiscard]] virtual int places() const = 0;
    [[nodiscard]] virtual QRectF place_box(int place) const = 0;
    [[nodiscard]] virtual QString reading_of(int place) const = 0;
    [[nodiscard]] virtual std::vector<AxisTick> across() const = 0;
    [[nodiscard]] virtual std::vector<AxisTick> upward() const = 0;
    /// Where a value of an axis lies in the field, 0..1 from its left or its foot.
    [[nodiscard]] virtual double share_across(double value) const = 0;
    [[nodiscard]] virtual double share_up(double value) const = 0;
    virtual void paint_data(QPainter& painter) = 0;
    /// Room for words at the left, where they are more than the ticks.
    [[nodiscard]] virtual int left_px() const;

    void set_title(const QString& title);
    /// The figures are others now.
    void take_figures();
    [[nodiscard]] QRectF field() const;
    [[nodiscard]] double x_of(double value) const;
    [[nodiscard]] double y_of(double value) const;
    /// A patch of the legend with its word, right to left; gives the room left.
    enum class Fill { solid, hatched, hollow };
    double paint_legend(QPainter& painter, double right, const QString& word, const QColor& colour,
                        Fill fill) const;
    static void paint_fill(QPainter& painter, const QRectF& box, const QColor& colour, Fill fill);

    void paintEvent(QPaintEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    void point_at(int place);
    void paint_head(QPainter& painter) const;
    void paint_axes(QPainter& painter) const;
    void paint_pointed(QPainter& painter) const;

    QString title_;
    QString empty_;
    int pointed_ = -1;
};

}  // namespace gasp
