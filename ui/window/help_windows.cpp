// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/window/help_windows.hpp"

#include "ui/look/look.hpp"

#include <QAction>
#include <QCoreApplication>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QTreeWidget>
#include <QVBoxLayout>

#include <array>
#include <utility>

namespace gasp {
namespace {

using Row = std::pair<const char*, const char*>;

constexpr std::array<Row, 12> mouse_rows{{
    {"Move a figure's strike", "Drag its flag"},
    {"Move cues, a mark or a clip", "Drag"},
    {"Move without snapping", "Alt while dragging"},
    {"Stretch a cue", "Drag its edge"},
    {"Draw a cue", "Drag along an empty part of a lane"},
    {"Select cues by a rubber band", "Drag across lanes"},
    {"Draw a loop", "Shift and drag on the ruler"},
    {"Add to the selection", "Ctrl or Shift and click"},
    {"Zoom at the pointer", "Wheel"},
    {"Scroll the lanes", "Ctrl and wheel"},
    {"Scroll along the ruler", "Shift and wheel"},
    {"Give up a drag, take back what was typed", "Esc"},
}};

QDialog* make_window(QWidget* parent, const QString& title, QWidget* content, QSize size) {
    auto* window = new QDialog(parent);
    window->setWindowTitle(title);
    window->setModal(false);
    window->setAttribute(Qt::WA_DeleteOnClose);
    auto* column = new QVBoxLayout(window);
    column->addWidget(content, 1);
    auto* close = new QPushButton("&Close");
    close->setDefault(true);
    QObject::connect(close, &QPushButton::clicked, window, &QDialog::close);
    column->addWidget(close, 0, Qt::AlignRight);
    window->resize(size);
    return window;
}

QDialog* make_text_window(QWidget* parent, const QString& title, const QString& text, QSize size) {
    auto* label = new QLabel(text);
    label->setTextFormat(Qt::RichText);
    label->setWordWrap(true);
    label->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setWidget(label);
    return make_window(parent, title, area, size);
}

}  // namespace

QString plain_text(const QAction& action) {
    QString text = action.text();
    return text.remove('&');
}

QDialog* make_keys_window(QWidget* window) {
    auto* list = new QTreeWidget;
    list->setHeaderLabels({"Action", "Key"});
    list->setRootIsDecorated(false);
    list->setAccessibleName("Every action with its key");
    for (const QAction* action : window->findChildren<QAction*>()) {
        if (!action->shortcut().isEmpty()) {
            QStringList keys;
            for (const QKeySequence& key : action->shortcuts()) {
                keys << key.toString(QKeySequence::NativeText);
            }
            list->addTopLevelItem(new QTreeWidgetItem({plain_text(*action), keys.join(", ")}));
        }
    }
    for (const auto& [what, how] : mouse_rows) {
        list->addTopLevelItem(new QTreeWidgetItem({QString(what), QString(how)}));
    }
    list->setSortingEnabled(true);
    list->sortByColumn(0, Qt::AscendingOrder);
    list->header()->setSectionResizeMode(0, QHeaderView::Stretch);
    return make_window(window, "Keys", list, {520, 560});
}

QString cautions_text() {
    return QStringLiteral(R"(
<p><b>Gaspworks plans and checks a timing. It is no protective system.</b> It does not stop a prop, it does not know
where anybody stands, and a list without findings says only that the figures you gave passed the checks it names. An
emergency stop, guards and isolation are hardware, and work with the computer off.</p>
<p>The usual cautions of the trade:</p>
<ul>
<li>Fit a lockable shut-off valve that also vents the props, and a hard-wired emergency stop that takes the air and the
power of the valves away. Try both before every opening.</li>
<li>Know what a prop does when the air or the power fails and comes back: a figure may drop, or lunge.</li>
<li>Shut off, vent and lock before you reach in. Pressure stays in cylinders, tubes and receivers after the compressor
is off.</li>
<li>Keep people out of the reach of every figure, at its full travel, with guards and floor marks; nobody relies on a
cue's timing to be clear.</li>
<li>Set the regulator at the lowest pressure that does the job, below the lowest rating of anything behind it. Fit a
relief valve on the receiver and leave its setting alone.</li>
<li>Use tube, fittings and valves rated for compressed air; plastic plumbing pipe is not.</li>
<li>Begin with the air low, the figure unloaded and flow controls nearly closed; open them step by step.</li>
<li>Wear eye protection. Never point air at anyone. Listen at a distance: exhausts need silencers.</li>
<li>Have mains wiring done to the code that holds where you are. Flashing light can bring on seizures: post a
warning.</li>
</ul>
<p>Local codes, the makers' instructions and a licensed or competent person come before anything this program
says.</p>)");
}

QDialog* make_cautions_window(QWidget* parent) {
    return make_text_window(parent, "Before you let air in", cautions_text(), {600, 560});
}

QDialog* make_about_window(QWidget* parent) {
    const QString text = QStringLiteral(R"(
<p><b>Gaspworks %1</b></p>
<p>Plans, checks, auditions and hands over the timed sequence of a pneumatic prop.</p>
<p>Copyright the Gaspworks authors. This program is free software: you may pass it on and change it under the terms of
the GNU General Public License, version 3 or any later version. It comes without any warranty, to the extent the law
permits. The licence stands in the file LICENSE beside the program's source.</p>
<p>It uses Qt %2, libsndfile, fmt, simdjson and tl-expected, each under its own licence.</p>)")
                             .arg(QCoreApplication::applicationVersion(), QString(qVersion()));
    return make_text_window(parent, "About Gaspworks", text, {480, 320});
}

}  // namespace gasp
