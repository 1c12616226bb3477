// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/analysis.hpp"

#include "core/checks/check.hpp"
#include "core/checks/sound_shelf.hpp"
#include "ui/editor/file_path.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <filesystem>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace gasp {
namespace {

using ResultPointer = std::shared_ptr<const AnalysisResult>;
/// Findings that come this fast are always finished.
constexpr std::chrono::milliseconds quick{60};
/// Words that come and go faster than this only flicker.
constexpr std::chrono::milliseconds worth_saying{400};

}  // namespace

struct Analysis::Job {
    std::shared_ptr<const Show> show;
    std::uint64_t revision = 0;
    std::uint64_t request = 0;
    SequenceId sequence;
    std::filesystem::path folder;  ///< empty before the first save
    UnitSystem units = UnitSystem::metric;
    bool other_show = false;  ///< than that of the job before, whose findings say nothing of this one
};

/// One thread with at most one job under way and one result waiting to be fetched.
struct Analysis::Worker {
    explicit Worker(std::function<void()> tell) : tell_ready(std::move(tell)), thread([this] { run(); }) {}
    ~Worker() {
        {
            const std::lock_guard lock(mutex);
            ending = true;
            newer_waits = true;
        }
        wake.notify_all();
        thread.join();
    }
    Worker(const Worker&) = delete;
    Worker& operator=(const Worker&) = delete;

    [[nodiscard]] bool busy() {
        const std::lock_guard lock(mutex);
        return job.has_value() || working;
    }
    void start(Job next) {
        {
            const std::lock_guard lock(mutex);
            newer_waits = false;
            job = std::move(next);
        }
        wake.notify_all();
    }
    /// The newest result not fetched yet, or null.
    [[nodiscard]] ResultPointer fetch() {
        const std::lock_guard lock(mutex);
        return std::exchange(fresh, nullptr);
    }
    void wait_until_idle() {
        std::unique_lock lock(mutex);
        wake.wait(lock, [this] { return !job.has_value() && !working; });
    }

    void run();
    [[nodiscard]] std::optional<Job> next_job();
    void publish(AnalysisResult result);
    [[nodiscard]] CheckSetting setting(const Job& current);
    [[nodiscard]] AnalysisResult analyse(const Job& current);
    /// Adds bands and findings; false when it gave up for a newer job.
    [[nodiscard]] bool look_closer(const Job& current, AnalysisResult& result);
    /// Adds the findings of every sequence, and of all together; likewise.
    [[nodiscard]] bool look_at_all(const Job& current, AnalysisResult& result);
    [[nodiscard]] std::vector<Finding> with_together(std::vector<Finding> findings) const;

    std::function<void()> tell_ready;
    std::mutex mutex;
    std::condition_variable wake;
    std::optional<Job> job;
    SoundShelf sounds{{}};  ///< only the thread looks at it, and at what follows
    AirMemo memo;           ///< what of the air need not be simulated again
    SequenceId last_sequence;
    std::vector<Finding> last_findings;
    std::vector<Finding> last_all_findings;
    std::vector<Finding> last_together;  ///< those among them of all sequences together
    std::optional<PowerTogether> last_power;
    ResultPointer fresh;
    bool working = false;
    bool ending = false;
    /// A newer job gives up the findings of the other sequences, and those of the one looked at where they
    /// take long. What moves is always finished, so that a drag that never pauses is still answered.
    std::atomic<bool> newer_waits = false;
    std::chrono::steady_clock::duration closer_took{};
    std::thread thread;
};

CheckSetting Analysis::Worker::setting(const Job& current) {
    if (sounds.folder() != current.folder) {
        sounds = SoundShelf(current.folder);
    }
    return {.units = current.units,
            .sounds = current.folder.empty() ? nullptr : &sounds,
            .memo = &memo,
            .stopped = {}};
}

AnalysisResult Analysis::Worker::analyse(const Job& current) {
    AnalysisResult result;
    static_cast<SequenceRun&>(result) = work_out(*current.show, *find(*current.show, current.sequence), memo);
    result.revision = current.revision;
    result.request = current.request;
    result.sequence = current.sequence;
    result.dwells = dwells_by_channel(result.schedule);
    if (current.other_show) {
        last_sequence = {};
        last_all_findings.clear();
        last_together.clear();
        last_power.reset();
    }
    result.all_findings = last_all_findings;
    result.together = last_power;
    if (last_sequence == current.sequence) {
        result.findings = last_findings;
    }
    return result;
}

bool Analysis::Worker::look_closer(const Job& current, AnalysisResult& result) {
    const auto begin = std::chrono::steady_clock::now();
    const auto stopped = [this, begin] {
        const auto took = std::max(closer_took, std::chrono::steady_clock::now() - begin);
        return newer_waits.load() && took > quick;
    };
    memo.stop_when(stopped);
    AnalysisResult closer = result;
    const Show& show = *current.show;
    const Sequence& sequence = *find(show, current.sequence);
    add_bands(closer, show, memo);
    closer.facts = std::make_shared<const AirFacts>(air_facts(show, closer.played(sequence), closer, memo));
    CheckSetting impatient = setting(current);
    impatient.stopped = stopped;
    closer.findings = with_together(check(show, sequence, closer, *closer.facts, memo, impatient));
    memo.stop_when({});
    if (stopped()) {
        return false;
    }
    closer_took = std::chrono::steady_clock::now() - begin;
    result = std::move(closer);
    last_sequence = current.sequence;
    last_findings = result.findings;
    return true;
}

bool Analysis::Worker::look_at_all(const Job& current, AnalysisResult& result) {
    const auto stopped = [this] { return newer_waits.load(); };
    memo.stop_when(stopped);
    CheckSetting impatient = setting(current);
    impatient.stopped = stopped;
    ShowFindings whole = check_whole(*current.show, impatient);
    memo.stop_when({});
    if (stopped()) {
        return false;
    }
    std::erase_if(result.findings,
                  [this](const Finding& finding) { return std::ranges::count(last_together, finding) > 0; });
    last_together = std::move(whole.together);
    result.findings = last_findings = with_together(std::move(result.findings));
    result.all_findings = last_all_findings = std::move(whole.all);
    result.together = last_power = std::move(whole.power);
    result.complete = true;
    return true;
}

std::vector<Finding> Analysis::Worker::with_together(std::vector<Finding> findings) const {
    join_findings(findings, last_together);
    put_by_severity(findings);
    return findings;
}

void Analysis::Worker::publish(AnalysisResult result) {
    {
        const std::lock_guard lock(mutex);
        fresh = std::make_shared<const AnalysisResult>(std::move(result));
    }
    tell_ready();
}

std::optional<Analysis::Job> Analysis::Worker::next_job() {
    std::unique_lock lock(mutex);
    wake.wait(lock, [this] { return ending || job.has_value(); });
    if (ending) {
        return {};
    }
    working = true;
    return std::exchange(job, std::nullopt);
}

void Analysis::Worker::run() {
    while (const auto current = next_job()) {
        AnalysisResult result = analyse(*current);
        publish(result);
        if (look_closer(*current, result)) {
            publish(result);
            if (look_at_all(*current, result)) {
                publish(std::move(result));
            }
        }
        {
            const std::lock_guard lock(mutex);
            working = false;
        }
        wake.notify_all();
        tell_ready();
    }
}

Analysis::Analysis(Document& document, QObject* parent)
    : QObject(parent), document_(document), result_(std::make_shared<const AnalysisResult>()) {
    const auto tell = [this] { QMetaObject::invokeMethod(this, &Analysis::fetch, Qt::QueuedConnection); };
    worker_ = std::make_unique<Worker>(tell);
    // Edits of one turn of the event loop are looked at together.
    settle_.setSingleShot(true);
    settle_.setInterval(0);
    connect(&settle_, &QTimer::timeout, this, &Analysis::start);
    slow_.setSingleShot(true);
    slow_.setInterval(worth_saying);
    connect(&slow_, &QTimer::timeout, this, &Analysis::linger);
    connect(&document_, &Document::changed, this, &Analysis::ask);
    connect(&document_, &Document::replaced, this, [this] {
        other_show_ = true;
        ask();
        linger();
    });
    connect(&document_, &Document::file_changed, this, [this] {
        if (document_.folder() != folder_) {
            ask();
        }
    });
    ask();
}

Analysis::~Analysis() = default;

bool Analysis::up_to_date() const {
    return result_->request == request_ && result_->revision == document_.revision() &&
           result_->sequence == document_.sequence().id;
}

bool Analysis::checked() const {
    return up_to_date() && result_->facts != nullptr;
}

void Analysis::linger() {
    if (!checked()) {
        lingers_ = true;
        emit lingering();
    }
}

std::shared_ptr<const AnalysisResult> Analysis::wait() {
    while (!up_to_date() || !result_->complete) {
        if (!worker_->busy()) {
            worker_->start(next_job());
        }
        worker_->wait_until_idle();
        take();
    }
    waiting_ = false;
    return result_;
}

Analysis::Job Analysis::next_job() {
    folder_ = document_.folder();
    return {document_.snapshot(),
            document_.revision(),
            request_,
            document_.sequence().id,
            as_path(folder_),
            units_,
            std::exchange(other_show_, false)};
}

void Analysis::set_units(UnitSystem units) {
    if (units != units_) {
        units_ = units;
        ask();
    }
}

void Analysis::ask() {
    ++request_;
    waiting_ = true;
    worker_->newer_waits = true;
    settle_.start();
    if (!slow_.isActive()) {
        slow_.start();
    }
}

void Analysis::start() {
    if (waiting_ && !worker_->busy()) {
        waiting_ = false;
        worker_->start(next_job());
    }
}

void Analysis::take() {
    if (auto fresh = worker_->fetch()) {
        result_ = std::move(fresh);
        if (checked()) {
            lingers_ = false;
            slow_.stop();
        }
        emit ready();
    }
}

void Analysis::fetch() {
    take();
    start();
}

}  // namespace gasp
