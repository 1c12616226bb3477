// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/findings_panel.hpp"

#include "core/checks/check.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/air_remedies.hpp"
#include "ui/panels/panel_parts.hpp"

#include <QAction>
#include <QComboBox>
#include <QCoreApplication>
#include <QEvent>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QSortFilterProxyModel>
#include <QStackedWidget>
#include <QStatusTipEvent>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

namespace gasp {
namespace {

enum Scope { this_sequence, every_sequence };

QString plural(std::size_t count, const QString& one, const QString& many) {
    return QStringLiteral("%1 %2").arg(count).arg(count == 1 ? one : many);
}

}  // namespace

FindingsPanel::FindingsPanel(Document& document, Analysis& analysis, const Settings& settings,
                             QWidget* parent)
    : QWidget(parent),
      document_(document),
      analysis_(analysis),
      sorted_(new QSortFilterProxyModel(this)),
      table_(new QTableView),
      filter_(new QComboBox),
      scope_(new QComboBox),
      empty_(new QLabel),
      empty_area_(new QScrollArea),
      pages_(new QStackedWidget),
      state_(new QLabel),
      remedies_(new AirRemedies(document, analysis, settings)),
      whole_(new QStackedWidget) {
    make_table();
    make_choices();
    make_actions();
    setFocusProxy(scope_);
    whole_->addWidget(make_list());
    whole_->addWidget(remedies_);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(whole_);
    connect(remedies_, &AirRemedies::closed, this, [this] {
        whole_->setCurrentIndex(0);
        table_->setFocus();
    });
    connect(&analysis_, &Analysis::ready, this, &FindingsPanel::refresh);
    connect(&analysis_, &Analysis::lingering, this, &FindingsPanel::show_counts);
    refresh();
}

void FindingsPanel::make_table() {
    sorted_->setSourceModel(&model_);
    sorted_->setSortRole(FindingsModel::sort_role);
    table_->setModel(sorted_);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setShowGrid(false);
    table_->setWordWrap(false);
    table_->setSortingEnabled(true);
    table_->sortByColumn(-1, Qt::AscendingOrder);
    table_->setTabKeyNavigation(false);
    table_->setAccessibleName("Findings");
    table_->setContextMenuPolicy(Qt::ActionsContextMenu);
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    table_->verticalHeader()->setDefaultSectionSize(row_px);
    table_->horizontalHeader()->setHighlightSections(false);
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table_->horizontalHeader()->setStretchLastSection(true);
    table_->installEventFilter(this);
    table_->viewport()->installEventFilter(this);
    connect(table_, &QTableView::doubleClicked, this, &FindingsPanel::choose);
    // A narrow window cuts What and Remedy off; the finding that is walked to is written out below.
    connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            [this](const QModelIndex& index) {
                QStatusTipEvent whole(index.data(Qt::StatusTipRole).toString());
                QCoreApplication::sendEvent(this, &whole);
            });
}

void FindingsPanel::make_choices() {
    filter_->addItems({"All", "Stops", "Warnings", "Notes", "Not checked"});
    filter_->setAccessibleName("Which findings are listed");
    filter_->setToolTip("Which findings are listed");
    scope_->addItems({"This sequence", "Every sequence"});
    scope_->setAccessibleName("Of which sequences findings are listed");
    scope_->setToolTip("Of which sequences findings are listed");
    connect(filter_, &QComboBox::currentIndexChanged, this, [this](int index) {
        model_.set_filter(static_cast<FindingsModel::Filter>(index));
        show_counts();
    });
    connect(scope_, &QComboBox::currentIndexChanged, this, &FindingsPanel::refresh);
    empty_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    empty_->setWordWrap(true);
    empty_->setProperty("look", "soft");
    empty_->setMargin(grid_px);
    empty_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    empty_area_->setWidget(empty_);
    empty_area_->setWidgetResizable(true);
    empty_area_->setFrameShape(QFrame::NoFrame);
    empty_area_->setAccessibleName("What was checked");
    empty_area_->viewport()->setBackgroundRole(QPalette::Base);
    state_->setProperty("look", "soft");
}

void FindingsPanel::make_actions() {
    auto* place = new QAction("Show the place\tEnter", this);
    connect(place, &QAction::triggered, this, [this] { choose(table_->currentIndex()); });
    help_air_ = make_action(this, Icon::air, "Help the air...", "F4",
                            "Move cues apart, or fit a reservoir, where a figure is short of air");
    connect(help_air_, &QAction::triggered, this, &FindingsPanel::show_remedies);
    table_->addActions({place, help_air_});
}

QWidget* FindingsPanel::make_list() {
    auto* help = new QPushButton(help_air_->text());
    help->setToolTip(help_air_->toolTip());
    connect(help, &QPushButton::clicked, help_air_, &QAction::trigger);
    connect(help_air_, &QAction::enabledChanged, help, &QPushButton::setEnabled);
    auto* list = new QWidget;
    auto* bar = new QHBoxLayout;
    bar->setContentsMargins(grid_px, grid_px / 2, grid_px, grid_px / 2);
    bar->setSpacing(grid_px);
    bar->addWidget(scope_);
    bar->addWidget(filter_);
    bar->addWidget(state_, 1);
    bar->addWidget(help);
    auto* column = new QVBoxLayout(list);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addLayout(bar);
    // A stack asks for the same room whichever it shows: the panel must not grow when a first finding comes
    // up during a drag.
    pages_->addWidget(table_);
    pages_->addWidget(empty_area_);
    column->addWidget(pages_, 1);
    return list;
}

const Finding* FindingsPanel::short_of_air() const {
    const AnalysisResult& result = *analysis_.result();
    const QModelIndex current = table_->currentIndex();
    if (current.isValid()) {
        const Finding& chosen = model_.finding(sorted_->mapToSource(current).row());
        if (is_short_of_air(chosen, result.sequence)) {
            return &chosen;
        }
    }
    const auto found = std::ranges::find_if(
        result.findings, [&](const Finding& finding) { return is_short_of_air(finding, result.sequence); });
    return found != result.findings.end() ? &*found : nullptr;
}

void FindingsPanel::show_remedies() {
    if (const Finding* finding = short_of_air()) {
        const Finding of = *finding;
        whole_->setCurrentWidget(remedies_);
        remedies_->show_for(of);
    }
}

QString FindingsPanel::empty_text() const {
    if (waits()) {
        return "Checking...";
    }
    if (filter_->currentIndex() > 0) {
        return "No finding of this kind.";
    }
    QStringList subjects;
    for (const Check& check : all_checks()) {
        subjects << QString::fromUtf8(check.subject.data(), static_cast<qsizetype>(check.subject.size()));
    }
    return QStringLiteral(
               "No finding. Not checked: whatever is not in this list, and the thing you build.\n\nChecked: "
               "%1.")
        .arg(subjects.join("; "));
}

bool FindingsPanel::waits() const {
    const auto& result = *analysis_.result();
    const bool others_wait = !result.complete && result.all_findings.empty();
    return analysis_.lingers() || (scope_->currentIndex() == every_sequence && others_wait);
}

const std::vector<Finding>& FindingsPanel::listed() const {
    const auto& result = *analysis_.result();
    return scope_->currentIndex() == every_sequence ? result.all_findings : result.findings;
}

void FindingsPanel::refresh() {
    model_.set(listed(), document_.show());
    help_air_->setEnabled(short_of_air() != nullptr);
    show_counts();
}

void FindingsPanel::show_counts() {
    const FindingCounts counts = count(listed());
    QStringList parts{plural(counts.stop, "stop", "stops"), plural(counts.warn, "warning", "warnings"),
                      plural(counts.note, "note", "notes")};
    parts << QStringLiteral("%1 not checked").arg(counts.not_checked);
    state_->setText(waits() ? QString("Checking...") : parts.join(", "));
    empty_->setText(empty_text());
    pages_->setCurrentWidget(model_.rowCount() > 0 ? static_cast<QWidget*>(table_) : empty_area_);
}

void FindingsPanel::fit_columns() {
    constexpr int sign_px = 96;
    constexpr int where_px = 120;
    const int width = table_->viewport()->width();
    const int figure_px = std::clamp(width / 10, 96, 192);
    const int limit_px = std::clamp(width / 8, 128, 224);
    const int rest = std::max(width - (sign_px + where_px + figure_px + limit_px), 400);
    table_->setColumnWidth(FindingsModel::severity_column, sign_px);
    table_->setColumnWidth(FindingsModel::where_column, where_px);
    table_->setColumnWidth(FindingsModel::what_column, rest * 55 / 100);
    table_->setColumnWidth(FindingsModel::figure_column, figure_px);
    table_->setColumnWidth(FindingsModel::limit_column, limit_px);
}

void FindingsPanel::choose(const QModelIndex& index) {
    if (index.isValid()) {
        emit chosen(model_.finding(sorted_->mapToSource(index).row()));
    }
}

bool FindingsPanel::eventFilter(QObject* watched, QEvent* event) {
    if (watched == table_->viewport() && event->type() == QEvent::Resize) {
        fit_columns();
    }
    if (watched == table_ && event->type() == QEvent::KeyPress) {
        const int key = dynamic_cast<QKeyEvent&>(*event).key();
        if (key == Qt::Key_Return || key == Qt::Key_Enter) {
            choose(table_->currentIndex());
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace gasp
