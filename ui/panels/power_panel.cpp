// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/power_panel.hpp"

#include "core/power/contact.hpp"
#include "core/schedule/circuit_advice.hpp"
#include "core/schedule/supply_use.hpp"
#include "core/units/rounded.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/current_plot.hpp"
#include "ui/panels/figure_list.hpp"

#include <QHBoxLayout>
#include <QLabel>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace gasp {
namespace {

constexpr int plot_px = 128;           // least height of a curve
constexpr int figures_least_px = 248;  // least width of the figures
constexpr int field_end_px = 5;        // from a plot's field to its right edge

QString voltage_text(double volts) {
    return QString::fromStdString(print_rounded(Quantity::voltage, volts, UnitSystem::metric));
}

QString at_text(Micros time) {
    return QObject::tr("at %1").arg(QString::fromStdString(print_time(time)));
}

std::optional<Severity> severity_of(double amps, const Supply& supply) {
    if (!supply.rated_a || amps <= *supply.rated_a * planned_share(supply)) {
        return std::nullopt;
    }
    return amps > *supply.rated_a ? Severity::stop : Severity::warn;
}

void add_supply(const Show& show, const Sequence& sequence, const SequencePower& power, std::size_t place,
                std::vector<FigureLine>& lines) {
    const Supply& supply = show.rig.supplies[place];
    const SupplyUse use = supply_use(show, sequence, power, place);
    const bool surges_over = supply.rated_a && use.peak_a > *supply.rated_a;
    lines.push_back({QObject::tr("%1, peak").arg(QString::fromStdString(supply.name)),
                     current_text(use.peak_a),
                     {},
                     surges_over ? std::optional(Severity::warn) : std::nullopt,
                     at_text(use.peak_at) + (use.complete ? QString() : QObject::tr(", some not known"))});
    const std::optional<Severity> steady = severity_of(use.steady_peak_a, supply);
    lines.push_back({QObject::tr("without surges"),
                     current_text(use.steady_peak_a),
                     {},
                     steady,
                     at_text(use.steady_peak_at)});
    lines.push_back({QObject::tr("average"),
                     current_text(use.average_a),
                     {},
                     std::nullopt,
                     QObject::tr("over this sequence alone")});
    lines.push_back({QObject::tr("RMS, what heats"),
                     current_text(use.repeated_rms_a),
                     {},
                     severity_of(use.repeated_rms_a, supply),
                     QObject::tr("again every %1").arg(QString::fromStdString(print_duration(use.period)))});
    lines.push_back({QObject::tr("rating needed"),
                     use.needed_a ? current_text(*use.needed_a) : QObject::tr("not checked"),
                     {},
                     std::nullopt,
                     supply.rated_a ? QObject::tr("has %1").arg(current_text(*supply.rated_a))
                                    : QObject::tr("has none stated")});
    if (use.margin_percent) {
        lines.push_back({QObject::tr("margin"),
                         QObject::tr("%1 %").arg(*use.margin_percent, 0, 'f', 0),
                         {},
                         steady,
                         QObject::tr("of its rating, surges left out")});
    }
}

FigureLine load_line(const Show& show, const AnalysisResult& result, std::size_t place, UnitSystem units) {
    const Channel& channel = show.rig.channels[place];
    const QString name = QString::fromStdString(channel.name);
    const CircuitUse& alone = result.power.circuits[place];
    const CircuitUse& use = worse_use(show.rig, place, alone, result.together);
    if (use.on == Micros{0}) {
        return {name, QObject::tr("never on"), {}, std::nullopt};
    }
    const CircuitAdvice advice = advise(show.rig, place, result.power.model, use, units);
    if (!advice.left_v) {
        return {name, QObject::tr("not checked"), {}, std::nullopt};
    }
    std::optional<Severity> severity;
    if (*advice.left_v < *advice.least_v && channel.circuit.least_percent) {
        severity = load_kind(channel) == LoadKind::coil ? Severity::stop : Severity::warn;
    }
    return {name,
            voltage_text(*advice.left_v),
            {},
            severity,
            &use == &alone
                ? QObject::tr("%1 lost %2").arg(voltage_text(advice.drop->volts), at_text(advice.drop->at))
                : QObject::tr("%1 lost with sequences at once").arg(voltage_text(advice.drop->volts))};
}

void add_together(const Show& show, const AnalysisResult& result, std::size_t place,
                  std::vector<FigureLine>& lines) {
    const Supply& supply = show.rig.supplies[place];
    const SupplyTogether& sum = result.together->supplies[place];
    lines.push_back(
        {QObject::tr("%1, peak").arg(QString::fromStdString(supply.name)),
         current_text(amps(sum.peak)),
         {},
         supply.rated_a && amps(sum.peak) > *supply.rated_a ? std::optional(Severity::warn) : std::nullopt,
         QObject::tr("at most, worst moments met")});
    lines.push_back({QObject::tr("without surges"),
                     current_text(amps(sum.steady)),
                     {},
                     severity_of(amps(sum.steady), supply),
                     QObject::tr("at most")});
    const bool known = result.power.model.supplies[place].complete;
    lines.push_back({QObject::tr("fuse that fits"),
                     hazardous(supply) ? QObject::tr("electrician's")
                     : !known          ? QObject::tr("not checked")
                     : sum.fuse_a      ? current_text(*sum.fuse_a)
                                       : QObject::tr("none"),
                     {},
                     std::nullopt,
                     supply.fuse_a ? QObject::tr("has %1").arg(current_text(*supply.fuse_a))
                                   : QObject::tr("has none stated")});
}

}  // namespace

PowerPanel::PowerPanel(Document& document, Analysis& analysis, Settings& settings, QWidget* parent)
    : QWidget(parent),
      document_(document),
      analysis_(analysis),
      settings_(settings),
      area_(new QScrollArea),
      curves_(new QWidget),
      column_(new QVBoxLayout(curves_)),
      empty_(new QLabel(tr("No supply in the rig. Add one with Edit, Rig, and choose it as the supply of the "
                           "channels: then the currents of the sequence are drawn here."))),
      supplies_(new FigureList(tr("Supplies"), tr("No supply in the rig."))),
      together_(new FigureList(tr("Sequences at once"), {})),
      loads_(new FigureList(tr("Left at each load, at worst"), tr("No channel in the rig."))) {
    column_->setContentsMargins(0, 0, 0, 0);
    column_->setSpacing(grid_px);
    empty_->setWordWrap(true);
    empty_->setProperty("look", "soft");
    empty_->setMargin(grid_px);
    empty_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    column_->addWidget(empty_);
    area_->setWidget(curves_);
    setFocusProxy(area_);
    area_->setWidgetResizable(true);
    area_->setFrameShape(QFrame::NoFrame);
    area_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area_->setAccessibleName(tr("Currents of the supplies over the sequence"));
    auto* page = new QWidget;
    auto* lists = new QVBoxLayout(page);
    lists->setContentsMargins(grid_px, 0, grid_px, grid_px);
    lists->addWidget(supplies_);
    lists->addWidget(together_);
    lists->addWidget(loads_);
    lists->addStretch(1);
    auto* figures = new QScrollArea;
    figures->setWidget(page);
    figures->setWidgetResizable(true);
    figures->setFrameShape(QFrame::NoFrame);
    figures->setMinimumWidth(figures_least_px);
    figures->setAccessibleName(tr("Figures of the supplies and loads"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(grid_px);
    row->addWidget(area_);
    row->addWidget(figures, 1);
    connect(&analysis_, &Analysis::ready, this, &PowerPanel::refresh);
    connect(&settings_, &Settings::units_changed, this, &PowerPanel::refresh);
}

void PowerPanel::follow(Micros from, Micros to, const QRect& lanes_on_screen) {
    from_ = from;
    to_ = to;
    lanes_ = lanes_on_screen;
    for (CurrentPlot* plot : plots_) {
        plot->set_stretch(from_, to_);
    }
    lay_out();
}

void PowerPanel::set_playhead(Micros time) {
    playhead_ = time;
    for (CurrentPlot* plot : plots_) {
        plot->set_playhead(time);
    }
}

void PowerPanel::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    lay_out();
}

void PowerPanel::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
}

/// The curves end where the lanes end, and begin where they begin, if the panel stands under them with room
/// for the figures; else they take what the figures leave.
void PowerPanel::lay_out() {
    const int left = mapFromGlobal(lanes_.topLeft()).x();
    const int right = left + lanes_.width();
    const bool under = lanes_.isValid() && left >= 0 && right + field_end_px + figures_least_px <= width();
    area_->setFixedWidth(under ? right + field_end_px : std::max(width() * 3 / 5, 1));
    for (CurrentPlot* plot : plots_) {
        plot->set_left_edge(under ? left : 0);
    }
}

void PowerPanel::refresh() {
    if (!isVisible()) {
        return;  // shown, it asks again
    }
    refresh_plots();
    refresh_figures();
}

void PowerPanel::refresh_plots() {
    const auto result = analysis_.result();
    const auto& supplies = document_.show().rig.supplies;
    const bool same = result->power.curves.size() == supplies.size();  // else a newer result is on its way
    while (plots_.size() > supplies.size()) {
        delete plots_.back();
        plots_.pop_back();
    }
    for (std::size_t i = 0; i < supplies.size(); ++i) {
        const QString name = QString::fromStdString(supplies[i].name);
        if (i == plots_.size()) {
            plots_.push_back(new CurrentPlot(name, curves_));
            plots_.back()->setMinimumHeight(plot_px);
            plots_.back()->set_stretch(from_, to_);
            plots_.back()->set_playhead(playhead_);
            column_->addWidget(plots_.back(), 1);
        }
        plots_[i]->set_supply(name);
        if (same) {
            plots_[i]->set(result->power.curves[i], result->power.length, supplies[i].rated_a,
                           supplies[i].rated_a.value_or(0.0) * planned_share(supplies[i]),
                           result->power.model.supplies[i].complete);
        }
    }
    empty_->setVisible(supplies.empty());
    lay_out();
}

void PowerPanel::refresh_figures() {
    const auto result = analysis_.result();
    const Show& show = document_.show();
    if (result->power.curves.size() != show.rig.supplies.size() ||
        result->power.circuits.size() != show.rig.channels.size()) {
        return;  // a newer result is on its way
    }
    std::vector<FigureLine> supplies;
    const Sequence* sequence = gasp::find(show, result->sequence);
    for (std::size_t i = 0; sequence != nullptr && i < show.rig.supplies.size(); ++i) {
        add_supply(show, *sequence, result->power, i, supplies);
    }
    supplies_->set(std::move(supplies));
    const bool met = result->together && result->together->supplies.size() == show.rig.supplies.size();
    std::vector<FigureLine> together;
    for (std::size_t i = 0; met && i < show.rig.supplies.size(); ++i) {
        add_together(show, *result, i, together);
    }
    together_->set(std::move(together));
    together_->setVisible(met);
    std::vector<FigureLine> loads;
    for (std::size_t i = 0; i < show.rig.channels.size(); ++i) {
        loads.push_back(load_line(show, *result, i, settings_.units()));
    }
    loads_->set(std::move(loads));
}

}  // namespace gasp
