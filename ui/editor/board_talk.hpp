// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/link/conversation.hpp"

#include <QObject>
#include <QString>

#include <atomic>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace gasp {

/// How a board stood at a moment of ours.
struct BoardMoment {
    BoardStatus status;
    Deadline when;  ///< the middle between question and answer
};

/// The conversation with one board, on a thread of its own: what is asked for here is done there in order,
/// and between two requests the board is asked how it stands, which also keeps it armed. Nothing here waits.
/// Window thread.
class BoardTalk : public QObject {
    Q_OBJECT

  public:
    explicit BoardTalk(QObject* parent = nullptr);
    /// Lets go of everything and disarms; at most half a second.
    ~BoardTalk() override;

    /// Ends an earlier conversation first.
    void open(const QString& port);
    void close();
    /// From open() until closed().
    [[nodiscard]] bool is_open() const;
    [[nodiscard]] const std::optional<BoardIdentity>& identity() const { return identity_; }
    [[nodiscard]] const std::optional<BoardMoment>& last() const { return last_; }

    void arm();
    void disarm();
    /// Drives one output, counted from 0, until let_go(); or until the board is not heard for half a second.
    void hold(std::uint8_t output);
    void let_go();
    void run(std::uint8_t sequence);
    void stop();
    void go_on();
    void read_log();
    void clear_log();
    void measure_latency();

    /// What loads an image into this board and compares it; called on a thread that may wait.
    using Loader = std::function<Result<LoadReport>(const std::string& image, const std::atomic<bool>& cancel,
                                                    const std::function<void(double share)>& progress)>;
    [[nodiscard]] Loader loader() const;

  signals:
    void opened();
    /// `why` is empty where it was asked for.
    void closed(const QString& why);
    void moment_came();
    void failed(const gasp::Error& error);  ///< of one request; the conversation goes on
    void log_came(const std::vector<gasp::LogEntry>& entries);
    void latency_came(const gasp::LinkLatency& latency);

  private:
    class Line;
    using Job = std::function<void(Conversation&)>;
    void leave_line();
    void ask(std::function<Result<void>(Conversation&)> what);

    std::shared_ptr<Line> line_;               ///< null while closed
    std::vector<std::shared_ptr<Line>> left_;  ///< those that may still be saying farewell
    std::optional<BoardIdentity> identity_;
    std::optional<BoardMoment> last_;
};

}  // namespace gasp
