// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/moments_panel.hpp"

#include "core/show/edits.hpp"
#include "ui/editor/mark_names.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/jaw_from_voice.hpp"
#include "ui/panels/panel_parts.hpp"

#include <QAction>
#include <QCheckBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QSignalBlocker>
#include <QTableWidget>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

namespace gasp {
namespace {

QString words_for(MomentKind kind) {
    switch (kind) {
        case MomentKind::word:
            return QStringLiteral("a word begins");
        case MomentKind::pause:
            return QStringLiteral("a pause begins");
        case MomentKind::loudest:
            return QStringLiteral("loudest moment");
        case MomentKind::onset:
            break;
    }
    return QStringLiteral("onset");
}

const char* stem_for(MomentKind kind) {
    switch (kind) {
        case MomentKind::word:
            return "Word";
        case MomentKind::pause:
            return "Pause";
        case MomentKind::loudest:
            return "Loudest";
        case MomentKind::onset:
            break;
    }
    return "Onset";
}

/// Nobody hears two moments this near apart: the mark that is there already stands for both.
constexpr Micros as_one{30'000};
constexpr int score_after_ms = 300;

/// "the jaw is open for 93 % of the voice, 12 ms after it".
QString words_for(const JawScore& score) {
    const QString open =
        QObject::tr("the jaw is open for %1 % of the voice").arg(std::lround(100.0 * score.open_share));
    if (!score.lag_ms) {
        return open;
    }
    const long lag_ms = std::lround(*score.lag_ms);
    return lag_ms < 0 ? QObject::tr("%1, %2 ms before it").arg(open).arg(-lag_ms)
                      : QObject::tr("%1, %2 ms after it").arg(open).arg(lag_ms);
}

bool marked(const Sequence& sequence, Micros time) {
    return std::ranges::any_of(
        sequence.marks, [time](const Mark& mark) { return std::chrono::abs(mark.time - time) <= as_one; });
}

QTableWidgetItem* cell(const QString& text) {
    auto* item = new QTableWidgetItem(text);
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    return item;
}

}  // namespace

MomentsPanel::MomentsPanel(Document& document, Settings& settings, Moments& moments, QWidget* parent)
    : QWidget(parent), document_(document), settings_(settings), moments_(moments) {
    make_actions();
    table_ = new QTableWidget(0, 2);
    table_->setHorizontalHeaderLabels({tr("Time"), tr("In the sound")});
    table_->horizontalHeader()->setStretchLastSection(true);
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table_->verticalHeader()->hide();
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setAccessibleName(tr("Moments in the sound"));
    connect(table_, &QTableWidget::currentCellChanged, this, [this](int row) {
        if (row >= 0 && row < static_cast<int>(listed_.size())) {
            emit chosen(listed_[static_cast<std::size_t>(row)].time);
        }
    });

    counts_ = new QLabel;
    auto* bar = new QWidget;
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(grid_px);
    for (QAction* action : actions_) {
        auto* button = new QToolButton;
        button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
        button->setDefaultAction(action);
        row->addWidget(button);
    }
    row->addWidget(counts_, 1);
    score_ = new QLabel;
    score_->setToolTip(
        tr("Of the selected lane's jaw, or the first one's: the share of the voice in which it is open, "
           "and by how much it comes after the voice, from the simulated motion"));
    row->addWidget(score_);
    score_later_.setSingleShot(true);
    score_later_.setInterval(score_after_ms);
    connect(&score_later_, &QTimer::timeout, this, [this] {
        if (isVisible()) {
            show_score();
        }
    });
    for (const auto signal : {&Document::replaced, &Document::selection_changed}) {
        connect(&document_, signal, &score_later_, qOverload<>(&QTimer::start));
    }
    connect(&document_, &Document::changed, &score_later_, qOverload<>(&QTimer::start));
    connect(&moments_, &Moments::changed, &score_later_, qOverload<>(&QTimer::start));
    lay_panel(this, make_form(), bar, table_);
    show_options();
    moments_.set_options(settings_.moments());
    show_options();
    connect(&moments_, &Moments::changed, this, &MomentsPanel::list);
    connect(&document_, &Document::changed, this, &MomentsPanel::list);
    connect(&document_, &Document::replaced, this, &MomentsPanel::list);
    list();
}

void MomentsPanel::make_actions() {
    QAction* selected = make_action(this, Icon::mark, tr("Mark the selected moments"), "F8",
                                    tr("Put a mark at each moment that is selected in the list"));
    QAction* words = make_action(this, Icon::mark, tr("Mark every word"), "Shift+F8",
                                 tr("Put a mark where each word begins"));
    QAction* onsets =
        make_action(this, Icon::mark, tr("Mark every onset"), "Alt+F8", tr("Put a mark at each onset"));
    connect(selected, &QAction::triggered, this, &MomentsPanel::mark_selected);
    connect(words, &QAction::triggered, this, [this] { mark_all(MomentKind::word); });
    connect(onsets, &QAction::triggered, this, [this] { mark_all(MomentKind::onset); });
    QAction* jaw =
        make_action(this, Icon::sound, tr("Open the jaw with the voice"), "Ctrl+J",
                    tr("Put cues on the selected lane that open its jaw with the sound; those changed "
                       "by hand stay"));
    connect(jaw, &QAction::triggered, this, &MomentsPanel::open_jaw);
    actions_ = {selected, words, onsets, jaw};
    // On the buttons there is less room than in the menu.
    const QStringList short_texts{tr("Mark selected"), tr("Mark words"), tr("Mark onsets"),
                                  tr("Open the jaw")};
    for (int i = 0; i < actions_.size(); ++i) {
        actions_[i]->setIconText(short_texts[i]);
    }
}

QDoubleSpinBox* MomentsPanel::add_figure(QFormLayout& form, const QString& words, const QString& unit,
                                         double least, double most, const QString& help) {
    auto* box = new QDoubleSpinBox;
    box->setRange(least, most);
    box->setDecimals(most > 10.0 ? 0 : 2);
    box->setSingleStep(most > 1000.0 ? 10.0 : most > 10.0 ? 1.0 : 0.05);
    box->setSuffix(unit);
    box->setAlignment(Qt::AlignRight);
    box->setButtonSymbols(QAbstractSpinBox::NoButtons);
    box->setToolTip(help);
    box->setAccessibleName(words);
    connect(box, &QDoubleSpinBox::valueChanged, this, &MomentsPanel::take_options);
    form.addRow(words, box);
    figures_.push_back(box);
    return box;
}

QWidget* MomentsPanel::make_form() {
    auto* page = new QWidget;
    auto* form = new QFormLayout(page);
    form->setContentsMargins(grid_px, grid_px, grid_px, grid_px);
    form->setSpacing(grid_px / 2);
    shown_ = new QCheckBox(tr("On the ruler, to snap to"));
    setFocusProxy(shown_);  // not the list: it moves the playhead
    shown_->setToolTip(tr("Show the moments faintly over the sound; what is dragged snaps to them"));
    connect(shown_, &QCheckBox::toggled, this, &MomentsPanel::take_options);
    form->addRow(shown_);
    add_figure(*form, tr("Words down to"), tr(" dB"), 1.0, 100.0,
               tr("A word begins where the sound comes within so much of its loudest moment"));
    add_figure(*form, tr("Pauses from"), tr(" dB"), 1.0, 110.0,
               tr("A pause is where it stays further than this below its loudest moment"));
    add_figure(*form, tr("Shortest pause"), tr(" ms"), 0.0, 60'000.0,
               tr("What is shorter is a part of the word"));
    add_figure(*form, tr("Onset threshold"), {}, 0.05, 10.0, tr("Higher finds fewer onsets"));
    add_figure(*form, tr("Onsets apart by"), tr(" ms"), 0.0, 10'000.0, tr("Least time between two onsets"));
    add_figure(*form, tr("Jaw open down to"), tr(" dB"), 1.0, 90.0,
               tr("A jaw opens where the sound comes within so much of its loudest moment"));
    add_figure(*form, tr("Jaw takes"), tr(" ms"), 0.0, 2000.0,
               tr("To open and to shut; of a valve's jaw the simulated stroke is taken instead"));
    return scrolled_form(page);
}

void MomentsPanel::show_options() {
    const MomentOptions options = moments_.options();
    const double values[] = {options.words.open_db,           options.words.close_db,
                             options.words.shortest_pause_ms, options.onsets.threshold,
                             options.onsets.least_gap_ms,     options.jaw.open_db,
                             options.jaw.open_lead_ms};
    for (std::size_t i = 0; i < figures_.size(); ++i) {
        const QSignalBlocker quiet(figures_[i]);
        figures_[i]->setValue(values[i]);
    }
    const QSignalBlocker quiet(shown_);
    shown_->setChecked(options.shown);
}

void MomentsPanel::take_options() {
    MomentOptions options = moments_.options();
    options.words.open_db = figures_[0]->value();
    options.words.close_db = std::max(figures_[1]->value(), figures_[0]->value());
    options.words.shortest_pause_ms = figures_[2]->value();
    options.onsets.threshold = figures_[3]->value();
    options.onsets.least_gap_ms = figures_[4]->value();
    options.jaw.open_db = figures_[5]->value();
    options.jaw.close_db = options.jaw.open_db + jaw_hysteresis_db;
    options.jaw.open_lead_ms = figures_[6]->value();
    options.jaw.close_lead_ms = options.jaw.open_lead_ms;
    options.shown = shown_->isChecked();
    moments_.set_options(options);
    settings_.set_moments(options);
    show_options();
}

void MomentsPanel::list() {
    std::vector<SoundMoment> moments;
    for (const SoundClip& clip : document_.sequence().clips) {
        std::ranges::copy(moments_.of(clip), std::back_inserter(moments));
    }
    std::ranges::stable_sort(moments, {}, &SoundMoment::time);
    const auto count = [&](MomentKind kind) { return std::ranges::count(moments, kind, &SoundMoment::kind); };
    counts_->setText(
        moments_.listening() ? tr("Listening to the sound...")
        : moments.empty()
            ? tr("No sound, or nothing to be heard in it")
            : tr("%1 words, %2 onsets").arg(count(MomentKind::word)).arg(count(MomentKind::onset)));
    if (moments == listed_) {
        return;
    }
    listed_ = std::move(moments);
    const QSignalBlocker quiet(table_);
    table_->clearSelection();
    table_->setRowCount(static_cast<int>(listed_.size()));
    for (int i = 0; i < table_->rowCount(); ++i) {
        const SoundMoment& moment = listed_[static_cast<std::size_t>(i)];
        table_->setItem(i, 0, cell(QString::fromStdString(print_time(moment.time))));
        table_->setItem(i, 1, cell(words_for(moment.kind)));
    }
}

void MomentsPanel::mark_selected() {
    std::vector<SoundMoment> selected;
    for (const QModelIndex& index : table_->selectionModel()->selectedRows()) {
        selected.push_back(listed_[static_cast<std::size_t>(index.row())]);
    }
    std::ranges::stable_sort(selected, {}, &SoundMoment::time);
    mark(selected);
}

std::optional<ChannelId> MomentsPanel::jaw_channel() const {
    if (document_.selection().channel) {
        return document_.selection().channel;
    }
    const std::vector<Channel>& channels = document_.show().rig.channels;
    const auto jaw = std::ranges::find(channels, ChannelKind::jaw, &Channel::kind);
    return jaw != channels.end() ? std::optional(jaw->id) : std::nullopt;
}

void MomentsPanel::show_score() {
    const auto channel = jaw_channel();
    const auto score = channel ? score_of_jaw(document_.show(), document_.sequence(), *channel, moments_)
                               : std::optional<JawScore>();
    score_->setText(score ? words_for(*score) : QString());
    score_->setVisible(score.has_value());
}

void MomentsPanel::open_jaw() {
    const std::optional<ChannelId> channel = jaw_channel();
    if (!channel) {
        emit said(tr("No jaw opened: select its lane first"));
        return;
    }
    const Result<JawCues> cues = jaw_from_voice(document_.show(), document_.sequence(), *channel, moments_);
    if (!cues) {
        emit said(sentence_of(cues.error()));
        return;
    }
    document_.perform(cues->edit);
    emit said(tr("Made %1 cues from the voice; %2").arg(cues->cues).arg(words_for(cues->score)));
}

void MomentsPanel::mark_all(MomentKind kind) {
    std::vector<SoundMoment> all;
    std::ranges::copy_if(listed_, std::back_inserter(all),
                         [kind](const SoundMoment& moment) { return moment.kind == kind; });
    mark(all);
}

void MomentsPanel::mark(const std::vector<SoundMoment>& moments) {
    const Sequence& sequence = document_.sequence();
    MarkNames names(sequence);
    std::vector<std::pair<Micros, std::string>> marks;
    for (const SoundMoment& moment : moments) {
        if (!marked(sequence, moment.time) && (marks.empty() || moment.time - marks.back().first > as_one)) {
            marks.emplace_back(moment.time, names.next(stem_for(moment.kind)));
        }
    }
    if (marks.empty()) {
        emit said(moments.empty() ? tr("No mark added: no such moment is selected or heard")
                                  : tr("No mark added: there is one at each of them"));
        return;
    }
    document_.perform(add_marks(document_.show(), document_.sequence_id(), marks));
}

}  // namespace gasp
