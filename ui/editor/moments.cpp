// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/moments.hpp"

#include "core/show/validity.hpp"
#include "ui/editor/thread_priority.hpp"

#include <QHash>
#include <QSet>
#include <QThreadPool>
#include <QTimer>

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <optional>

namespace gasp {

namespace {

constexpr int listen_after_ms = 250;

void sort_by_time(std::vector<SoundMoment>& moments) {
    std::ranges::stable_sort(moments, {}, &SoundMoment::time);
}

/// Moments in the file's own time, which no clip has cut yet.
std::vector<SoundMoment> moments_in(const Heard& heard, const WordOptions& options) {
    std::vector<SoundMoment> moments;
    for (const Micros onset : heard.onsets) {
        moments.push_back({onset, MomentKind::onset});
    }
    if (const auto words = words_of(heard.envelope, options)) {
        for (const Word& word : *words) {
            moments.push_back({word.begin, MomentKind::word});
            moments.push_back({word.end, MomentKind::pause});
        }
    }
    if (const auto loudest = loudest_of(heard.envelope)) {
        moments.push_back({loudest->time, MomentKind::loudest});
    }
    sort_by_time(moments);
    return moments;
}

}  // namespace

/// One file being listened to. Shared with its worker thread, which alone touches `heard` until it is done.
struct Moments::Ear {
    std::filesystem::path path;
    OnsetOptions options;
    std::atomic<bool> cancel = false;
    std::atomic<bool> done = false;
    Heard heard;
    std::vector<SoundMoment> moments;       ///< in it, in the file's own time
    std::optional<WordOptions> moments_by;  ///< empty: not looked for yet
};

struct Moments::Parts {
    QString folder;
    QSet<QString> changed;  ///< files that are no longer what the show knows them by
    MomentOptions options;
    QHash<QString, std::shared_ptr<Ear>> ears;
    QThreadPool pool;
    std::vector<SoundClip> shown_of;  ///< the clips that `shown` was made from
    std::vector<SoundMoment> shown;

    void cancel_all() {
        for (const auto& ear : ears) {
            ear->cancel = true;
        }
        pool.clear();
        pool.waitForDone();
        ears.clear();
        shown_of.clear();
    }
};

Moments::Moments(QObject* parent) : QObject(parent), parts_(std::make_unique<Parts>()) {
    // One file after the other: the waveforms, which are waited for, come first.
    parts_->pool.setMaxThreadCount(1);
}

Moments::~Moments() {
    parts_->cancel_all();
}

void Moments::set_folder(const QString& folder) {
    if (folder != parts_->folder) {
        parts_->cancel_all();
        parts_->changed.clear();
        parts_->folder = folder;
        emit changed();
    }
}

const MomentOptions& Moments::options() const {
    return parts_->options;
}

void Moments::set_options(const MomentOptions& options) {
    if (options == parts_->options) {
        return;
    }
    const bool same_moments = options.words == parts_->options.words &&
                              options.shown == parts_->options.shown &&
                              options.onsets == parts_->options.onsets;
    if (options.onsets != parts_->options.onsets) {
        parts_->cancel_all();
    }
    parts_->options = options;
    if (same_moments) {
        return;
    }
    parts_->shown_of.clear();
    emit changed();
}

Moments::Ear& Moments::ear_of(const SoundClip& clip) {
    const QString file = QString::fromStdString(clip.file);
    const bool by_name = clip.content.empty() || parts_->changed.contains(file);
    const QString key = by_name ? file : QString::fromStdString(clip.content);
    std::shared_ptr<Ear>& ear = parts_->ears[key];
    if (ear) {
        return *ear;
    }
    ear = std::make_shared<Ear>();
    ear->path = std::filesystem::path(parts_->folder.toStdString()) / clip.file;
    ear->options = parts_->options.onsets;
    if (!stays_inside(clip.file)) {
        ear->done = true;
        return *ear;
    }
    // Not beside the window's first picture, which asks for the moments.
    QTimer::singleShot(listen_after_ms, this, [this, ear = ear] {
        if (ear->cancel) {
            return;
        }
        parts_->pool.start([this, ear] {
            stand_back();
            if (auto heard = listen(ear->path, ear->options, ear->cancel, {})) {
                ear->heard = std::move(*heard);
            }
            ear->done = true;
            QMetaObject::invokeMethod(this, [this] {
                parts_->shown_of.clear();
                emit changed();
            });
        });
    });
    return *ear;
}

const Heard* Moments::heard(const SoundClip& clip) {
    const Ear& ear = ear_of(clip);
    return ear.done && !ear.heard.envelope.dbfs.empty() ? &ear.heard : nullptr;
}

std::vector<SoundMoment> Moments::of(const SoundClip& clip) {
    Ear& ear = ear_of(clip);
    if (!ear.done) {
        return {};
    }
    if (ear.moments_by != parts_->options.words) {
        ear.moments = moments_in(ear.heard, parts_->options.words);
        ear.moments_by = parts_->options.words;
    }
    std::vector<SoundMoment> moments = ear.moments;
    std::erase_if(moments, [&](const SoundMoment& moment) {
        return moment.time < clip.from || moment.time > clip.from + clip.length;
    });
    for (SoundMoment& moment : moments) {
        moment.time += clip.start - clip.from;
    }
    return moments;
}

const std::vector<SoundMoment>& Moments::shown(const Sequence& sequence) {
    if (!parts_->options.shown) {
        parts_->shown.clear();
        parts_->shown_of.clear();
        return parts_->shown;
    }
    if (parts_->shown_of != sequence.clips || sequence.clips.empty()) {
        std::vector<SoundMoment> all;
        for (const SoundClip& clip : sequence.clips) {
            std::ranges::copy(of(clip), std::back_inserter(all));
        }
        sort_by_time(all);
        parts_->shown = std::move(all);
        parts_->shown_of = sequence.clips;
    }
    return parts_->shown;
}

void Moments::listen_anew(const QString& file) {
    parts_->changed.insert(file);
    if (const std::shared_ptr<Ear> ear = parts_->ears.take(file)) {
        ear->cancel = true;
    }
    parts_->shown_of.clear();
    emit changed();
}

bool Moments::listening() const {
    return std::any_of(parts_->ears.begin(), parts_->ears.end(), [](const auto& ear) { return !ear->done; });
}

}  // namespace gasp
