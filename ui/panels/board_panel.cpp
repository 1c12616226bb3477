// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/board_panel.hpp"

#include "core/link/serial_port.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/board_hands.hpp"
#include "ui/panels/board_load.hpp"
#include "ui/panels/board_text.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/night_counts.hpp"
#include "ui/panels/panel_parts.hpp"
#include "ui/panels/tile_area.hpp"
#include "ui/panels/work_bar.hpp"

#include <QAction>
#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalBlocker>
#include <QTableWidget>
#include <QTimer>
#include <QToolButton>
#include <QVBoxLayout>
#include <QtConcurrentRun>

#include <utility>

namespace gasp {
namespace {

constexpr int frame_ms = 33;
constexpr int compare_after_ms = 300;
constexpr int log_rows_seen = 6;

QTableWidgetItem* cell(const QString& text) {
    auto* item = new QTableWidgetItem(text);
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    return item;
}

QPushButton* add_button(QBoxLayout& column, const QString& words, const QString& help) {
    auto* button = new QPushButton(words);
    button->setToolTip(help);
    column.addWidget(button);
    return button;
}

}  // namespace

BoardPanel::BoardPanel(Document& document, QWidget* parent) : QWidget(parent), document_(document) {
    make_actions();
    figures_ = new FigureList("The board",
                              "Connect a board that runs the player. It is told what to play, and does it "
                              "without this computer.");
    hands_ = new BoardHands(document_);
    auto* tiles = new TileArea;
    tiles->add(figures_);
    tiles->add(hands_);
    tiles->add(make_log());
    lay_panel(this, make_form(), make_load_bar(), tiles);
    following_.setInterval(frame_ms);
    compare_soon_.setSingleShot(true);
    compare_soon_.setInterval(compare_after_ms);
    // What is said there must not move the buttons below from under the mouse.
    load_->setMinimumHeight(2 * row_px + grid_px);
    setFocusProxy(port_);
    connect_parts();
    list_ports();
    list_boards();
    show_state();
}

BoardPanel::~BoardPanel() {
    // What the talk still has to say is not for a panel that is going.
    talk_.disconnect(this);
    comparing_.waitForFinished();
}

void BoardPanel::make_actions() {
    QAction* connect_to = make_action(this, Icon::board, "Connect to a board...", "Shift+F9",
                                      "Choose the port of a board, and connect to it");
    // Once whoever holds the panel has shown it.
    connect(connect_to, &QAction::triggered, this,
            [this] { QTimer::singleShot(0, port_, qOverload<>(&QWidget::setFocus)); });
    QAction* load = make_action(this, Icon::board, "Load the table into the board", "Ctrl+F9",
                                "Load the table of this show, read it back and compare every byte");
    QAction* stop = make_action(this, Icon::stop, "Stop the board", "F9",
                                "End its run and put every output to rest; it is no emergency stop");
    connect(stop, &QAction::triggered, &talk_, &BoardTalk::stop);
    actions_ = {connect_to, load, stop};
    load_ = new WorkBar(*load);
}

QWidget* BoardPanel::make_form() {
    auto* page = new QWidget;
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(grid_px, grid_px, grid_px, grid_px);
    column->setSpacing(grid_px / 2);
    auto* ports = new QHBoxLayout;
    port_ = new QComboBox;
    port_->setEditable(true);
    port_->setInsertPolicy(QComboBox::NoInsert);
    port_->setAccessibleName("Port");
    port_->setToolTip("The serial port the board hangs on; choose it or type its path");
    auto* again = new QToolButton;
    again->setIcon(icon(Icon::loop));
    again->setToolTip("Look for ports again");
    again->setAccessibleName(again->toolTip());
    connect(again, &QToolButton::clicked, this, &BoardPanel::list_ports);
    ports->addWidget(port_, 1);
    ports->addWidget(again);
    column->addLayout(ports);
    connect_ = add_button(*column, "Connect", "Open the port and ask who is there; many boards start anew");
    board_ = new QComboBox;
    board_->setAccessibleName("Board of the show");
    board_->setToolTip("Which of the show's boards this is");
    column->addWidget(board_);
    column->addSpacing(grid_px);
    caution_ = new QLabel(
        "A board with a table moves the prop by itself, armed or not; armed, these buttons move it too. Keep "
        "everybody out of its reach, watch it, and have the emergency stop, which cuts air and power, at "
        "hand. "
        "This program protects nobody.");
    caution_->setWordWrap(true);
    // Side by side: the one is never to be seen without the other.
    auto* armed = new QHBoxLayout;
    armed->setSpacing(grid_px);
    arm_ = add_button(*armed, "Arm", "Let the buttons move the prop, until disarmed or the link is silent");
    stop_ = add_button(*armed, actions_.back()->text(), actions_.back()->toolTip());
    column->addLayout(armed);
    column->addWidget(caution_);
    go_on_ = add_button(*column, "Back to work", "Let a stopped board wait for its trigger again");
    follow_ = new QCheckBox("Playhead follows the board");
    follow_->setChecked(true);
    column->addWidget(follow_);
    sound_ = new QCheckBox("Play the sound with \u201cRun once\u201d");
    sound_->setToolTip("Play the sequence's sound in time with the board, and say how well they agree");
    sound_->setChecked(true);
    column->addWidget(sound_);
    column->addStretch(1);
    return scrolled_form(page);
}

/// The load, and beside what is said of it the way round.
QWidget* BoardPanel::make_load_bar() {
    auto* bar = new QWidget;
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(0, 0, grid_px, 0);
    row->addWidget(load_, 1);
    despite_ = new QPushButton("Load all the same");
    despite_->setToolTip("Load the table although stop findings stand against it");
    despite_->hide();
    row->addWidget(despite_);
    return bar;
}

QWidget* BoardPanel::make_log() {
    auto* page = new QWidget;
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(grid_px, grid_px, grid_px, grid_px);
    auto* head = new QHBoxLayout;
    auto* title = new QLabel("Its log");
    title->setFont(gasp::font(TypeSize::body, true));
    head->addWidget(title, 1);
    read_log_ = new QPushButton("Read");
    read_log_->setToolTip("Read the log of the board");
    clear_log_ = new QPushButton("Clear");
    clear_log_->setToolTip("Forget its entries and counts");
    head->addWidget(read_log_);
    head->addWidget(clear_log_);
    column->addLayout(head);
    counts_ = new FigureList("Since it was cleared", "No board is connected.");
    column->addWidget(counts_);
    log_ = new QTableWidget(0, 2);
    log_->setHorizontalHeaderLabels({"Since power-up", "What"});
    log_->horizontalHeader()->setStretchLastSection(true);
    log_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    log_->verticalHeader()->hide();
    log_->setAccessibleName("Log of the board");
    log_->setMinimumHeight(log_rows_seen * log_->verticalHeader()->defaultSectionSize());
    column->addWidget(log_, 1);
    return page;
}

void BoardPanel::connect_parts() {
    connect(connect_, &QPushButton::clicked, this, &BoardPanel::toggle_connection);
    connect(arm_, &QPushButton::clicked, this, &BoardPanel::toggle_arming);
    connect(stop_, &QPushButton::clicked, &talk_, &BoardTalk::stop);
    connect(go_on_, &QPushButton::clicked, &talk_, &BoardTalk::go_on);
    connect(load_, &WorkBar::started, this, [this] { load(false); });
    connect(despite_, &QPushButton::clicked, this, [this] { load(true); });
    connect(read_log_, &QPushButton::clicked, &talk_, &BoardTalk::read_log);
    connect(clear_log_, &QPushButton::clicked, &talk_, &BoardTalk::clear_log);
    connect(hands_, &BoardHands::held, &talk_, &BoardTalk::hold);
    connect(hands_, &BoardHands::let_go, &talk_, &BoardTalk::let_go);
    connect(hands_, &BoardHands::interrupted, &talk_, &BoardTalk::disarm);
    connect(hands_, &BoardHands::run_asked, this, [this](std::uint8_t sequence) {
        run_asked_ = true;
        talk_.run(sequence);
    });
    connect(&talk_, &BoardTalk::opened, this, &BoardPanel::take_opened);
    connect(&talk_, &BoardTalk::closed, this, &BoardPanel::take_closed);
    connect(&talk_, &BoardTalk::moment_came, this, &BoardPanel::take_moment);
    connect(&talk_, &BoardTalk::failed, this,
            [this](const Error& error) { load_->say(sentence_of(error), true); });
    connect(&talk_, &BoardTalk::log_came, this, &BoardPanel::take_log);
    connect(&talk_, &BoardTalk::latency_came, this, [this](const LinkLatency& latency) {
        latency_ = latency;
        show_state();
    });
    connect(board_, &QComboBox::currentIndexChanged, this, [this] { list_boards(); });
    connect(&document_, &Document::changed, this, &BoardPanel::list_boards);
    connect(&document_, &Document::replaced, this, &BoardPanel::list_boards);
    connect(&following_, &QTimer::timeout, this, &BoardPanel::follow);
    connect(&compare_soon_, &QTimer::timeout, this, &BoardPanel::compare);
    connect(&comparing_, &QFutureWatcherBase::finished, this, [this] {
        wanted_ = comparing_.result();
        show_state();
    });
}

void BoardPanel::list_ports() {
    const QString typed = port_->currentText();
    port_->clear();
    for (const PortInfo& port : gasp::list_ports()) {
        const QString path = QString::fromStdString(port.path);
        port_->addItem(path);
        port_->setItemData(port_->count() - 1, QString::fromStdString(port.label), Qt::ToolTipRole);
    }
    if (!typed.isEmpty()) {
        port_->setEditText(typed);
    } else if (port_->count() == 0) {
        port_->lineEdit()->setPlaceholderText("no port found; plug the board in");
    }
}

void BoardPanel::list_boards() {
    const std::vector<Board>& boards = document_.show().rig.boards;
    const QSignalBlocker quiet(board_);
    const QVariant chosen = board_->currentData();
    board_->clear();
    for (const Board& board : boards) {
        board_->addItem(QString::fromStdString(board.name), board.id.value);
    }
    board_->setCurrentIndex(std::max(board_->findData(chosen), boards.empty() ? -1 : 0));
    board_->setVisible(boards.size() > 1);
    hands_->list(board().value_or(BoardId{}));
    despite_->hide();
    compare_soon_.start();
    show_state();
}

std::optional<BoardId> BoardPanel::board() const {
    return board_->currentIndex() < 0 ? std::nullopt : std::optional(BoardId{board_->currentData().toUInt()});
}

void BoardPanel::connect_to(const QString& port) {
    port_->setEditText(port);
    load_->say(tr("Asking who is there..."));
    talk_.open(port);
    show_state();
}

void BoardPanel::toggle_connection() {
    if (talk_.is_open()) {
        talk_.close();
    } else if (port_->currentText().isEmpty()) {
        load_->say(tr("No port is chosen. Plug the board in and look again, or type the port's path."), true);
    } else {
        connect_to(port_->currentText());
    }
}

void BoardPanel::toggle_arming() {
    if (talk_.last() && talk_.last()->status.armed) {
        talk_.disarm();
    } else {
        talk_.arm();
    }
}

void BoardPanel::load(bool despite_stops) {
    const std::optional<BoardId> id = board();
    despite_->hide();
    if (!id || !talk_.identity()) {
        load_->say(!id ? tr("The show has no board yet. Add one to the rig, and give channels its outputs.")
                       : tr("Connect the board first."),
                   true);
        return;
    }
    load_->run<BoardLoad>(
        [show = document_.snapshot(), id = *id, loader = talk_.loader(), despite_stops](
            const std::atomic<bool>& cancel, const WorkBar::Progress& progress) {
            return load_board(*show, id, loader, despite_stops, cancel, progress);
        },
        [this](const Result<BoardLoad>& loaded) {
            if (!loaded) {
                load_->say(sentence_of(loaded.error()), true);
                return;
            }
            if (!loaded->report) {
                load_->say(stops_line(loaded->stops), true);
                despite_->show();
                return;
            }
            wanted_.crc = loaded->crc;
            load_->say(
                tr("\u2713 %1 bytes loaded, read back and found the same, in %2 s. The board rests until "
                   "\u201cBack to work\u201d.")
                    .arg(loaded->report->bytes)
                    .arg(static_cast<double>(loaded->report->took.count()) / 1000.0, 0, 'f', 1));
            show_state();
        });
}

/// Makes the table of the show as it is now, to tell whether the board has it.
void BoardPanel::compare() {
    const std::optional<BoardId> id = board();
    if (!id || !talk_.identity()) {
        return;
    }
    if (comparing_.isRunning()) {
        compare_soon_.start();
        return;
    }
    comparing_.setFuture(
        QtConcurrent::run([show = document_.snapshot(), id = *id] { return wanted_table(*show, id); }));
}

void BoardPanel::take_opened() {
    if (!latency_) {
        load_->say({});
        talk_.measure_latency();
        talk_.read_log();
        compare_soon_.start();
    }
    show_state();
}

void BoardPanel::take_closed(const QString& why) {
    despite_->hide();
    latency_.reset();
    sound_error_.reset();
    run_asked_ = false;
    idle_before_ = true;
    following_.stop();
    emit run_ended();
    if (why.isEmpty()) {
        load_->say({});
    } else {
        load_->say(why, true);
        emit said(why);
    }
    show_state();
}

void BoardPanel::take_moment() {
    const BoardStatus& status = talk_.last()->status;
    const std::vector<Sequence>& sequences = document_.show().sequences;
    if (const auto now = std::tuple(status.state, status.triggers, status.refusals, status.faults);
        std::exchange(logged_, now) != now) {
        talk_.read_log();
    }
    const bool idle = !status.running() || status.state == BoardState::running_idle;
    if (idle_before_ && !idle && follow_->isChecked() && status.sequence < sequences.size()) {
        emit run_began(sequences[status.sequence].id);
    }
    if (idle_before_ && !idle && std::exchange(run_asked_, false) && sound_->isChecked() &&
        status.sequence < sequences.size()) {
        sound_error_.reset();
        emit sound_wanted(sequences[status.sequence].id,
                          talk_.last()->when - Micros{status.clock_us - status.run_clock_us});
    } else if (!idle_before_ && idle) {
        emit run_ended();
    }
    idle_before_ = idle;
    if (status.running() && follow_->isChecked()) {
        following_.start();
    } else {
        following_.stop();
    }
    show_state();
}

void BoardPanel::set_forecast(const NightForecast* forecast) {
    forecast_ = forecast != nullptr ? std::optional(*forecast) : std::nullopt;
    show_state();
}

void BoardPanel::show_sound_error(Micros error) {
    sound_error_ = error;
    show_state();
}

/// The run's time between two looks at the board: by its own clock at the last, and ours since.
void BoardPanel::follow() {
    const std::optional<BoardMoment>& last = talk_.last();
    const std::vector<Sequence>& sequences = document_.show().sequences;
    if (!last || !last->status.running() || last->status.sequence >= sequences.size()) {
        following_.stop();
        return;
    }
    const Sequence& sequence = sequences[last->status.sequence];
    const Micros then{last->status.clock_us - last->status.run_clock_us};
    const auto since = std::chrono::duration_cast<Micros>(LinkClock::now() - last->when);
    emit followed(sequence.id, std::min(then + since, sequence.length));
}

void BoardPanel::take_log(const std::vector<LogEntry>& entries) {
    log_->setRowCount(static_cast<int>(entries.size()));
    for (int i = 0; i < log_->rowCount(); ++i) {
        const LogEntry& entry = entries[static_cast<std::size_t>(i)];
        log_->setItem(i, 0, cell(up_time(entry.up_s)));
        log_->setItem(i, 1, cell(QString::fromStdString(words(entry))));
    }
    log_->scrollToBottom();
}

void BoardPanel::show_state() {
    const bool connected = talk_.identity().has_value();
    const std::optional<BoardMoment>& last = talk_.last();
    const bool armed = last && last->status.armed;
    connect_->setText(talk_.is_open() ? tr("Disconnect") : tr("Connect"));
    arm_->setText(armed ? tr("Disarm") : tr("Arm"));
    arm_->setEnabled(connected);
    stop_->setEnabled(connected);
    actions_.back()->setEnabled(connected);
    go_on_->setEnabled(last && last->status.state == BoardState::stopped_by_link);
    read_log_->setEnabled(connected);
    clear_log_->setEnabled(connected);
    load_->set_startable(connected && !armed);
    tell_armed(armed);
    hands_->set_armed(armed);
    hands_->show_status(last ? std::optional(last->status) : std::nullopt);
    std::vector<FigureLine> lines;
    if (connected) {
        lines = identity_lines(*talk_.identity(), wanted_);
        if (last) {
            const std::optional<BoardId> id = board();
            const Board* ours = id ? gasp::find(document_.show(), *id) : nullptr;
            const Micros tick = ours != nullptr && ours->tick_ms
                                    ? Micros{static_cast<Micros::rep>(*ours->tick_ms * 1000.0)}
                                    : Micros{1000};
            const auto more = status_lines(last->status, document_.show(), tick);
            lines.insert(lines.end(), more.begin(), more.end());
        }
        if (latency_) {
            lines.push_back(latency_line(*latency_));
        }
        if (sound_error_) {
            lines.push_back(sound_line(*sound_error_));
        }
    }
    figures_->set(std::move(lines));
    std::vector<FigureLine> counts;
    if (connected && last) {
        counts = night_counts(last->status, forecast_ ? &*forecast_ : nullptr);
    }
    counts_->set(std::move(counts));
}

void BoardPanel::tell_armed(bool armed) {
    if (armed != armed_) {
        armed_ = armed;
        emit armed_changed(armed);
    }
}

void BoardPanel::hideEvent(QHideEvent* event) {
    talk_.let_go();
    if (armed_) {
        talk_.disarm();
    }
    QWidget::hideEvent(event);
}

void BoardPanel::showEvent(QShowEvent* event) {
    if (!talk_.is_open()) {
        list_ports();
    }
    QWidget::showEvent(event);
}

}  // namespace gasp
