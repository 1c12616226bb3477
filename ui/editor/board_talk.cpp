// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/board_talk.hpp"

#include "core/link/serial_port.hpp"

#include <algorithm>
#include <condition_variable>
#include <deque>
#include <future>
#include <mutex>
#include <stop_token>
#include <thread>
#include <utility>

namespace gasp {

namespace {

/// Between two looks at the board. A held output must be asked for again within 250 ms.
constexpr std::chrono::milliseconds look_every{80};
constexpr std::chrono::milliseconds longest_farewell{400};

QString sentence(const Error& error) {
    return QString::fromStdString(error.text());
}

}  // namespace

/// The port and its thread. What it has to say it hands to the talk's thread, unless that has turned to
/// another line since.
class BoardTalk::Line : public std::enable_shared_from_this<Line> {
  public:
    Line(BoardTalk& talk, std::string port) : talk_(&talk), port_(std::move(port)) {}

    void begin() {
        thread_ = std::jthread([self = shared_from_this()] { self->work(); });
    }

    void put(Job job) {
        {
            const std::lock_guard lock(mutex_);
            if (quit_ || over_) {
                return;  // whoever waits for it sees its promise broken
            }
            jobs_.push_back(std::move(job));
        }
        wake_.notify_one();
    }

    void hold(std::optional<std::uint8_t> output) {
        {
            const std::lock_guard lock(mutex_);
            let_go_ = let_go_ || (held_ && !output);
            held_ = output;
        }
        wake_.notify_one();
    }

    [[nodiscard]] bool over() {
        const std::lock_guard lock(mutex_);
        return over_;
    }

    /// The talk hears no more of this line, whose thread says farewell and ends by itself.
    void leave() {
        {
            const std::lock_guard lock(mutex_);
            talk_ = nullptr;
            quit_ = true;
        }
        wake_.notify_one();
    }

    /// Requires: left. Waits for the farewell, but not for a board that is silent.
    void end() {
        std::unique_lock lock(mutex_);
        if (!ended_.wait_for(lock, longest_farewell, [this] { return over_; })) {
            silence_.request_stop();
        }
        lock.unlock();
        thread_.join();
    }

    /// Done on the talk's thread, if it still listens to this line.
    template <class Does>
    void tell(Does does) {
        const std::lock_guard lock(mutex_);
        if (talk_ != nullptr) {
            QMetaObject::invokeMethod(talk_, [self = weak_from_this(), talk = talk_, does] {
                if (talk->line_ && talk->line_ == self.lock()) {
                    does(*talk);
                }
            });
        }
    }

    /// Blocks until the line's thread has done it.
    Result<LoadReport> load(const std::string& image, const std::atomic<bool>& cancel,
                            const std::function<void(double share)>& progress) {
        auto promise = std::make_shared<std::promise<Result<LoadReport>>>();
        std::future<Result<LoadReport>> loaded = promise->get_future();
        put([&, this, promise = std::move(promise)](Conversation&) {
            promise->set_value(load_now(image, cancel, progress));
        });
        try {
            return loaded.get();
        } catch (const std::future_error&) {
            return fail("the board was lost", port_, "Connect it and load again: it goes on where it was");
        }
    }

  private:
    void work() {
        const Result<void> talked = talk_with_board();
        stream_.reset();  // another program may want the port, or this one again
        tell([why = talked ? QString() : sentence(talked.error())](BoardTalk& talk) {
            talk.leave_line();
            emit talk.closed(why);
        });
        const std::lock_guard lock(mutex_);
        over_ = true;
        jobs_.clear();  // as in put()
        ended_.notify_all();
    }

    /// In a conversation of its own, so that giving it up leaves the other as it is.
    Result<LoadReport> load_now(const std::string& image, const std::atomic<bool>& cancel,
                                const std::function<void(double share)>& progress) {
        std::stop_source give_up;
        Conversation loader(*stream_, give_up.get_token());
        // With its new table it would begin its own work at once, and move.
        if (const Result<void> stops = loader.stop(); !stops) {
            return tl::unexpected(stops.error());
        }
        Result<LoadReport> report = loader.load(image, [&](std::size_t done, std::size_t all) {
            progress(static_cast<double>(done) / static_cast<double>(std::max<std::size_t>(all, 1)));
            if (cancel) {
                give_up.request_stop();
            }
        });
        if (const Result<BoardIdentity> now = Conversation(*stream_).identify()) {
            tell([identity = *now](BoardTalk& talk) {
                talk.identity_ = identity;
                emit talk.opened();
            });
        }
        return report;
    }

    Result<void> talk_with_board() {
        Result<std::unique_ptr<SerialPort>> port = SerialPort::open(port_);
        if (!port) {
            return tl::unexpected(port.error());
        }
        stream_ = std::move(*port);
        Conversation board(*stream_, silence_.get_token());
        const Result<BoardIdentity> identity = board.identify();
        if (!identity) {
            return tl::unexpected(identity.error());
        }
        tell([identity = *identity](BoardTalk& talk) {
            talk.identity_ = identity;
            emit talk.opened();
        });
        Result<void> talked;
        while (talked && wait_and_work(board)) {
            talked = look(board);
        }
        if (talked && board.armed()) {
            static_cast<void>(board.disarm());
        }
        return talked;
    }

    /// Does what was asked for; false when it is time to end.
    bool wait_and_work(Conversation& board) {
        std::unique_lock lock(mutex_);
        wake_.wait_for(lock, look_every, [this] { return quit_ || !jobs_.empty() || let_go_; });
        if (quit_) {
            return false;
        }
        if (std::exchange(let_go_, false)) {
            lock.unlock();
            static_cast<void>(board.let_go());
            lock.lock();
        }
        while (!jobs_.empty() && !quit_) {
            const Job job = std::move(jobs_.front());
            jobs_.pop_front();
            lock.unlock();
            job(board);
            lock.lock();
        }
        return !quit_;
    }

    /// Keeps an output held, and asks how the board stands. Error: the board is lost.
    Result<void> look(Conversation& board) {
        std::optional<std::uint8_t> held;
        {
            const std::lock_guard lock(mutex_);
            held = held_;
        }
        if (held) {
            if (const Result<void> holds = board.hold(*held); !holds) {
                hold(std::nullopt);
                tell([error = holds.error()](BoardTalk& talk) { emit talk.failed(error); });
            }
        }
        const Deadline asked = LinkClock::now();
        const Result<BoardStatus> status = board.status();
        if (!status) {
            if (board.lost()) {
                return tl::unexpected(status.error());
            }
            tell([error = status.error()](BoardTalk& talk) { emit talk.failed(error); });
            return {};
        }
        const Deadline middle = asked + (LinkClock::now() - asked) / 2;
        tell([moment = BoardMoment{*status, middle}](BoardTalk& talk) {
            talk.last_ = moment;
            emit talk.moment_came();
        });
        return {};
    }

    std::mutex mutex_;
    std::condition_variable wake_;
    std::condition_variable ended_;
    BoardTalk* talk_;
    std::string port_;
    std::unique_ptr<ByteStream> stream_;
    std::deque<Job> jobs_;
    std::optional<std::uint8_t> held_;
    bool let_go_ = false;
    bool quit_ = false;
    bool over_ = false;
    std::stop_source silence_;
    std::jthread thread_;
};

BoardTalk::BoardTalk(QObject* parent) : QObject(parent) {}

BoardTalk::~BoardTalk() {
    leave_line();
    for (const auto& line : left_) {
        line->end();
    }
}

void BoardTalk::leave_line() {
    if (line_) {
        line_->leave();
        left_.push_back(std::move(line_));
        identity_.reset();
        last_.reset();
    }
}

void BoardTalk::open(const QString& port) {
    close();
    std::erase_if(left_, [](const std::shared_ptr<Line>& line) {
        const bool over = line->over();
        if (over) {
            line->end();
        }
        return over;
    });
    line_ = std::make_shared<Line>(*this, port.toStdString());
    line_->begin();
}

void BoardTalk::close() {
    if (line_) {
        leave_line();
        emit closed({});
    }
}

bool BoardTalk::is_open() const {
    return line_ != nullptr;
}

void BoardTalk::ask(std::function<Result<void>(Conversation&)> what) {
    if (line_) {
        line_->put([what = std::move(what), line = std::weak_ptr(line_)](Conversation& board) {
            const Result<void> done = what(board);
            if (const auto still = line.lock(); still && !done) {
                still->tell([error = done.error()](BoardTalk& talk) { emit talk.failed(error); });
            }
        });
    }
}

void BoardTalk::arm() {
    ask([](Conversation& board) { return board.arm(); });
}

void BoardTalk::disarm() {
    let_go();
    ask([](Conversation& board) { return board.disarm(); });
}

void BoardTalk::hold(std::uint8_t output) {
    if (line_) {
        line_->hold(output);
    }
}

void BoardTalk::let_go() {
    if (line_) {
        line_->hold(std::nullopt);
    }
}

void BoardTalk::run(std::uint8_t sequence) {
    ask([sequence](Conversation& board) { return board.run(sequence); });
}

void BoardTalk::stop() {
    let_go();
    ask([](Conversation& board) { return board.stop(); });
}

void BoardTalk::go_on() {
    // While it is armed it starts nothing by itself.
    ask([](Conversation& board) {
        return board.arm().and_then([&] { return board.go_on(); }).and_then([&] { return board.disarm(); });
    });
}

void BoardTalk::read_log() {
    ask([line = std::weak_ptr(line_)](Conversation& board) -> Result<void> {
        Result<std::vector<LogEntry>> entries = board.read_log();
        if (!entries) {
            return tl::unexpected(entries.error());
        }
        if (const auto still = line.lock()) {
            still->tell([entries = std::move(*entries)](BoardTalk& talk) { emit talk.log_came(entries); });
        }
        return {};
    });
}

void BoardTalk::clear_log() {
    ask([](Conversation& board) { return board.clear_log(); });
    read_log();
}

void BoardTalk::measure_latency() {
    ask([line = std::weak_ptr(line_)](Conversation& board) -> Result<void> {
        const Result<LinkLatency> latency = board.measure_latency();
        if (!latency) {
            return tl::unexpected(latency.error());
        }
        if (const auto still = line.lock()) {
            still->tell([latency = *latency](BoardTalk& talk) { emit talk.latency_came(latency); });
        }
        return {};
    });
}

BoardTalk::Loader BoardTalk::loader() const {
    return [line = line_](const std::string& image, const std::atomic<bool>& cancel,
                          const std::function<void(double share)>& progress) -> Result<LoadReport> {
        if (!line) {
            return fail("no board is connected", {}, "Connect one first");
        }
        return line->load(image, cancel, progress);
    };
}

}  // namespace gasp
