// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/window/main_window.hpp"

#include "core/checks/finding.hpp"
#include "ui/editor/sound_import.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/findings_panel.hpp"
#include "ui/panels/rig_panel.hpp"
#include "ui/panels/sequence_bar.hpp"
#include "ui/timeline/timeline_view.hpp"
#include "ui/timeline/waveforms.hpp"
#include "ui/window/message_bar.hpp"
#include "ui/window/transport_bar.hpp"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QApplication>
#include <QCloseEvent>
#include <QComboBox>
#include <QDialog>
#include <QDockWidget>
#include <QFileInfo>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QMimeData>
#include <QPushButton>
#include <QScreen>
#include <QStatusBar>
#include <QTabBar>
#include <QTableView>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>
#include <initializer_list>
#include <utility>

namespace gasp {
namespace {

constexpr QSize least_first_size{1280, 720};
constexpr int said_for_ms = 8000;

}  // namespace

MainWindow::MainWindow(Settings& settings, const QString& file)
    : settings_(settings),
      analysis_(document_),
      audition_(document_),
      sound_watch_(document_),
      files_(document_, settings),
      keeper_(document_, RecoveryKeeper::usual_folder()) {
    if (!file.isEmpty()) {
        files_.open(file);
    }
    setAcceptDrops(true);
    setDockNestingEnabled(true);
    make_centre();
    make_docks();
    make_status();
    make_menus();
    connect_parts();
    connect_timeline();
    audition_.set_volume(settings_.volume());
    audition_.set_pieces(settings_.scrub_sounds());
    restore_window();
    show_title();
    timeline_->setFocus();
    qApp->installEventFilter(this);
}

MainWindow::~MainWindow() {
    qApp->removeEventFilter(this);
    // Members go before Qt's children do; what looks at them must be gone by then.
    for (QObject* part :
         std::initializer_list<QObject*>{&document_, &analysis_, &audition_, &files_, &keeper_}) {
        part->disconnect();
    }
    qDeleteAll(findChildren<QDialog*>(QString(), Qt::FindDirectChildrenOnly));
    qDeleteAll(findChildren<QDockWidget*>(QString(), Qt::FindDirectChildrenOnly));
    delete transport_;
    delete takeCentralWidget();
}

void MainWindow::make_centre() {
    transport_ = new TransportBar(document_, analysis_, audition_, this);
    addToolBar(Qt::TopToolBarArea, transport_);
    messages_ = new MessageBar;
    sequences_ = new SequenceBar(document_);
    timeline_ = new TimelineView(document_, analysis_);
    auto* centre = new QWidget;
    auto* column = new QVBoxLayout(centre);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(messages_);
    column->addWidget(sequences_);
    column->addWidget(timeline_, 1);
    setCentralWidget(centre);
}

/// A picture from before the first show was read is not the one that is waited for.
void MainWindow::canvas_paints() {
    const bool first = !painted_ && files_.busy().isEmpty();
    painted_ = painted_ || first;
    // Every part of the window is painted in the same turn of the event loop.
    QTimer::singleShot(0, this, [this, first] {
        if (first) {
            emit painted();
        }
        fill_docks();
    });
}

void MainWindow::make_status() {
    busy_ = new QLabel;
    cancel_ = new QPushButton("Cancel");
    cancel_->setToolTip("Give up what is going on (Ctrl+.)");
    cancel_->setShortcut(QKeySequence("Ctrl+."));
    statusBar()->addPermanentWidget(busy_);
    statusBar()->addPermanentWidget(cancel_);
    connect(cancel_, &QPushButton::clicked, this, [this] {
        files_.cancel();
        timeline_->waveforms().cancel();
        show_busy();
    });
    show_busy();
}

void MainWindow::connect_parts() {
    connect(&document_, &Document::file_changed, this, &MainWindow::show_title);
    connect(&document_, &Document::replaced, this, &MainWindow::show_title);
    connect(&document_, &Document::changed, this, [this](const Edit&) { show_title(); });
    const auto shown_as = [this](MessageBar::About about) {
        return [this, about](const Error& error) { messages_->add_error(error, about); };
    };
    connect(&files_, &ShowFiles::failed, messages_, shown_as(MessageBar::About::anything));
    connect(&files_, &ShowFiles::not_saved, messages_, shown_as(MessageBar::About::saving));
    connect(&files_, &ShowFiles::saved, messages_,
            [this] { messages_->close_lines(MessageBar::About::saving); });
    connect(&files_, &ShowFiles::changed_elsewhere, this, &MainWindow::offer_to_save_over);
    connect(&files_, &ShowFiles::said, this, &MainWindow::say);
    connect(&files_, &ShowFiles::opened, this, &MainWindow::tell_missing_sounds);
    const auto to_timeline = [this] { timeline_->setFocus(); };
    connect(&files_, &ShowFiles::opened, this, to_timeline);
    connect(sequences_, &SequenceBar::left, this, to_timeline);
    connect(&files_, &ShowFiles::busy_changed, this, &MainWindow::show_busy);
    connect(&files_, &ShowFiles::busy_changed, &timeline_->waveforms(), &Waveforms::look_again);
    connect(&keeper_, &RecoveryKeeper::failed, messages_, shown_as(MessageBar::About::keeping));
    connect(&keeper_, &RecoveryKeeper::works_again, messages_,
            [this] { messages_->close_lines(MessageBar::About::keeping); });
    connect(&sound_watch_, &SoundWatch::changed, this, &MainWindow::read_sounds_anew);
    connect(&audition_, &Audition::notice, this, &MainWindow::say);
    connect(&audition_, &Audition::position_changed, timeline_, &TimelineView::set_playhead);
    connect(transport_, &TransportBar::loop_toggled, this, &MainWindow::set_loop);
    connect(transport_, &TransportBar::findings_requested, this, [this] {
        findings_dock_->show();
        findings_dock_->raise();
        findings().table().setFocus();
    });
}

void MainWindow::connect_timeline() {
    connect(timeline_, &TimelineView::playhead_requested, &audition_, &Audition::seek);
    connect(timeline_, &TimelineView::playhead_dragged, &audition_, &Audition::scrub);
    connect(timeline_, &TimelineView::moved_by_key, &audition_, &Audition::sound_at);
    connect(timeline_, &TimelineView::loop_requested, this, [this](std::optional<Dwell> loop) {
        audition_.set_loop(loop);
        timeline_->set_loop(loop);
    });
    connect(timeline_, &TimelineView::rig_requested, this, [this] {
        rig_dock_->show();
        rig().add(PartKind::channel);
    });
    connect(timeline_, &TimelineView::sound_requested, this, &MainWindow::choose_sounds);
    connect(timeline_, &TimelineView::sound_file_requested, this, &MainWindow::choose_sound_file);
    connect(timeline_, &TimelineView::said, this, &MainWindow::say);
    connect(&timeline_->waveforms(), &Waveforms::progressed, this, &MainWindow::show_busy);
    connect(&timeline_->waveforms(), &Waveforms::finished, this, &MainWindow::show_busy);
}

void MainWindow::restore_window() {
    const QSize available = screen()->availableSize();
    // The frame and a bar of the desktop's take some of a small screen.
    resize((available * 3 / 4)
               .expandedTo(least_first_size)
               .boundedTo(available - QSize(0, 2 * row_px))
               .expandedTo(minimumSizeHint()));
    resizeDocks({rig_dock_, stage_dock_}, {288, 264}, Qt::Horizontal);
    resizeDocks({findings_dock_}, {height() / 5}, Qt::Vertical);
    restoreGeometry(settings_.geometry());
    restoreState(settings_.layout());
}

void MainWindow::open(const QString& path) {
    leave_then([this, path] { files_.open(path); });
}

void MainWindow::offer_recovery() {
    for (const Recovery& recovery : keeper_.offers()) {
        const QString original = recovery.original.has_filename()
                                     ? QString::fromStdU16String(recovery.original.filename().u16string())
                                     : QString("A show that was never saved");
        const QString text =
            QStringLiteral("%1 has work from a session that ended without saving.").arg(original);
        const auto take = [this, recovery] {
            leave_then([this, recovery] {
                if (const auto taken = keeper_.take(recovery); !taken) {
                    messages_->add_error(taken.error());
                }
            });
        };
        const auto discard = [this, recovery] {
            if (const auto gone = discard_recovery(recovery); !gone) {
                messages_->add_error(gone.error());
            }
        };
        messages_->add_offer(text, {{"Open it", take}, {"Throw it away", discard}});
    }
}

void MainWindow::finish_typing() const {
    auto* field = qobject_cast<QLineEdit*>(QApplication::focusWidget());
    if (field != nullptr && field->window() == this) {
        emit field->editingFinished();
    }
}

void MainWindow::closeEvent(QCloseEvent* event) {
    finish_typing();
    if (document_.modified() && !leaving_) {
        event->ignore();
        leave_then([this] {
            leaving_ = true;
            close();
        });
        return;
    }
    audition_.stop();
    files_.cancel();
    settings_.set_volume(audition_.volume());
    settings_.set_scrub_sounds(audition_.pieces());
    settings_.set_window(saveGeometry(), saveState());
    event->accept();
}

/// Whoever comes back to the window may have put a missing sound in its place.
bool MainWindow::event(QEvent* event) {
    if (event->type() == QEvent::WindowActivate && painted_) {
        timeline_->waveforms().look_again();
        analysis_.ask();
    }
    return QMainWindow::event(event);
}

/// Hears of the first pictures. Space plays, but not while the focus is on something that Space presses,
/// opens or ticks.
bool MainWindow::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::Shortcut) {
        finish_typing();
    }
    if (event->type() == QEvent::Paint && !painted_ && watched == timeline_->focusProxy()) {
        canvas_paints();
    }
    // The bar of panels that are stacked is made by Qt when it first needs one.
    if (auto* bar = event->type() == QEvent::Show ? qobject_cast<QTabBar*>(watched) : nullptr;
        bar != nullptr && bar->parent() == this) {
        bar->setAccessibleName("Panels in one place");
    }
    if (event->type() == QEvent::ShortcutOverride &&
        dynamic_cast<QKeyEvent&>(*event).key() == Qt::Key_Space &&
        (qobject_cast<QAbstractButton*>(watched) != nullptr || qobject_cast<QComboBox*>(watched) != nullptr ||
         qobject_cast<QAbstractItemView*>(watched) != nullptr)) {
        event->accept();
        return true;
    }
    return QMainWindow::eventFilter(watched, event);
}

/// The show's name, its file's where it has none, or that it is new.
QString MainWindow::shown_name() const {
    const QString name = document_.show().name.empty() ? QFileInfo(document_.path()).completeBaseName()
                                                       : QString::fromStdString(document_.show().name);
    return name.isEmpty() ? QString("New show") : name;
}

void MainWindow::show_title() {
    setWindowTitle(QStringLiteral("%1[*] - Gaspworks").arg(shown_name()));
    setWindowFilePath(document_.path());
    setWindowModified(document_.modified());
}

void MainWindow::show_busy() {
    QStringList parts;
    if (!files_.busy().isEmpty()) {
        parts << files_.busy();
    }
    const double share = timeline_->waveforms().progress();
    if (share < 1.0) {
        parts << QStringLiteral("Reading sound %1 %").arg(static_cast<int>(share * 100.0));
    }
    busy_->setText(parts.join(", "));
    busy_->setVisible(!parts.isEmpty());
    cancel_->setVisible(!parts.isEmpty());
}

void MainWindow::show_finding(const Finding& finding) {
    const Place& place = finding.place;
    if (place.cue || place.time) {
        timeline_->jump_to(place);
    }
    if (finding.check == "sound_file") {
        select_sound(place);
    }
    const bool has_field = !place.field.empty() && (finding.not_checked || !(place.cue || place.time));
    if (has_field || !(place.cue || place.time)) {
        rig_dock_->show();
        rig_dock_->raise();
        rig().show_place(place);
    } else {
        timeline_->setFocus();
    }
}

/// The sound that begins at a place, so that the next key can choose its file or delete it.
void MainWindow::select_sound(const Place& place) {
    const auto& clips = document_.sequence().clips;
    const auto clip = std::find_if(clips.begin(), clips.end(), [&](const SoundClip& each) {
        return std::clamp(each.start, Micros{0}, document_.sequence().length) == place.time;
    });
    if (clip != clips.end()) {
        Selection selection;
        selection.clip = clip->id;
        document_.select(std::move(selection));
        say("Shift+F3 chooses the sound's file");
    }
}

void MainWindow::set_loop(bool on) {
    std::optional<Dwell> loop;
    if (on) {
        const Sequence& sequence = document_.sequence();
        loop = Dwell{Micros{0}, sequence.length};
        Micros begin = sequence.length;
        Micros end{0};
        for (const CueId id : document_.selection().cues) {
            const Cue& cue = *gasp::find(sequence, id);
            begin = std::min(begin, start_of(sequence, cue));
            end = std::max(end, start_of(sequence, cue) + cue.length);
        }
        if (begin < end) {
            loop = Dwell{std::max(begin, Micros{0}), std::min(end, sequence.length)};
        }
    }
    audition_.set_loop(loop);
    timeline_->set_loop(loop);
}

void MainWindow::toggle_theme() {
    const bool light = theme() == Theme::dark;
    set_theme(light ? Theme::light : Theme::dark);
    settings_.set_light_theme(light);
}

void MainWindow::say(const QString& sentence) {
    statusBar()->showMessage(sentence, said_for_ms);
}

}  // namespace gasp
