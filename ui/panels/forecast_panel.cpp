// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/forecast_panel.hpp"

#include "core/schedule/night_sequences.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/forecast_text.hpp"
#include "ui/panels/form_row.hpp"
#include "ui/panels/night_plots.hpp"
#include "ui/panels/panel_parts.hpp"
#include "ui/panels/tile_area.hpp"
#include "ui/panels/work_bar.hpp"

#include <QAction>
#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include <utility>

namespace gasp {
namespace {

constexpr int compare_after_ms = 150;
constexpr double ms_per_s = 1000.0;

/// What was not simulated, and what was taken for blank figures.
QString assumed_text(const NightForecast& forecast, const Show& show) {
    QStringList lines;
    for (const BlankField& field : forecast.missing) {
        lines << QStringLiteral("Not simulated: no %1.").arg(QString::fromStdString(field.label));
    }
    std::vector<Assumption> assumptions = night_assumptions(show);
    assumptions.insert(assumptions.end(), forecast.assumptions.begin(), forecast.assumptions.end());
    for (const Assumption& each : assumptions) {
        lines << QStringLiteral("Taken for the %1: %2.")
                     .arg(QString::fromStdString(each.field.label), QString::fromStdString(each.taken));
    }
    return lines.join("\n");
}

}  // namespace

ForecastPanel::ForecastPanel(Document& document, Settings& settings, QWidget* parent)
    : QWidget(parent), document_(document), settings_(settings) {
    make_actions();
    figures_ = new FigureList("What the night brings", "Not run yet.");
    answers_ = new FigureList("How far it goes",
                              "How many groups this plant sustains, and the least plant for the groups that "
                              "are planned, with the show as it stands.");
    answers_->put_below(answer_);
    assumed_ = new QLabel;
    assumed_->setProperty("look", "soft");
    assumed_->setWordWrap(true);
    assumed_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    figures_->put_below(assumed_);
    pressure_ = new PressurePlot;
    spread_ = new SpreadPlot;
    hours_ = new HoursPlot;
    tiles_ = new TileArea;
    tiles_->add(figures_);
    tiles_->add(pressure_);
    tiles_->add(hours_);
    tiles_->add(spread_);
    tiles_->add(answers_);

    auto* bar = new QWidget;
    auto* row = new QHBoxLayout(bar);
    row->addWidget(run_);
    lay_panel(this, make_form(), bar, tiles_);
    connect_parts();
    setFocusProxy(rows_.front()->editor());
    pressure_->set_units(settings_.units());
    show_state();
}

ForecastPanel::~ForecastPanel() = default;

void ForecastPanel::make_actions() {
    QAction* run = make_action(this, Icon::air, "Run the forecast", "F5",
                               "Play the night many times over and see what becomes of it");
    QAction* answers = make_action(this, Icon::search, "Find how far it goes", "Shift+F5",
                                   "Find the most groups the plant sustains, and the least plant that does");
    actions_ = {run, answers};
    run_ = new WorkBar(*run);
    answer_ = new WorkBar(*answers);
}

QWidget* ForecastPanel::make_form() {
    auto* page = new QWidget;
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(grid_px, grid_px, grid_px, grid_px);
    column->setSpacing(grid_px / 2);
    const Section section = night_section();
    auto* head = new QLabel(section.title);
    head->setFont(gasp::font(TypeSize::body, true));
    column->addWidget(head);
    for (const Entry& entry : section.entries) {
        FormRow* row = make_row(document_, settings_, entry, page);
        column->addWidget(row);
        rows_.push_back(row);
    }
    column->addStretch(1);
    return scrolled_form(page);
}

void ForecastPanel::connect_parts() {
    compare_.setSingleShot(true);
    compare_.setInterval(compare_after_ms);
    connect(&compare_, &QTimer::timeout, this, &ForecastPanel::show_state);
    connect(run_, &WorkBar::started, this, &ForecastPanel::run);
    connect(run_, &WorkBar::cancelled, this, &ForecastPanel::show_state);
    connect(answer_, &WorkBar::started, this, &ForecastPanel::find_answers);
    connect(answer_, &WorkBar::cancelled, this, &ForecastPanel::show_state);
    connect(&document_, &Document::changed, this, [this](const Edit&) {
        refresh_rows();
        compare_.start();
    });
    connect(&document_, &Document::replaced, this, [this] {
        refresh_rows();
        compare_.start();
    });
    connect(&settings_, &Settings::units_changed, this, [this] {
        refresh_rows();
        show_forecast();
    });
}

void ForecastPanel::refresh_rows() {
    for (FormRow* row : rows_) {
        row->refresh();
    }
}

bool ForecastPanel::out_of_date() const {
    return of_ != nullptr && *of_ != document_.show();
}

void ForecastPanel::show_state() {
    if (forecast_) {
        const QString terms = forecast_terms(forecast_->terms);
        if (out_of_date()) {
            run_->say("The show has changed since. Shown: " + terms + ".", true);
        } else {
            run_->say(terms + ".");
        }
    }
    if (answers_of_ != nullptr) {
        const bool old = *answers_of_ != document_.show();
        answer_->say(old ? "The show has changed since." : QString(), old);
    }
}

void ForecastPanel::run() {
    const auto show = document_.snapshot();
    run_->run<NightForecast>(
        [show](const std::atomic<bool>& cancel, const WorkBar::Progress& progress) {
            NightWork work;
            work.unfavourable = true;
            return forecast_night(*show, night_sequences(*show), night_terms(show->night), work, cancel,
                                  progress);
        },
        [this, show](Result<NightForecast> result) { take(std::move(result), show); });
}

void ForecastPanel::take(Result<NightForecast> forecast, std::shared_ptr<const Show> show) {
    if (!forecast) {
        run_->say(sentence_of(forecast.error()), true);
        return;
    }
    forecast_ = std::move(*forecast);
    of_ = std::move(show);
    show_forecast();
    show_state();
    emit forecast_made();
}

void ForecastPanel::show_forecast() {
    pressure_->set_units(settings_.units());
    answers_->set(answer_lines(answers_found_, settings_.units()));
    if (!forecast_) {
        return;
    }
    const AirPlant& plant = of_->rig.air_plant;
    figures_->set(forecast_lines(*forecast_, plant, settings_.units()));
    assumed_->setText(assumed_text(*forecast_, *of_));
    assumed_->setVisible(!assumed_->text().isEmpty());
    pressure_->set(pressure_night(*forecast_, plant));
    spread_->set(strike_spreads(*forecast_, *of_), forecast_->terms.weak_s * ms_per_s);
    hours_->set(scare_hours(*forecast_));
}

void ForecastPanel::find_answers() {
    using Answers = std::vector<NightAnswer>;
    const auto show = document_.snapshot();
    answer_->run<Answers>(
        [show, units = settings_.units()](const std::atomic<bool>& cancel,
                                          const WorkBar::Progress& progress) {
            return night_answers(*show, night_sequences(*show), night_terms(show->night), {}, units, cancel,
                                 progress);
        },
        [this, show](Result<Answers> answers) { take_answers(std::move(answers), show); });
    tiles_->bring_up(*answers_);
}

void ForecastPanel::take_answers(Result<std::vector<NightAnswer>> answers, std::shared_ptr<const Show> show) {
    if (!answers) {
        answer_->say(sentence_of(answers.error()), true);
        return;
    }
    answers_found_ = std::move(*answers);
    answers_of_ = std::move(show);
    answers_->set(answer_lines(answers_found_, settings_.units()));
    tiles_->bring_up(*answers_);
    show_state();
}

}  // namespace gasp
