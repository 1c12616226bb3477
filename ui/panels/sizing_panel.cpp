// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/sizing_panel.hpp"

#include "core/units/rounded.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/form_row.hpp"
#include "ui/panels/panel_parts.hpp"
#include "ui/panels/sizing_edit.hpp"
#include "ui/panels/task_memory.hpp"
#include "ui/panels/task_rows.hpp"
#include "ui/panels/tile_area.hpp"
#include "ui/panels/work_bar.hpp"

#include <QAction>
#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QRegularExpression>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include <utility>

namespace gasp {
namespace {

QString printed(Quantity quantity, double value, UnitSystem units) {
    return QString::fromStdString(print_rounded(quantity, value, units));
}

FigureLine line_of(const SizedFigure& figure, UnitSystem units) {
    const QString chosen = printed(figure.quantity, figure.chosen, units);
    QString reason = QString::fromStdString(figure.reason);
    if (!reason.isEmpty()) {
        reason[0] = reason[0].toUpper();
        reason += '.';
    }
    QStringList beside;
    if (QString size = QString::fromStdString(figure.size); !size.isEmpty()) {
        if (size.startsWith(chosen)) {
            size = size.mid(chosen.size());
            size.remove(QRegularExpression("^[, ]+"));
        }
        beside << size;
    }
    if (figure.needed != figure.chosen) {
        beside << QStringLiteral("at least %1, %2 % over")
                      .arg(printed(figure.quantity, figure.needed, units))
                      .arg(figure.margin * 100.0, 0, 'f', 0);
    }
    beside.removeAll(QString());
    return {QString::fromStdString(figure.label), chosen, beside.join("; "), {}, reason};
}

std::vector<FigureLine> motion_lines(const Sizing& sizing, UnitSystem units) {
    const auto ms = [](double value) { return QStringLiteral("%1 ms").arg(value, 0, 'f', 0); };
    std::vector<FigureLine> lines{
        {"Out", ms(sizing.out_ms), "from the coil switching to the end of the travel", {}},
        {"Back", ms(sizing.back_ms), {}, {}},
        {"Speed at the stop", printed(Quantity::speed, sizing.end_speed_m_s, units), "of the rod, out", {}},
        {"Energy at the stop",
         printed(Quantity::energy, sizing.end_energy_j, units),
         "of all that moves",
         {}},
        {"Free air", printed(Quantity::free_air, sizing.cycle_l, units), "out and back", {}},
        {"Lowest in the receiver",
         printed(Quantity::gauge_pressure, sizing.lowest_receiver_kpa_gauge, units),
         QStringLiteral("after %1 scares on end from cut-in").arg(sizing_rules::scares_on_end),
         {}}};
    for (const std::string& note : sizing.notes) {
        lines.push_back({"Mind", {}, {}, Severity::note, QString::fromStdString(note) + "."});
    }
    return lines;
}

}  // namespace

SizingPanel::SizingPanel(Document& document, Settings& settings, QWidget* parent)
    : QWidget(parent),
      document_(document),
      settings_(settings),
      task_(std::make_shared<SizingTask>(remembered_task(settings.sizing_task()))) {
    make_actions();
    parts_ = new FigureList("Parts", "Say what the figure is to do, then work out the sizes.");
    motion_ = new FigureList("As simulated with them", "");
    auto* caution = new QLabel(
        "A first choice, not a design. Ratings of every part, what stops the figure, what holds its base and "
        "what it does when air or power fails are yours to check, with the makers' sheets, the local codes "
        "and "
        "a competent person.");
    caution->setWordWrap(true);
    caution->setProperty("look", "soft");
    motion_->put_below(caution);
    auto* tiles = new TileArea;
    tiles->add(parts_);
    tiles->add(motion_);
    auto* bar = new QWidget;
    auto* row = new QHBoxLayout(bar);
    row->setSpacing(2 * grid_px);
    row->addWidget(run_, 1);
    row->addWidget(make_put_row(), 0, Qt::AlignTop);
    lay_panel(this, make_form(), bar, tiles);

    connect(run_, &WorkBar::started, this, &SizingPanel::run);
    connect(run_, &WorkBar::cancelled, this, &SizingPanel::show_state);
    connect(&document_, &Document::changed, this, &SizingPanel::list_targets);
    connect(&document_, &Document::replaced, this, &SizingPanel::list_targets);
    connect(&settings_, &Settings::units_changed, this, [this] {
        for (FormRow* each : rows_) {
            each->refresh();
        }
        show_sizing();
        show_state();
    });
    setFocusProxy(rows_.front()->editor());
    list_targets();
    show_state();
}

SizingPanel::~SizingPanel() = default;

void SizingPanel::make_actions() {
    QAction* run = make_action(this, Icon::actuator, "Work out the sizes", "F6",
                               "Choose parts that move the figure as wanted");
    actions_ = {run};
    run_ = new WorkBar(*run);
}

QWidget* SizingPanel::make_form() {
    auto* page = new QWidget;
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(grid_px, grid_px, grid_px, grid_px);
    column->setSpacing(grid_px / 2);
    auto* head = new QLabel("What the figure is to do");
    head->setFont(gasp::font(TypeSize::body, true));
    column->addWidget(head);
    column->addWidget(make_take_row());
    rows_ = make_task_rows(
        document_, settings_, task_, [this] { task_changed(); }, page);
    for (FormRow* row : rows_) {
        column->addWidget(row);
    }
    column->addStretch(1);
    show_linkage();
    return scrolled_form(page);
}

QWidget* SizingPanel::make_take_row() {
    auto* part = new QWidget;
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(grid_px / 2);
    take_ = new QPushButton("Take from an actuator");
    take_->setToolTip("What the rig says of an actuator, its linkage too");
    take_->setMenu(new QMenu(take_));
    linkage_ = new QLabel;
    linkage_->setWordWrap(true);
    straight_ = new QPushButton("Without a linkage");
    straight_->setToolTip("The figure goes with the rod, or by a ratio");
    connect(straight_, &QPushButton::clicked, this, [this] {
        task_->linkage = {};
        take_task();
    });
    column->addWidget(take_);
    column->addWidget(linkage_);
    column->addWidget(straight_);
    return part;
}

void SizingPanel::take_task() {
    for (FormRow* row : rows_) {
        row->refresh();
    }
    show_linkage();
    task_changed();
}

/// What goes straight has a travel, a slope and a ratio; what hangs on a linkage has the rod's stroke.
void SizingPanel::show_linkage() {
    const LinkageKind kind = task_->linkage.kind;
    const bool direct = kind == LinkageKind::direct;
    for (FormRow* row : rows_) {
        const bool straight = row->key() == "lift_mm" || row->key() == "angle_deg" || row->key() == "ratio";
        row->setVisible(row->key() == "stroke_mm" ? !direct : direct || !straight);
    }
    const std::string_view name = fields<Linkage>().choices.front().labels[static_cast<std::size_t>(kind)];
    linkage_->setText("Linkage: " +
                      QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size())).toLower());
    linkage_->setVisible(!direct);
    straight_->setVisible(!direct);
}

QWidget* SizingPanel::make_put_row() {
    target_ = new QComboBox;
    target_->setAccessibleName("Where the parts are put");
    target_->setToolTip("Where the parts are put");
    with_plant_ = new QCheckBox("and the air plant");
    with_plant_->setToolTip("Receiver, compressor, pressure switch and regulator too");
    put_ = new QPushButton("Put into the rig");
    put_->setToolTip("Put the parts into the rig, as one step that can be undone");
    connect(put_, &QPushButton::clicked, this, &SizingPanel::put);
    auto* part = new QWidget;
    auto* row = new QHBoxLayout(part);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(grid_px);
    row->addWidget(target_);
    row->addWidget(with_plant_);
    row->addWidget(put_);
    return part;
}

void SizingPanel::task_changed() {
    settings_.set_sizing_task(to_remember(*task_));
    run_->say({});
    show_state();
}

void SizingPanel::list_targets() {
    const QSignalBlocker quiet(target_);
    const QVariant before = target_->currentData();
    target_->clear();
    target_->addItem("New actuator");
    for (const Actuator& actuator : document_.show().rig.actuators) {
        target_->addItem(QString::fromStdString(actuator.name), actuator.id.value);
    }
    const int index = before.isValid() ? target_->findData(before) : 0;
    target_->setCurrentIndex(index < 0 ? 0 : index);
    take_->setEnabled(!document_.show().rig.actuators.empty());
    take_->menu()->clear();
    for (const Actuator& actuator : document_.show().rig.actuators) {
        take_->menu()->addAction(QString::fromStdString(actuator.name), this, [this, id = actuator.id] {
            if (const Actuator* of = gasp::find(document_.show(), id)) {
                *task_ = taken_from(document_.show(), *of, *task_);
                take_task();
            }
        });
    }
}

void SizingPanel::run() {
    const SizingTask task = *task_;
    const UnitSystem units = settings_.units();
    run_->run<Sizing>(
        [task, units](const std::atomic<bool>& cancel, const WorkBar::Progress&) {
            return size_rig(task, units, [&cancel] { return cancel.load(); });
        },
        [this, task](Result<Sizing> result) { take(std::move(result), task); });
}

void SizingPanel::take(Result<Sizing> sizing, const SizingTask& of) {
    if (!sizing) {
        // A field is not named by its key but by the focus.
        Error error = sizing.error();
        for (FormRow* row : rows_) {
            if (row->key() == error.where) {
                row->editor()->setFocus();
                error.where.clear();
            }
        }
        run_->say(sentence_of(error), true);
        return;
    }
    sizing_ = std::move(*sizing);
    of_ = of;
    show_sizing();
    show_state();
}

void SizingPanel::show_sizing() {
    if (!sizing_) {
        return;
    }
    std::vector<FigureLine> lines;
    for (const SizedFigure& figure : sizing_->figures) {
        lines.push_back(line_of(figure, settings_.units()));
    }
    parts_->set(std::move(lines));
    motion_->set(motion_lines(*sizing_, settings_.units()));
}

void SizingPanel::show_state() {
    put_->setEnabled(sizing_.has_value());
    if (sizing_) {
        const bool old = of_ != *task_;
        run_->say(old ? "What is wanted has changed since." : QString(), old);
    }
}

void SizingPanel::put() {
    if (!sizing_) {
        return;
    }
    const QVariant target = target_->currentData();
    const auto id = target.isValid() ? std::optional(ActuatorId{target.toUInt()}) : std::nullopt;
    document_.perform(put_into_rig(document_.show(), *sizing_, id, with_plant_->isChecked()));
    run_->say("Put into the rig. Undo takes it out again.");
}

}  // namespace gasp
