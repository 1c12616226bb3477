// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/air_remedies.hpp"

#include "core/units/rounded.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/panel_parts.hpp"
#include "ui/panels/tile_area.hpp"
#include "ui/panels/work_bar.hpp"

#include <QAction>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include <chrono>
#include <cmath>
#include <utility>

namespace gasp {
namespace {

QString pressure(double kpa, UnitSystem units) {
    return QString::fromStdString(print_rounded(Quantity::gauge_pressure, kpa, units));
}

QString duration(double seconds) {
    return QString::fromStdString(print_duration(from_ms(std::round(seconds * 1e3))));
}

FigureLine line_of(const Stagger::Shift& shift, const Show& show, const Sequence& sequence) {
    const Cue* cue = find(sequence, shift.cue);
    if (cue == nullptr) {
        return {};
    }
    const Channel* channel = find(show, cue->channel);
    const Micros from = start_of(sequence, *cue);
    const QString name =
        cue->name.empty() ? QStringLiteral("Cue %1").arg(cue->id.value) : QString::fromStdString(cue->name);
    const QString by = QString::fromStdString(print_duration(std::chrono::abs(shift.by)));
    return {channel != nullptr ? name + ", " + QString::fromStdString(channel->name) : name,
            by + (shift.by > Micros{0} ? " later" : " earlier"),
            QStringLiteral("from %1 to %2")
                .arg(QString::fromStdString(print_time(from)),
                     QString::fromStdString(print_time(from + shift.by))),
            {}};
}

FigureLine refusal(const QString& words, const Error& error) {
    return {words, {}, {}, Severity::note, sentence_of(error)};
}

}  // namespace

bool is_short_of_air(const Finding& finding, SequenceId sequence) {
    const bool about_air =
        finding.check == "starved" || (finding.check == "air_budget" && finding.place.time.has_value());
    return about_air && !finding.not_checked && finding.place.sequence == sequence;
}

AirRemedies::AirRemedies(Document& document, Analysis& analysis, const Settings& settings, QWidget* parent)
    : QWidget(parent),
      document_(document),
      analysis_(analysis),
      settings_(settings),
      what_(new QLabel),
      find_(make_action(this, Icon::air, "Look for a reservoir", "",
                        "Find the least reservoir beside the figure that lets it strike in time")) {
    setFocusPolicy(Qt::StrongFocus);
    what_->setWordWrap(true);
    auto* back = new QPushButton("Back to the findings");
    back->setToolTip("Back to the findings (Esc)");
    connect(back, &QPushButton::clicked, this, &AirRemedies::closed);
    auto* bar = new QHBoxLayout;
    bar->setContentsMargins(grid_px, grid_px / 2, grid_px, grid_px / 2);
    bar->addWidget(what_, 1);
    bar->addWidget(back, 0, Qt::AlignTop);
    auto* tiles = new TileArea;
    tiles->add(make_shifts());
    tiles->add(make_reservoir());
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addLayout(bar);
    column->addWidget(tiles, 1);
    connect(&analysis_, &Analysis::ready, this, &AirRemedies::take_result);
    connect(&settings_, &Settings::units_changed, this, [this] {
        show_shifts();
        show_reservoir();
    });
}

QWidget* AirRemedies::make_shifts() {
    shifts_ = new FigureList("Move the cues apart", "Being worked out.");
    move_ = new QPushButton("Move them apart");
    move_->setToolTip("Move these cues, as one step that can be undone");
    connect(move_, &QPushButton::clicked, this, &AirRemedies::move_apart);
    shifts_->put_below(move_);
    return shifts_;
}

QWidget* AirRemedies::make_reservoir() {
    reservoir_ = new FigureList("Or a reservoir beside the figure", "Not looked for.");
    fit_ = new QPushButton("Fit it");
    fit_->setToolTip("Put the reservoir into the rig, as one step that can be undone");
    connect(fit_, &QPushButton::clicked, this, &AirRemedies::fit_reservoir);
    search_ = new WorkBar(*find_);
    connect(search_, &WorkBar::started, this, &AirRemedies::find_reservoir);
    reservoir_->put_below(fit_);
    reservoir_->put_below(search_);
    return reservoir_;
}

void AirRemedies::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        emit closed();
    } else {
        QWidget::keyPressEvent(event);
    }
}

/// The figure that the finding names, else the one that was sent out last before it.
ActuatorId AirRemedies::figure_of(const Finding& finding) const {
    if (finding.place.actuator) {
        return *finding.place.actuator;
    }
    ActuatorId last;
    const Micros at = finding.place.time.value_or(Micros{0});
    for (const StrokeCommand& command : analysis_.result()->commands) {
        if (command.way == Coil::out && (command.time <= at || last == ActuatorId{})) {
            last = command.actuator;
        }
    }
    return last;
}

void AirRemedies::show_for(const Finding& finding) {
    what_->setText(QString::fromStdString(finding.what) + ".");
    figure_ = figure_of(finding);
    found_.reset();
    reservoir_->set({});
    show_shifts();
    show_reservoir();
    if (!search_->working()) {
        find_reservoir();
    }
    setFocus();
}

const Result<Stagger>* AirRemedies::stagger() const {
    const auto& result = *analysis_.result();
    const bool known = analysis_.up_to_date() && result.facts != nullptr && result.facts->stagger;
    return known ? &*result.facts->stagger : nullptr;
}

void AirRemedies::take_result() {
    if (!isVisible()) {
        return;
    }
    show_shifts();
    show_reservoir();
}

void AirRemedies::show_shifts() {
    const Result<Stagger>* found = stagger();
    const bool holds = found == nullptr && analysis_.up_to_date() && analysis_.result()->facts != nullptr;
    move_->setEnabled(found != nullptr && found->has_value());
    if (holds) {
        shifts_->set({{"The receiver holds up now", {}, {}, {}}});
        return;
    }
    if (found == nullptr) {
        shifts_->set({});
        return;
    }
    if (!*found) {
        shifts_->set({refusal("That does not help here", found->error())});
        return;
    }
    std::vector<FigureLine> lines;
    for (const Stagger::Shift& shift : (*found)->shifts) {
        lines.push_back(line_of(shift, document_.show(), document_.sequence()));
    }
    const AirFacts& facts = *analysis_.result()->facts;
    const UnitSystem units = settings_.units();
    lines.push_back({"Lowest in the receiver",
                     pressure((*found)->lowest_kpa_gauge, units),
                     QStringLiteral("now %1, at least %2")
                         .arg(pressure(facts.lowest_receiver_kpa_gauge, units),
                              pressure(facts.regulator_kpa_gauge, units)),
                     {}});
    shifts_->set(std::move(lines));
}

void AirRemedies::show_reservoir() {
    const bool fresh = found_ && found_for_ == document_.revision();
    fit_->setEnabled(fresh);
    fit_->setVisible(found_.has_value());
    if (!found_) {
        return;
    }
    const Actuator* actuator = gasp::find(document_.show(), found_->actuator);
    const QString name = actuator != nullptr ? QString::fromStdString(actuator->name) : QString();
    reservoir_->set(
        {{"Beside " + name,
          QString::fromStdString(print_rounded(Quantity::volume, found_->litres, settings_.units())),
          "the least usual size that serves",
          {}},
         {"Latest strike",
          duration(found_->strike_s),
          found_->strike_before_s ? "now " + duration(*found_->strike_before_s) : QString("now none"),
          {}}});
    if (!search_->working()) {
        search_->say(fresh ? QString() : "The show has changed since.", !fresh);
    }
}

void AirRemedies::find_reservoir() {
    const auto show = document_.snapshot();
    const std::uint64_t revision = document_.revision();
    search_->run<PropReservoir>(
        [show, id = figure_, sequence = document_.sequence_id()](const std::atomic<bool>& cancel,
                                                                 const WorkBar::Progress&) {
            return reservoir_beside(*show, *gasp::find(*show, sequence), id,
                                    [&cancel] { return cancel.load(); });
        },
        [this, revision](Result<PropReservoir> found) {
            if (!found) {
                found_.reset();
                reservoir_->set({refusal("That does not help here", found.error())});
                show_reservoir();
                return;
            }
            found_ = std::move(*found);
            found_for_ = revision;
            show_reservoir();
        });
}

void AirRemedies::move_apart() {
    const Result<Stagger>* found = stagger();
    if (found != nullptr && *found) {
        document_.perform((*found)->edit);
        emit closed();
    }
}

void AirRemedies::fit_reservoir() {
    if (found_ && found_for_ == document_.revision()) {
        document_.perform(found_->edit);
        emit closed();
    }
}

}  // namespace gasp
