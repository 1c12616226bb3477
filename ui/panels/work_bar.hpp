// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"
#include "ui/editor/thread_priority.hpp"

#include <QFutureWatcher>
#include <QThreadPool>
#include <QWidget>
#include <QtConcurrentRun>

#include <atomic>
#include <functional>
#include <memory>
#include <utility>

class QAction;
class QBoxLayout;
class QLabel;
class QProgressBar;
class QPushButton;

namespace gasp {

/// One piece of long work of a panel: a button that starts it, how far it is, a button that gives it up, and
/// a line that says how it stands. It is done on a thread of its own; the result is handed over on the
/// window's. Nothing blocks but the destructor, which cancels and waits.
class WorkBar : public QWidget {
    Q_OBJECT

  public:
    /// The button does what the action does, which has the words, the key and the help.
    explicit WorkBar(QAction& start, QWidget* parent = nullptr);
    ~WorkBar() override;

    [[nodiscard]] bool working() const { return cancel_ != nullptr; }
    /// What the work is told by, from any thread.
    using Progress = std::function<void(double share)>;

    /// Does `work` and gives its result to `done`, unless it was cancelled. Requires: nothing is under way.
    template <class T>
    void run(std::function<Result<T>(const std::atomic<bool>& cancel, const Progress& progress)> work,
             std::function<void(Result<T>)> done) {
        const auto cancel = begin();
        const Progress progress = [this](double share) { share_ = share; };
        auto* watcher = new QFutureWatcher<Result<T>>(this);
        connect(watcher, &QFutureWatcherBase::finished, this, [this, watcher, cancel, done] {
            watcher->deleteLater();
            end();
            if (!*cancel) {
                done(watcher->future().takeResult());
            }
        });
        watcher->setFuture(QtConcurrent::run(&pool_, [work, cancel, progress] {
            stand_back();
            return work(*cancel, progress);
        }));
    }
    void cancel();
    /// What is said while nothing is under way; `important` in the colour of a warning, with its sign.
    void say(const QString& text, bool important = false);
    [[nodiscard]] QString said() const;
    void set_startable(bool on);
    [[nodiscard]] QPushButton& start_button() { return *start_; }
    [[nodiscard]] QPushButton& cancel_button() { return *stop_; }

  signals:
    void started();    ///< button, menu or key asked for it, and nothing is under way
    void cancelled();  ///< the work was given up and has ended

  protected:
    void timerEvent(QTimerEvent* event) override;
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    std::shared_ptr<std::atomic<bool>> begin();
    void end();
    void show_words();

    QAction& action_;
    QPushButton* start_;
    QPushButton* stop_;
    QProgressBar* bar_;
    QLabel* sign_;
    QLabel* words_;
    QBoxLayout* lines_ = nullptr;
    QString text_;
    bool important_ = false;
    std::atomic<double> share_ = 0.0;
    int timer_ = 0;
    std::shared_ptr<std::atomic<bool>> cancel_;
    QThreadPool pool_;
};

}  // namespace gasp
