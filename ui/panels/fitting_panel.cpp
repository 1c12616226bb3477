// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/fitting_panel.hpp"

#include "core/show/edits.hpp"
#include "core/sound/knocks.hpp"
#include "ui/editor/file_path.hpp"
#include "ui/editor/sound_import.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/fit_plot.hpp"
#include "ui/panels/fitting_text.hpp"
#include "ui/panels/form_row.hpp"
#include "ui/panels/panel_parts.hpp"
#include "ui/panels/tile_area.hpp"
#include "ui/panels/work_bar.hpp"

#include <QAction>
#include <QComboBox>
#include <QDragEnterEvent>
#include <QDropEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QMimeData>
#include <QPushButton>
#include <QSignalBlocker>
#include <QTableWidget>
#include <QVBoxLayout>

#include <array>
#include <filesystem>
#include <utility>

namespace gasp {
namespace {

/// How strokes are timed, and the standard deviation of one (common practice, no source).
struct Timing {
    const char* words;
    double reading_ms;
};
constexpr std::array timings{Timing{"A stopwatch", 30.0}, Timing{"A film, 240 pictures a second", 4.0},
                             Timing{"A recording of click and thump", 2.0}};
constexpr int by_recording = 2;
/// Pairs of knocks that are no surer are left out at first.
constexpr double least_confidence = 0.05;

using HeardStrokes = std::vector<HeardStroke>;

/// What an error of the model says names the field already; its key is for the file.
Error without_key(Error error) {
    error.where.clear();
    return error;
}

Result<HeardStrokes> hear(const Show& show, ActuatorId actuator, const std::filesystem::path& recording) {
    const Result<StrokeTimes> expected = stroke_times(show, actuator);
    if (!expected) {
        return tl::unexpected(without_key(expected.error()));
    }
    const Result<std::vector<Knock>> knocks = find_knocks(recording);
    if (!knocks) {
        return tl::unexpected(knocks.error());
    }
    Result<HeardStrokes> strokes = pair_strokes(
        *knocks, {expected->out_ms - expected->out_delay_ms, expected->back_ms - expected->back_delay_ms});
    if (!strokes) {
        strokes.error().where = recording.filename().string();
    }
    return strokes;
}

QTableWidgetItem* cell(const QString& text, bool right = true) {
    auto* item = new QTableWidgetItem(text);
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    item->setTextAlignment(Qt::AlignVCenter | (right ? Qt::AlignRight : Qt::AlignLeft));
    return item;
}

QString dropped_file(const QMimeData& data) {
    const auto urls = data.urls();
    return urls.size() == 1 && urls.front().isLocalFile() ? urls.front().toLocalFile() : QString();
}

}  // namespace

FittingPanel::FittingPanel(Document& document, Settings& settings, QWidget* parent)
    : QWidget(parent), document_(document), settings_(settings), id_(std::make_shared<ActuatorId>()) {
    setAcceptDrops(true);
    make_actions();
    figures_ =
        new FigureList("What the strokes say",
                       "Time some strokes of the real figure, out and back, at the pressure it will run "
                       "at. Three are the least, ten are better.");
    plot_ = new FitPlot;
    keep_ = new QPushButton("Keep in the show");
    keep_->setToolTip("Keep the fit with the actuator, as one step that can be undone; everything uses it");
    tiles_ = new TileArea;
    tiles_->add(figures_);
    tiles_->add(plot_);
    heard_tile_ = make_heard();
    tiles_->add(heard_tile_);
    auto* bar = new QWidget;
    auto* row = new QHBoxLayout(bar);
    row->setSpacing(2 * grid_px);
    row->addWidget(fit_, 1);
    row->addWidget(keep_, 0, Qt::AlignTop);
    lay_panel(this, make_form(), bar, tiles_);
    connect_parts();
    setFocusProxy(actuator_);
    list_actuators();
    show_heard();
    show_state();
}

FittingPanel::~FittingPanel() = default;

void FittingPanel::make_actions() {
    QAction* fit = make_action(this, Icon::sensor, "Fit to timed strokes", "F7",
                               "Fit friction, conductances and valve delays to the timed strokes");
    QAction* listen = make_action(this, Icon::sound, "Listen to a recording...", "Shift+F7",
                                  "Find the valve's click and the stop's thump in a recording");
    actions_ = {fit, listen};
    fit_ = new WorkBar(*fit);
    listen_ = new WorkBar(*listen);
}

QWidget* FittingPanel::make_form() {
    auto* page = new QWidget;
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(grid_px, grid_px, grid_px, grid_px);
    column->setSpacing(grid_px / 2);
    const auto add_choice = [column](const QString& words, const QString& help) {
        auto* label = new QLabel(words);
        auto* box = new QComboBox;
        box->setAccessibleName(words);
        box->setToolTip(help);
        label->setBuddy(box);
        column->addWidget(label);
        column->addWidget(box);
        return box;
    };
    actuator_ = add_choice("Actuator", "Whose strokes were timed");
    timed_by_ = add_choice("Timed with", "How exact each time is");
    for (const Timing& timing : timings) {
        timed_by_->addItem(QStringLiteral("%1, to about %2 ms").arg(timing.words).arg(timing.reading_ms));
    }
    timed_by_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    for (const ListEntry& entry : timed_stroke_entries(id_)) {
        FormRow* row = make_row(document_, settings_, entry, page);
        column->addWidget(row);
        rows_.push_back(row);
    }
    auto* help = new QLabel(
        "Stand clear of the figure's reach while you time it, and shut off and vent before "
        "you reach in.");
    help->setWordWrap(true);
    help->setProperty("look", "soft");
    column->addWidget(help);
    column->addStretch(1);
    return scrolled_form(page);
}

QWidget* FittingPanel::make_heard() {
    auto* part = new QWidget;
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(grid_px / 2);
    auto* head = new QLabel("Heard in a recording");
    head->setFont(gasp::font(TypeSize::body, true));
    recording_name_ = new QLabel;
    recording_name_->setWordWrap(true);
    recording_name_->setProperty("look", "soft");
    heard_table_ = new QTableWidget(0, 4);
    heard_table_->setHorizontalHeaderLabels({"Stroke", "Click at", "To the thump", "Sure"});
    heard_table_->setAccessibleName("Strokes heard in the recording");
    heard_table_->verticalHeader()->hide();
    heard_table_->verticalHeader()->setDefaultSectionSize(row_px);
    heard_table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    heard_table_->horizontalHeader()->setHighlightSections(false);
    heard_table_->setShowGrid(false);
    heard_table_->setTabKeyNavigation(false);
    heard_table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    heard_table_->setMinimumHeight(4 * row_px);
    forget_ = new QPushButton("Use the typed times");
    forget_->setToolTip("Leave the recording out");
    column->addWidget(head);
    column->addWidget(listen_);
    column->addWidget(recording_name_);
    column->addWidget(heard_table_, 1);
    column->addWidget(forget_, 0, Qt::AlignLeft);
    column->addStretch(0);
    return part;
}

void FittingPanel::connect_parts() {
    connect(fit_, &WorkBar::started, this, &FittingPanel::fit);
    connect(fit_, &WorkBar::cancelled, this, &FittingPanel::show_state);
    connect(listen_, &WorkBar::started, this, &FittingPanel::choose_recording);
    connect(keep_, &QPushButton::clicked, this, &FittingPanel::keep);
    connect(forget_, &QPushButton::clicked, this, &FittingPanel::forget_heard);
    connect(actuator_, &QComboBox::activated, this, [this] {
        forget_heard();
        choose_actuator(ActuatorId{actuator_->currentData().toUInt()});
    });
    connect(heard_table_, &QTableWidget::itemChanged, this, &FittingPanel::show_state);
    connect(timed_by_, &QComboBox::currentIndexChanged, this, &FittingPanel::show_state);
    connect(&document_, &Document::changed, this, &FittingPanel::list_actuators);
    connect(&document_, &Document::replaced, this, &FittingPanel::list_actuators);
}

void FittingPanel::list_actuators() {
    const QSignalBlocker quiet(actuator_);
    actuator_->clear();
    for (const Actuator& actuator : document_.show().rig.actuators) {
        actuator_->addItem(QString::fromStdString(actuator.name), actuator.id.value);
    }
    const int index = std::max(actuator_->findData(id_->value), 0);
    actuator_->setCurrentIndex(index);
    actuator_->setEnabled(actuator_->count() > 0);
    choose_actuator(ActuatorId{actuator_->currentData().toUInt()});
}

void FittingPanel::choose_actuator(ActuatorId id) {
    if (*id_ != id) {
        *id_ = id;
        result_.reset();
        show_result();
    }
    for (FormRow* row : rows_) {
        row->setEnabled(id.value != 0);
        row->refresh();
    }
    show_state();
}

std::vector<TimedStroke> FittingPanel::strokes() const {
    std::vector<TimedStroke> all;
    for (std::size_t i = 0; i < heard_.size(); ++i) {
        if (heard_table_->item(static_cast<int>(i), 0)->checkState() == Qt::Checked) {
            all.push_back({heard_[i].way, heard_[i].ms(), true});
        }
    }
    const Actuator* actuator = gasp::find(document_.show(), *id_);
    if (!heard_.empty() || actuator == nullptr) {
        return all;
    }
    for (const double ms : actuator->fit.out_ms) {
        all.push_back({Coil::out, ms, false});
    }
    for (const double ms : actuator->fit.back_ms) {
        all.push_back({Coil::back, ms, false});
    }
    return all;
}

double FittingPanel::reading_ms() const {
    return timings.at(static_cast<std::size_t>(timed_by_->currentIndex())).reading_ms;
}

void FittingPanel::fit() {
    const auto show = document_.snapshot();
    const ActuatorId id = *id_;
    if (gasp::find(*show, id) == nullptr) {
        fit_->say("There is no actuator yet. Add one to the rig.", true);
        return;
    }
    const std::vector<TimedStroke> timed = strokes();
    fit_->run<StrokeFit>(
        [show, id, timed, reading = reading_ms()](const std::atomic<bool>& cancel, const WorkBar::Progress&) {
            return fit_strokes(*show, id, timed, {reading, [&cancel] { return cancel.load(); }});
        },
        [this, show, id, timed](Result<StrokeFit> result) {
            fitted_to_ = timed;
            take(std::move(result), show, id);
        });
}

void FittingPanel::take(Result<StrokeFit> fit, std::shared_ptr<const Show> show, ActuatorId actuator) {
    if (!fit) {
        fit_->say(sentence_of(without_key(fit.error())), true);
        return;
    }
    if (actuator == *id_) {
        result_ = std::move(*fit);
        of_ = *gasp::find(*show, actuator);
        show_result();
        show_state();
        tiles_->bring_up(*figures_);
    }
}

void FittingPanel::show_result() {
    figures_->set(result_ ? fit_lines(*result_) : std::vector<FigureLine>{});
    plot_->set(result_ ? result_->strokes : std::vector<FittedStroke>{});
}

void FittingPanel::show_state() {
    const Actuator* actuator = gasp::find(document_.show(), *id_);
    keep_->setEnabled(result_.has_value() && actuator != nullptr);
    const std::size_t count = strokes().size();
    const QString timed = QStringLiteral("%1 %2 timed").arg(count).arg(count == 1 ? "stroke" : "strokes");
    if (actuator == nullptr) {
        fit_->say("The rig has no actuator yet.");
    } else if (result_ && strokes() != fitted_to_) {
        fit_->say(QStringLiteral("%1, not fitted yet. Shown: of the strokes before.").arg(timed), true);
    } else if (result_ && actuator->fit == result_->fit) {
        fit_->say("Kept in the show.");
    } else if (result_ && of_ && *of_ != *actuator) {
        fit_->say("The actuator has changed since it was fitted.", true);
    } else if (!result_) {
        fit_->say(timed + ".");
    } else {
        fit_->say("Not kept yet.");
    }
}

void FittingPanel::keep() {
    const Actuator* actuator = gasp::find(document_.show(), *id_);
    if (!result_ || actuator == nullptr) {
        return;
    }
    Actuator fitted = *actuator;
    fitted.fit = result_->fit;
    Edit edit = set_actuator(document_.show(), fitted);
    edit.sentence = "keep the fit of " + actuator->name;
    document_.perform(std::move(edit));
    show_state();
}

void FittingPanel::choose_recording() {
    auto* dialog = new QFileDialog(this, "Listen to a recording", settings_.last_folder(), sound_filter());
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setFileMode(QFileDialog::ExistingFile);
    connect(dialog, &QFileDialog::fileSelected, this, [this](const QString& file) {
        settings_.set_last_folder(QFileInfo(file).absolutePath());
        listen(file);
    });
    dialog->open();
}

void FittingPanel::listen(const QString& recording) {
    const auto show = document_.snapshot();
    const ActuatorId id = *id_;
    if (gasp::find(*show, id) == nullptr || listen_->working()) {
        listen_->say("There is no actuator yet. Add one to the rig.", true);
        return;
    }
    const std::filesystem::path path = as_path(recording);
    listen_->run<HeardStrokes>(
        [show, id, path](const std::atomic<bool>&, const WorkBar::Progress&) {
            return hear(*show, id, path);
        },
        [this, recording](Result<HeardStrokes> heard) { take_heard(std::move(heard), recording); });
    tiles_->bring_up(*heard_tile_);
}

void FittingPanel::take_heard(Result<HeardStrokes> heard, const QString& recording) {
    if (!heard) {
        listen_->say(sentence_of(heard.error()), true);
        return;
    }
    listen_->say({});
    heard_ = std::move(*heard);
    recording_ = recording;
    show_heard();
    timed_by_->setCurrentIndex(by_recording);
    show_state();
    tiles_->bring_up(*heard_tile_);
}

void FittingPanel::show_heard() {
    const QSignalBlocker quiet(heard_table_);
    heard_table_->setRowCount(static_cast<int>(heard_.size()));
    for (std::size_t i = 0; i < heard_.size(); ++i) {
        const HeardStroke& stroke = heard_[i];
        const int row = static_cast<int>(i);
        QTableWidgetItem* way = cell(stroke.way == Coil::out ? "out" : "back", false);
        way->setFlags(way->flags() | Qt::ItemIsUserCheckable);
        way->setCheckState(stroke.confidence >= least_confidence ? Qt::Checked : Qt::Unchecked);
        heard_table_->setItem(row, 0, way);
        heard_table_->setItem(row, 1, cell(QStringLiteral("%1 s").arg(stroke.click_s, 0, 'f', 3)));
        heard_table_->setItem(row, 2, cell(QStringLiteral("%1 ms").arg(stroke.ms(), 0, 'f', 0)));
        heard_table_->setItem(row, 3, cell(QStringLiteral("%1 %").arg(stroke.confidence * 100.0, 0, 'f', 0)));
    }
    const bool any = !heard_.empty();
    heard_table_->setVisible(any);
    forget_->setVisible(any);
    recording_name_->setText(
        any ? QStringLiteral("%1. These strokes are fitted, the typed ones are not.")
                  .arg(QFileInfo(recording_).fileName())
            : QString("Drop a recording here in which the valve's click and the stop's thump "
                      "are heard, stroke after stroke."));
}

void FittingPanel::forget_heard() {
    heard_.clear();
    recording_.clear();
    show_heard();
    timed_by_->setCurrentIndex(0);
    show_state();
}

void FittingPanel::dragEnterEvent(QDragEnterEvent* event) {
    if (!dropped_file(*event->mimeData()).isEmpty()) {
        event->acceptProposedAction();
    }
}

void FittingPanel::dropEvent(QDropEvent* event) {
    event->acceptProposedAction();
    listen(dropped_file(*event->mimeData()));
}

}  // namespace gasp
