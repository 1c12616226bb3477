// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/rig_panel.hpp"

#include "ui/look/icons.hpp"
#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"
#include "ui/panels/part_edits.hpp"

#include <QAction>
#include <QLabel>
#include <QMenu>
#include <QSignalBlocker>
#include <QSplitter>
#include <QToolButton>
#include <QTreeWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace gasp {
namespace {

constexpr int kind_role = Qt::UserRole;
constexpr int id_role = Qt::UserRole + 1;

Part part_of(const QTreeWidgetItem* item) {
    return {static_cast<PartKind>(item->data(0, kind_role).toInt()), item->data(0, id_role).toUInt()};
}

QTreeWidgetItem* make_item(const Show& show, Part part, const QIcon& sign) {
    auto* item = new QTreeWidgetItem({name_of(show, part)});
    item->setIcon(0, sign);
    item->setData(0, kind_role, static_cast<int>(part.kind));
    item->setData(0, id_role, part.id);
    return item;
}

bool is_listed(PartKind kind) {
    return kind == PartKind::actuator || kind == PartKind::channel || kind == PartKind::board ||
           kind == PartKind::supply;
}

/// How many parts of its kind there are, and which one of them it is.
template <class T>
std::pair<std::size_t, std::size_t> place(const std::vector<T>& list, std::uint32_t id) {
    const auto it = std::find_if(list.begin(), list.end(), [&](const T& t) { return t.id.value == id; });
    return {list.size(), static_cast<std::size_t>(it - list.begin())};
}

std::pair<std::size_t, std::size_t> place(const Show& show, Part part) {
    switch (part.kind) {
        case PartKind::actuator:
            return place(show.rig.actuators, part.id);
        case PartKind::channel:
            return place(show.rig.channels, part.id);
        case PartKind::board:
            return place(show.rig.boards, part.id);
        case PartKind::supply:
            return place(show.rig.supplies, part.id);
        default:
            return {1, 0};
    }
}

/// Whether the edit may change the list of parts or their names.
bool touches_list(const Edit& edit) {
    return std::any_of(edit.changes.begin(), edit.changes.end(), [](const Change& change) {
        return std::holds_alternative<Exchange<Channel>>(change) ||
               std::holds_alternative<Exchange<Actuator>>(change) ||
               std::holds_alternative<Exchange<Board>>(change) ||
               std::holds_alternative<Exchange<Supply>>(change) ||
               std::holds_alternative<Replacement<std::string>>(change);
    });
}

bool touches_rig(const Edit& edit) {
    return touches_list(edit) ||
           std::any_of(edit.changes.begin(), edit.changes.end(), [](const Change& change) {
               return std::holds_alternative<Replacement<AirPlant>>(change) ||
                      std::holds_alternative<Replacement<Sensor>>(change) ||
                      std::holds_alternative<Replacement<Speaker>>(change);
           });
}

}  // namespace

RigPanel::RigPanel(Document& document, Analysis& analysis, Settings& settings, QWidget* parent)
    : QWidget(parent),
      document_(document),
      tree_(new QTreeWidget),
      form_(new PartForm(document, analysis, settings)),
      help_(new QLabel) {
    tree_->setHeaderHidden(true);
    tree_->setRootIsDecorated(false);
    tree_->setIndentation(2 * grid_px);
    tree_->setAccessibleName("Parts of the rig");
    tree_->setContextMenuPolicy(Qt::ActionsContextMenu);
    help_->setWordWrap(true);
    help_->setProperty("look", "soft");
    help_->setContentsMargins(grid_px, grid_px / 2, grid_px, grid_px / 2);
    help_->setMinimumHeight(3 * row_px / 2);
    help_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    make_actions();
    setFocusProxy(tree_);

    auto* bar = new QHBoxLayout;
    bar->setContentsMargins(grid_px / 2, grid_px / 2, grid_px / 2, grid_px / 2);
    bar->setSpacing(0);
    for (QAction* each : std::as_const(actions_)) {
        auto* button = new QToolButton;
        button->setDefaultAction(each);
        button->setFocusPolicy(Qt::TabFocus);
        button->setPopupMode(QToolButton::InstantPopup);
        bar->addWidget(button);
        tree_->addAction(each);
    }
    bar->addStretch(1);

    auto* splitter = new QSplitter(Qt::Vertical);
    auto* list = new QWidget;
    auto* list_column = new QVBoxLayout(list);
    list_column->setContentsMargins(0, 0, 0, 0);
    list_column->setSpacing(0);
    list_column->addWidget(tree_, 1);
    list_column->addLayout(bar);
    splitter->addWidget(list);
    splitter->addWidget(form_);
    splitter->setStretchFactor(0, 2);
    splitter->setStretchFactor(1, 3);
    splitter->setChildrenCollapsible(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(splitter, 1);
    column->addWidget(help_);

    connect(tree_, &QTreeWidget::currentItemChanged, this, &RigPanel::item_chosen);
    connect(form_, &PartForm::help_changed, help_, &QLabel::setText);
    connect(&document_, &Document::changed, this, [this](const Edit& edit) {
        if (touches_list(edit)) {
            rebuild();
        }
        if (touches_rig(edit)) {
            form_->refresh();
        }
    });
    connect(&document_, &Document::replaced, this, &RigPanel::refresh);
    connect(&settings, &Settings::units_changed, form_, &PartForm::refresh);
    form_->show_part({PartKind::air_plant, 0});
    rebuild();
}

QAction* RigPanel::action(const QString& text, const QString& help, int sign, const QKeySequence& key) {
    auto* made = new QAction(icon(static_cast<Icon>(sign)), text, this);
    made->setShortcut(key);
    made->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    const QString keys = key.toString(QKeySequence::NativeText);
    made->setToolTip(keys.isEmpty() ? help : QStringLiteral("%1 (%2)").arg(help, keys));
    actions_ << made;
    return made;
}

void RigPanel::make_actions() {
    const auto sign = [](Icon i) { return static_cast<int>(i); };
    QAction* adding = action("Add part", "Add a part to the rig", sign(Icon::add), {});
    auto* menu = new QMenu(this);
    menu->addAction(icon(Icon::channel), "Channel", this, [this] { add(PartKind::channel); });
    menu->addAction(icon(Icon::actuator), "Actuator", this, [this] { add(PartKind::actuator); });
    menu->addAction(icon(Icon::board), "Board", this, [this] { add(PartKind::board); });
    menu->addAction(icon(Icon::supply), "Supply", this, [this] { add(PartKind::supply); });
    adding->setMenu(menu);
    duplicate_ =
        action("Duplicate part", "Add a twin of the chosen part", sign(Icon::copy), QKeySequence("Ctrl+D"));
    remove_ = action("Remove part", "Remove the chosen part, with its cues", sign(Icon::remove),
                     QKeySequence("Del"));
    up_ = action("Move part up", "Move the chosen part up", sign(Icon::up), QKeySequence("Alt+Up"));
    down_ = action("Move part down", "Move the chosen part down", sign(Icon::down), QKeySequence("Alt+Down"));
    connect(duplicate_, &QAction::triggered, this,
            [this] { perform_and_choose(duplicate_part(document_.show(), chosen())); });
    connect(remove_, &QAction::triggered, this,
            [this] { document_.perform(remove_part(document_.show(), chosen())); });
    connect(up_, &QAction::triggered, this,
            [this] { document_.perform(move_part(document_.show(), chosen(), -1)); });
    connect(down_, &QAction::triggered, this,
            [this] { document_.perform(move_part(document_.show(), chosen(), 1)); });
}

void RigPanel::add(PartKind kind) {
    perform_and_choose(add_part(document_.show(), kind));
}

void RigPanel::perform_and_choose(Edit edit) {
    const auto put = part_put_by(edit);
    document_.perform(std::move(edit));
    if (put) {
        choose(*put);
        form_->focus_field("name");
    }
}

void RigPanel::refresh() {
    const Part part = chosen();
    rebuild();
    form_->show_part(exists(document_.show(), part) ? part : Part{PartKind::air_plant, 0});
    rebuild();
}

void RigPanel::rebuild() {
    const QSignalBlocker quiet(tree_);
    const Show& show = document_.show();
    tree_->clear();
    tree_->addTopLevelItem(make_item(show, {PartKind::show, 0}, icon(Icon::rig)));
    tree_->addTopLevelItem(make_item(show, {PartKind::air_plant, 0}, icon(Icon::air)));
    for (const Actuator& actuator : show.rig.actuators) {
        tree_->addTopLevelItem(
            make_item(show, {PartKind::actuator, actuator.id.value}, icon(Icon::actuator)));
    }
    for (const Channel& channel : show.rig.channels) {
        tree_->addTopLevelItem(
            make_item(show, {PartKind::channel, channel.id.value}, kind_icon(channel.kind)));
    }
    for (const Board& board : show.rig.boards) {
        tree_->addTopLevelItem(make_item(show, {PartKind::board, board.id.value}, icon(Icon::board)));
    }
    for (const Supply& supply : show.rig.supplies) {
        tree_->addTopLevelItem(make_item(show, {PartKind::supply, supply.id.value}, icon(Icon::supply)));
    }
    tree_->addTopLevelItem(make_item(show, {PartKind::sensor, 0}, icon(Icon::sensor)));
    tree_->addTopLevelItem(make_item(show, {PartKind::speaker, 0}, icon(Icon::sound)));
    for (int i = 0; i < tree_->topLevelItemCount(); ++i) {
        if (part_of(tree_->topLevelItem(i)) == chosen()) {
            tree_->setCurrentItem(tree_->topLevelItem(i));
        }
    }
    update_actions();
}

void RigPanel::item_chosen(QTreeWidgetItem* item) {
    if (item != nullptr && part_of(item) != chosen()) {
        form_->show_part(part_of(item));
        update_actions();
    }
}

void RigPanel::choose(Part part) {
    for (int i = 0; i < tree_->topLevelItemCount(); ++i) {
        if (part_of(tree_->topLevelItem(i)) == part) {
            tree_->setCurrentItem(tree_->topLevelItem(i));
        }
    }
}

void RigPanel::update_actions() {
    const auto [count, index] = place(document_.show(), chosen());
    const bool listed = is_listed(chosen().kind);
    duplicate_->setEnabled(listed);
    remove_->setEnabled(listed);
    up_->setEnabled(listed && index > 0);
    down_->setEnabled(listed && index + 1 < count);
}

bool RigPanel::show_place(const Place& place) {
    if (place.field.empty() && !place.actuator && !place.board && !place.channel && !place.supply) {
        return false;
    }
    const auto is_of = [&](const char* prefix) { return place.field.starts_with(prefix); };
    if (is_of("air_plant.")) {
        choose({PartKind::air_plant, 0});
    } else if (is_of("sensor.")) {
        choose({PartKind::sensor, 0});
    } else if (is_of("speaker.")) {
        choose({PartKind::speaker, 0});
    } else if (place.actuator) {
        choose({PartKind::actuator, place.actuator->value});
    } else if (place.channel) {
        choose({PartKind::channel, place.channel->value});
    } else if (place.board) {
        choose({PartKind::board, place.board->value});
    } else if (place.supply) {
        choose({PartKind::supply, place.supply->value});
    } else {
        return false;
    }
    form_->focus_field(place.field);
    return true;
}

}  // namespace gasp
