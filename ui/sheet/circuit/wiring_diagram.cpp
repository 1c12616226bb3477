// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/circuit/wiring_diagram.hpp"

#include "core/show/fields.hpp"
#include "ui/sheet/circuit/circuit_words.hpp"
#include "ui/sheet/circuit/wiring_symbols.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QPainter>
#include <QStringList>

#include <algorithm>

namespace gasp {

namespace {

using Align = Sketch::Align;
using Q = Quantity;

constexpr double plus_y = 130.0;
constexpr double fuse_y = 160.0;
constexpr double contact_y = 290.0;
constexpr double out_y = 470.0;
constexpr double load_y = 760.0;
constexpr double name_y = 966.0;
constexpr double return_y = 1130.0;
constexpr double shared_y = 1220.0;
constexpr double minus_y = 1320.0;
constexpr double into_column = 96.0;
constexpr double beside = 24.0;

/// What a channel works when nobody has said so.
LoadKind load_of(const Channel& channel) {
    if (channel.circuit.load != LoadKind::not_stated) {
        return channel.circuit.load;
    }
    switch (channel.kind) {
        case ChannelKind::valve:
            return LoadKind::coil;
        case ChannelKind::lamp:
            return LoadKind::lamp;
        case ChannelKind::motor:
        case ChannelKind::jaw:
            return LoadKind::motor;
        case ChannelKind::other:
            break;
    }
    return LoadKind::other;
}

class Painter {
  public:
    Painter(Sketch& sketch, const Show& show, UnitSystem units)
        : sketch_(sketch), show_(show), figure_{units} {}

    void supply(const Supply* supply) {
        if (supply == nullptr) {
            sketch_.lines({0, 560}, Align::left, QStringLiteral("supply not given"), 260, 3,
                          {PrintSize::body, true});
            rail_start(plus_y);
            rail_start(minus_y);
            return;
        }
        sketch_.box({0, 520, 300, 330});
        double y = 540;
        y += sketch_.lines({14, y}, Align::left, shown(supply->name), 272, 3, {PrintSize::body, true}) + 8;
        const auto& kind = fields<Supply>().choices.front();
        y += sketch_.lines({14, y}, Align::left, shown(kind.labels[kind.get(*supply)]), 272, 2) + 4;
        y += sketch_.lines({14, y}, Align::left,
                           joined({figure_(Q::voltage, supply->volts, {}),
                                   figure_(Q::current, supply->rated_a, "rated ")}),
                           272, 2) +
             4;
        if (supply->kind == SupplyKind::mains) {
            sketch_.lines({14, y}, Align::left, QStringLiteral("work for a licensed electrician"), 272, 2,
                          {PrintSize::small, true});
        }
        const bool alternating = supply->kind == SupplyKind::transformer || supply->kind == SupplyKind::mains;
        sketch_.words({184, 500}, Align::left, alternating ? "L" : "+", 40, {PrintSize::body});
        sketch_.words({184, 874}, Align::left, alternating ? "N" : QString(QChar(0x2212)), 40,
                      {PrintSize::body});
        upper_side(*supply);
        sketch_.path(QPolygonF{{150, 850}, {150, minus_y}, {WiringDiagram::side, minus_y}});
    }

    void circuit(const WiredChannel& wired, double left) {
        const Channel& channel = *wired.channel;
        const Circuit& circuit = channel.circuit;
        const double x = left + into_column;
        sketch_.dot({x, plus_y});
        sketch_.line({x, plus_y}, {x, fuse_y});
        QPointF at(x, fuse_y);
        if (circuit.fuse_a) {
            at = draw_fuse(sketch_, at);
            words({x, fuse_y + 45}, wired.fuse() + ' ' + figure_(Q::current, circuit.fuse_a, {}));
        }
        sketch_.line(at, {x, contact_y});
        at = draw_contact(sketch_, {x, contact_y}, channel.contact, circuit.switched_by);
        contact_words(channel, x);
        sketch_.line(at, {x, out_y - 10});
        draw_terminal(sketch_, {x, out_y});
        words({x, out_y}, wired.out_terminal());
        sketch_.line({x, out_y + 10}, {x, load_y});
        wire_words(circuit, x);
        at = draw_load(sketch_, {x, load_y}, load_of(channel), circuit.suppression);
        load_words(channel, left);
        sketch_.line(at, {x, name_y - 8});
        way_back(wired, x);
    }

    void rails(double right, bool shared, const Supply* supply) {
        sketch_.line({WiringDiagram::side, plus_y}, {right, plus_y});
        sketch_.line({WiringDiagram::side, minus_y}, {right, minus_y});
        if (shared) {
            sketch_.line({WiringDiagram::side + 20, shared_y}, {right, shared_y}, Sketch::Stroke::solid);
            sketch_.path(
                QPolygonF{{WiringDiagram::side + 20, shared_y}, {WiringDiagram::side + 20, minus_y}});
            sketch_.dot({WiringDiagram::side + 20, minus_y});
            QString text = QStringLiteral("shared return");
            if (supply != nullptr) {
                text = joined({text, figure_(Q::wire_area, supply->return_mm2, {}),
                               figure_(Q::length, supply->return_length_m, {})});
            }
            sketch_.lines({170, shared_y - 50}, Align::left, text, 230, 3);
        }
    }

  private:
    void rail_start(double y) {
        sketch_.line({WiringDiagram::side - 60, y}, {WiringDiagram::side, y}, Sketch::Stroke::dashed);
    }

    /// From the supply's plus up to the rail, with its fuse and what feeds all circuits.
    void upper_side(const Supply& supply) {
        QPointF at(150, 520);
        if (supply.fuse_a) {
            sketch_.line(at, {150, 480});
            draw_fuse(sketch_, {150, 480 - fuse_high});
            sketch_.words({172, 480 - fuse_high / 2}, Align::left,
                          figure_(Q::current, supply.fuse_a, "fuse "), 220);
            at = QPointF(150, 480 - fuse_high);
        }
        sketch_.path(QPolygonF{at, {150, plus_y}, {WiringDiagram::side, plus_y}});
        sketch_.lines({170, plus_y + 14}, Align::left,
                      joined({figure_(Q::wire_area, supply.feed_mm2, {}),
                              figure_(Q::length, supply.feed_length_m, "feed ")}),
                      220, 3);
    }

    void words(QPointF at, const QString& text) {
        sketch_.words({at.x() + beside, at.y()}, Align::left, text, room());
    }

    [[nodiscard]] static double room() { return WiringDiagram::column - into_column - beside + 24; }

    void contact_words(const Channel& channel, double x) {
        const Board* board = channel.board ? find(show_, *channel.board) : nullptr;
        const QString name = board != nullptr ? shown(board->name) : QString();
        QString output = channel.output ? QString::number(*channel.output) : QStringLiteral("no output");
        output += channel.circuit.switched_by == SwitchedBy::transistor ? ", transistor" : "";
        const QString text = name.isEmpty() ? output : name + ' ' + output;
        const QPointF at(x + 44, contact_y + 30);
        const double width = room() - 20;
        if (sketch_.fits(text, width, 3)) {
            sketch_.lines(at, Align::left, text, width, 3);
        } else {  // a long name is cut, the output never
            const double high = sketch_.lines(at, Align::left, name, width, 2);
            sketch_.lines({at.x(), at.y() + high}, Align::left, output, width, 2);
        }
    }

    void wire_words(const Circuit& circuit, double x) {
        double y = out_y + 34;
        for (const QString& text : {figure_(Q::wire_area, circuit.wire_mm2, {}), shown(circuit.wire_colour),
                                    figure_(Q::length, circuit.wire_length_m, {}), shown(circuit.route)}) {
            if (!text.isEmpty()) {
                y += sketch_.lines({x + beside, y}, Align::left, text, room(), 2) + 4;
            }
        }
        if (!circuit.wire_mm2) {
            sketch_.lines({x + beside, y}, Align::left, QStringLiteral("wire not given"), room(), 2);
        }
    }

    void load_words(const Channel& channel, double left) {
        const double x = left + into_column;
        double y = name_y;
        y += sketch_.lines({x + beside, y}, Align::left, shown(channel.name), room(), 3,
                           {PrintSize::small, true});
        sketch_.lines({x + beside, y + 4}, Align::left,
                      joined({figure_(Q::voltage, channel.circuit.volts, {}),
                              figure_(Q::current, channel.load_current_a, {})}),
                      room(), 2);
    }

    void way_back(const WiredChannel& wired, double x) {
        const Circuit& circuit = wired.channel->circuit;
        sketch_.line({x, name_y - 8}, {x, return_y - 10});
        draw_terminal(sketch_, {x, return_y});
        words({x, return_y}, wired.return_terminal());
        const bool shared = circuit.return_path == ReturnPath::shared_return;
        const double end = shared ? shared_y : minus_y;
        sketch_.line({x, return_y + 10}, {x, end});
        sketch_.dot({x, end});
        const Supply* other = circuit.returns_to ? find(show_, *circuit.returns_to) : nullptr;
        if (other != nullptr && circuit.returns_to != circuit.supply) {
            sketch_.lines({x + beside, return_y + 22}, Align::left,
                          QStringLiteral("returns to ") + shown(other->name), room(), 2);
        }
    }

    Sketch& sketch_;
    const Show& show_;
    FigureWords figure_;
};

}  // namespace

std::vector<WiringDiagram::Sheet> WiringDiagram::sheets(double width) const {
    const auto each = std::max<std::size_t>(static_cast<std::size_t>((width - side) / column), 1);
    std::vector<Sheet> sheets;
    for (const WiringGroup& group : wiring_of(show_)) {
        const std::size_t parts = std::max<std::size_t>((group.circuits.size() + each - 1) / each, 1);
        for (std::size_t part = 0; part < parts; ++part) {
            const auto first = group.circuits.begin() + static_cast<std::ptrdiff_t>(part * each);
            const auto last = group.circuits.begin() +
                              static_cast<std::ptrdiff_t>(std::min((part + 1) * each, group.circuits.size()));
            sheets.push_back({group.supply, {first, last}, part, parts});
        }
    }
    return sheets;
}

double WiringDiagram::width_of_all() const {
    std::size_t most = 3;
    for (const WiringGroup& group : wiring_of(show_)) {
        most = std::max(most, group.circuits.size());
    }
    return side + static_cast<double>(most) * column + 40.0;
}

void WiringDiagram::paint(QPainter& painter, const QRectF& box, const Sheet& sheet) const {
    painter.save();
    painter.translate(box.topLeft());
    Sketch sketch(painter);
    Painter one(sketch, show_, units_);
    one.supply(sheet.supply);
    double left = side;
    bool shared = false;
    for (const WiredChannel& wired : sheet.circuits) {
        one.circuit(wired, left);
        shared = shared || wired.channel->circuit.return_path == ReturnPath::shared_return;
        left += column;
    }
    one.rails(left, shared, sheet.supply);
    painter.restore();
}

}  // namespace gasp
