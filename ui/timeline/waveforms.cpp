// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/waveforms.hpp"

#include "core/show/validity.hpp"

#include <QHash>
#include <QThreadPool>
#include <QTimer>

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <mutex>

namespace gasp {

namespace {

constexpr int tell_every_ms = 50;

/// One file being decoded, or decoded. Shared with its worker thread.
struct Job {
    std::filesystem::path path;
    std::atomic<bool> cancel = false;
    std::atomic<double> share = 0.0;
    std::atomic<bool> done = false;
    std::mutex mutex;
    std::shared_ptr<const PeakPyramid> pyramid;
    QString problem;

    [[nodiscard]] bool failed() {
        const std::lock_guard lock(mutex);
        return done && !problem.isEmpty();
    }
};

/// Without the path: it is written on the clip, beside the file's name.
QString words_of(const Error& error) {
    return QString::fromStdString(Error{error.what, {}, error.remedy}.text());
}

void decode(const std::shared_ptr<Job>& job) {
    auto builder = PeakBuilder::open(job->path, {});
    if (builder) {
        {
            const std::lock_guard lock(job->mutex);
            job->pyramid = builder->pyramid();
        }
        const auto built = builder->build(job->cancel, [&job](double share) { job->share = share; });
        if (!built && !job->cancel) {
            const std::lock_guard lock(job->mutex);
            job->problem = words_of(built.error());
        }
    } else {
        const std::lock_guard lock(job->mutex);
        job->problem = words_of(builder.error());
    }
    job->share = 1.0;
    job->done = true;
}

/// What a file is known by: its content, so that a moved file is not decoded again; its name where that is
/// unknown.
QString key_of(const SoundClip& clip) {
    return QString::fromStdString(clip.content.empty() ? clip.file : clip.content);
}

}  // namespace

struct Waveforms::Jobs {
    QString folder;
    QHash<QString, std::shared_ptr<Job>> by_content;
    QThreadPool pool;
    QTimer tell;

    [[nodiscard]] std::shared_ptr<Job> of(const SoundClip& clip) const {
        return by_content.value(key_of(clip));
    }
    [[nodiscard]] bool idle() const {
        return std::all_of(by_content.begin(), by_content.end(),
                           [](const auto& job) { return job->done.load(); });
    }
    void cancel_all() {
        for (const auto& job : by_content) {
            job->cancel = true;
        }
        pool.clear();
        pool.waitForDone();
    }
};

Waveforms::Waveforms(QObject* parent) : QObject(parent), jobs_(std::make_unique<Jobs>()) {
    // The builder splits a file among threads of its own; files follow one another.
    jobs_->pool.setMaxThreadCount(1);
    jobs_->tell.setInterval(tell_every_ms);
    connect(&jobs_->tell, &QTimer::timeout, this, [this] {
        emit progressed(progress());
        if (jobs_->idle()) {
            jobs_->tell.stop();
            emit finished();
        }
    });
}

Waveforms::~Waveforms() {
    jobs_->cancel_all();
}

void Waveforms::set_folder(const QString& folder) {
    if (folder != jobs_->folder) {
        cancel();
        jobs_->folder = folder;
    }
}

std::shared_ptr<const PeakPyramid> Waveforms::peaks(const SoundClip& clip) {
    std::shared_ptr<Job> job = jobs_->of(clip);
    const std::filesystem::path path =
        std::filesystem::path(jobs_->folder.toStdString()) / std::filesystem::path(clip.file);
    if (!job || (job->failed() && job->path != path)) {
        job = std::make_shared<Job>();
        jobs_->by_content.insert(key_of(clip), job);
        if (stays_inside(clip.file)) {
            job->path = path;
            jobs_->pool.start([job] { decode(job); });
        } else {
            job->problem = tr("The sound file is outside the folder of the show");
            job->done = true;
        }
        jobs_->tell.start();
    }
    const std::lock_guard lock(job->mutex);
    return job->pyramid;
}

QString Waveforms::problem(const SoundClip& clip) const {
    const std::shared_ptr<Job> job = jobs_->of(clip);
    if (!job) {
        return {};
    }
    const std::lock_guard lock(job->mutex);
    return job->problem;
}

void Waveforms::look_again() {
    if (jobs_->by_content.removeIf([](const auto& entry) { return entry.value()->failed(); }) > 0) {
        emit progressed(progress());
    }
}

double Waveforms::progress() const {
    double sum = 0.0;
    int building = 0;
    for (const auto& job : jobs_->by_content) {
        if (!job->done) {
            sum += job->share;
            ++building;
        }
    }
    return building == 0 ? 1.0 : sum / building;
}

void Waveforms::cancel() {
    jobs_->cancel_all();
    jobs_->by_content.clear();
    jobs_->tell.stop();
    emit finished();
}

}  // namespace gasp
