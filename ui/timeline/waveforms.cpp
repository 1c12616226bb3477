// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/waveforms.hpp"

#include "core/show/validity.hpp"

#include <QHash>
#include <QSet>
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

/// A stretch of a file's samples being read, or read. Shared with its worker thread.
struct Reading {
    std::int64_t first = 0;
    std::int64_t last = 0;
    std::atomic<bool> done = false;
    std::shared_ptr<const SoundWindow>
        window;  ///< null where it could not be read; not touched before `done`
};

void read(const std::filesystem::path& path, Reading& reading) {
    if (auto window = read_window(path, reading.first, reading.last - reading.first)) {
        reading.window = std::make_shared<const SoundWindow>(std::move(*window));
    }
    reading.done = true;
}

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

}  // namespace

struct Waveforms::Jobs {
    QString folder;
    QSet<QString> changed;  ///< files that are no longer what the show knows them by
    QHash<QString, std::shared_ptr<Job>> by_content;
    QHash<QString, std::shared_ptr<Reading>> readings;
    QThreadPool pool;
    QThreadPool reading_pool;
    QTimer tell;

    /// What a file is known by: its content, so that a moved file is not decoded again; its name where that
    /// is unknown.
    [[nodiscard]] QString key_of(const SoundClip& clip) const {
        const QString file = QString::fromStdString(clip.file);
        return clip.content.empty() || changed.contains(file) ? file : QString::fromStdString(clip.content);
    }
    [[nodiscard]] std::filesystem::path path_of(const std::string& file) const {
        return std::filesystem::path(folder.toStdString()) / std::filesystem::path(file);
    }
    [[nodiscard]] std::shared_ptr<Job> of(const SoundClip& clip) const {
        return by_content.value(key_of(clip));
    }
    [[nodiscard]] bool idle() const {
        const auto done = [](const auto& each) { return each->done.load(); };
        return std::ranges::all_of(by_content, done) && std::ranges::all_of(readings, done);
    }
    void cancel_all() {
        for (const auto& job : by_content) {
            job->cancel = true;
        }
        for (QThreadPool* each : {&pool, &reading_pool}) {
            each->clear();
            each->waitForDone();
        }
        readings.clear();
    }
};

Waveforms::Waveforms(QObject* parent) : QObject(parent), jobs_(std::make_unique<Jobs>()) {
    // The builder splits a file among threads of its own; files follow one another.
    jobs_->pool.setMaxThreadCount(1);
    jobs_->reading_pool.setMaxThreadCount(1);
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
        jobs_->changed.clear();
        jobs_->folder = folder;
    }
}

std::shared_ptr<const PeakPyramid> Waveforms::peaks(const SoundClip& clip) {
    std::shared_ptr<Job> job = jobs_->of(clip);
    const std::filesystem::path path = jobs_->path_of(clip.file);
    if (!job || (job->failed() && job->path != path)) {
        job = std::make_shared<Job>();
        jobs_->by_content.insert(jobs_->key_of(clip), job);
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

std::shared_ptr<const SoundWindow> Waveforms::samples(const SoundClip& clip, std::int64_t first,
                                                      std::int64_t last) {
    std::shared_ptr<Reading>& kept = jobs_->readings[jobs_->key_of(clip)];
    if (kept && kept->first <= first && kept->last >= last) {
        return kept->done ? kept->window : nullptr;
    }
    if (!stays_inside(clip.file) || (kept && !kept->done)) {
        return nullptr;  // what is asked for now is asked for again when that is there
    }
    kept = std::make_shared<Reading>();
    const std::int64_t beside = (last - first) / 2;
    kept->first = std::max<std::int64_t>(0, first - beside);
    kept->last = last + beside;
    const std::filesystem::path path = jobs_->path_of(clip.file);
    jobs_->reading_pool.start([path, reading = kept] { read(path, *reading); });
    jobs_->tell.start();
    return nullptr;
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

void Waveforms::read_anew(const QString& file) {
    jobs_->changed.insert(file);
    jobs_->readings.remove(file);
    // A job of the old content is done with where it was whole: another file may hold the same.
    const std::filesystem::path path = jobs_->path_of(file.toStdString());
    jobs_->by_content.removeIf([&](const auto& entry) {
        const std::shared_ptr<Job>& job = entry.value();
        const bool stale = entry.key() == file || (job->path == path && !job->done);
        if (stale) {
            job->cancel = true;
        }
        return stale;
    });
    emit progressed(progress());
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
