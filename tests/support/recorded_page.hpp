// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QFont>
#include <QPaintDevice>
#include <QPaintEngine>
#include <QPainter>
#include <QPainterPath>
#include <QRectF>
#include <QString>

#include <memory>
#include <vector>

namespace gasp::for_tests {

/// A line of words as it was painted.
struct RecordedWords {
    QString text;
    QFont font;
    QColor colour;
    QPointF at;  ///< in the coordinates of `transform`
    QTransform transform;

    /// The room its letters take on the page, ascenders and descenders without the empty space beyond.
    [[nodiscard]] QRectF box() const {
        const QFontMetricsF metrics(font);
        const QRectF letters(at.x(), at.y() - metrics.capHeight(), metrics.horizontalAdvance(text),
                             metrics.capHeight() + metrics.descent() * 0.6);
        return transform.mapRect(letters);
    }
};

/// Anything else: an outline with what it is drawn and filled with.
struct RecordedShape {
    QPainterPath path;
    QPen pen;
    QBrush brush;
    QTransform transform;
};

/// Takes down what is painted on it, in order.
class RecordedPage : public QPaintDevice {
  public:
    RecordedPage() : engine_(std::make_unique<Engine>(*this)) {}

    [[nodiscard]] QPaintEngine* paintEngine() const override { return engine_.get(); }

    std::vector<RecordedWords> words;
    std::vector<RecordedShape> shapes;

  protected:
    [[nodiscard]] int metric(PaintDeviceMetric metric) const override {
        switch (metric) {
            case PdmWidth:
            case PdmHeight:
                return 10'000;
            case PdmDpiX:
            case PdmDpiY:
            case PdmPhysicalDpiX:
            case PdmPhysicalDpiY:
                return 254;
            case PdmDevicePixelRatio:
                return 1;
            default:
                return QPaintDevice::metric(metric);
        }
    }

  private:
    class Engine : public QPaintEngine {
      public:
        explicit Engine(RecordedPage& page) : QPaintEngine(AllFeatures), page_(page) {}
        bool begin(QPaintDevice*) override { return true; }
        bool end() override { return true; }
        [[nodiscard]] Type type() const override { return User; }
        void updateState(const QPaintEngineState&) override {}
        void drawPixmap(const QRectF&, const QPixmap&, const QRectF&) override {}
        void drawPath(const QPainterPath& path) override {
            page_.shapes.push_back({path, painter()->pen(), painter()->brush(), painter()->transform()});
        }
        void drawPolygon(const QPointF* points, int count, PolygonDrawMode mode) override {
            QPainterPath path;
            QPolygonF polygon;
            for (int i = 0; i < count; ++i) {
                polygon << points[i];
            }
            path.addPolygon(polygon);
            if (mode != PolylineMode) {
                path.closeSubpath();
            }
            page_.shapes.push_back({path, painter()->pen(),
                                    mode == PolylineMode ? QBrush(Qt::NoBrush) : painter()->brush(),
                                    painter()->transform()});
        }
        void drawTextItem(const QPointF& at, const QTextItem& item) override {
            page_.words.push_back(
                {item.text(), item.font(), painter()->pen().color(), at, painter()->transform()});
        }

      private:
        RecordedPage& page_;
    };

    std::unique_ptr<Engine> engine_;
};

}  // namespace gasp::for_tests
