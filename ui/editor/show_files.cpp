// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/show_files.hpp"

#include "core/file/show_file.hpp"
#include "core/show/edits.hpp"
#include "core/sound/clip.hpp"
#include "core/sound/gather.hpp"
#include "ui/editor/file_path.hpp"
#include "ui/editor/sound_import.hpp"

#include <QFileInfo>
#include <QFutureWatcher>
#include <QtConcurrentRun>

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <utility>
#include <vector>

namespace gasp {
namespace {

QString name_of(const QString& path) {
    return QFileInfo(path).fileName();
}

/// Everything an edit needs of a document that is changed step by step, as one step at the end.
class Steps {
  public:
    explicit Steps(const Show& show) : show_(show) {}
    [[nodiscard]] const Show& show() const { return show_; }
    void add(const Edit& edit) {
        apply(edit, show_);
        whole_ = whole_.empty() ? edit : joined(whole_, edit);
    }
    [[nodiscard]] Edit take(std::string sentence) {
        whole_.sentence = std::move(sentence);
        return std::move(whole_);
    }

  private:
    Show show_;
    Edit whole_;
};

}  // namespace

struct ShowFiles::Job {
    std::atomic<bool> cancelled = false;
};

ShowFiles::ShowFiles(Document& document, Settings& settings, QObject* parent)
    : QObject(parent), document_(document), settings_(settings) {}

ShowFiles::~ShowFiles() {
    cancel();
}

/// `work(cancelled)` runs on a worker thread and gives a Result; `then` takes its value on this one.
template <class Work, class Then>
void ShowFiles::start(const QString& what, Work work, Then then) {
    using Outcome = decltype(work(std::declval<const std::atomic<bool>&>()));
    cancel();
    job_ = std::make_shared<Job>();
    busy_ = what;
    emit busy_changed();
    auto* watcher = new QFutureWatcher<std::shared_ptr<Outcome>>(this);
    connect(watcher, &QFutureWatcherBase::finished, this, [this, watcher, job = job_, then] {
        watcher->deleteLater();
        if (job->cancelled) {
            return;
        }
        finish();
        const std::shared_ptr<Outcome> outcome = watcher->result();
        if (*outcome) {
            then(**outcome);
        } else {
            emit failed(outcome->error());
        }
    });
    watcher->setFuture(QtConcurrent::run(
        [work, job = job_] { return std::make_shared<Outcome>(work(std::as_const(job->cancelled))); }));
}

void ShowFiles::finish() {
    job_.reset();
    busy_.clear();
    emit busy_changed();
}

void ShowFiles::cancel() {
    if (job_) {
        job_->cancelled = true;
        finish();
    }
}

bool ShowFiles::untouched() const {
    return document_.path().isEmpty() && !document_.modified() && document_.show() == empty_show();
}

void ShowFiles::start_new() {
    cancel();
    document_.reset(empty_show(), {});
}

void ShowFiles::open(const QString& path) {
    if (looks_like_sound(path)) {
        start_new();
        add_sounds({path}, Micros{0});
        return;
    }
    const QString absolute = QFileInfo(path).absoluteFilePath();
    start(
        QStringLiteral("Reading %1").arg(name_of(path)),
        [absolute](const std::atomic<bool>&) { return load_show(as_path(absolute)); },
        // Looked at before it is read: what changes it meanwhile is noticed.
        [this, absolute, known = look_at(absolute)](Show& show) {
            known_ = known;
            document_.reset(std::move(show), absolute);
            settings_.add_recent(absolute);
            settings_.set_last_folder(QFileInfo(absolute).absolutePath());
            emit opened();
        });
}

bool ShowFiles::write(const QString& path) {
    document_.commit_preview();
    if (auto written = save_show(document_.show(), as_path(path)); !written) {
        emit not_saved(written.error());
        return false;
    }
    document_.mark_saved(path);
    known_ = look_at(path);
    settings_.add_recent(path);
    settings_.set_last_folder(QFileInfo(path).absolutePath());
    emit saved();
    emit said(QStringLiteral("Saved %1").arg(name_of(path)));
    return true;
}

ShowFiles::Known ShowFiles::look_at(const QString& path) {
    const QFileInfo file(path);
    return {path, file.lastModified(), file.size()};
}

bool ShowFiles::is_as_known(const QString& path) const {
    // A file that was never read here, as that of a recovered show, has nothing it could be compared with.
    return known_.path != path || !QFileInfo::exists(path) || look_at(path) == known_;
}

bool ShowFiles::save(Over over) {
    if (over != Over::anything && !is_as_known(document_.path())) {
        emit changed_elsewhere(document_.path());
        return false;
    }
    return write(document_.path());
}

bool ShowFiles::take_sounds_to(const QString& folder) {
    if (document_.folder().isEmpty()) {
        return true;  // it never had a sound
    }
    const std::atomic<bool> never = false;
    const auto gathered =
        gather_sounds(document_.show(), as_path(document_.folder()), as_path(folder), never);
    if (!gathered) {
        emit not_saved(gathered.error());
        return false;
    }
    document_.perform(gathered->renaming);
    return true;
}

bool ShowFiles::save_as(const QString& path) {
    QString absolute = QFileInfo(path).absoluteFilePath();
    if (QFileInfo(absolute).suffix().isEmpty()) {
        absolute += ".gasp";
    }
    if (looks_like_sound(absolute)) {
        emit not_saved({"this is the name of a sound, and a show would replace it", absolute.toStdString(),
                        "Choose a name that ends in .gasp"});
        return false;
    }
    if (!take_sounds_to(QFileInfo(absolute).absolutePath())) {
        return false;
    }
    return write(absolute);
}

void ShowFiles::add_sounds(const QStringList& files, Micros at) {
    const QString what =
        files.size() == 1 ? name_of(files.front()) : QStringLiteral("%1 sounds").arg(files.size());
    const QString folder = document_.folder();
    start(
        QStringLiteral("Adding %1").arg(what),
        [files, folder](const std::atomic<bool>& cancelled) -> Result<std::vector<ImportedSound>> {
            std::vector<ImportedSound> sounds;
            QString into = folder;
            for (const QString& file : files) {
                auto sound = import_sound(file, into, cancelled);
                if (!sound) {
                    return tl::unexpected(sound.error());
                }
                into = sound->folder;
                sounds.push_back(std::move(*sound));
            }
            return sounds;
        },
        [this, at](const std::vector<ImportedSound>& sounds) { place(sounds, at); });
}

void ShowFiles::choose_sound_file(const std::string& file, const QString& chosen) {
    const QString folder = document_.folder();
    start(
        QStringLiteral("Adding %1").arg(name_of(chosen)),
        [chosen, folder](const std::atomic<bool>& cancelled) {
            return import_sound(chosen, folder, cancelled);
        },
        [this, file](const ImportedSound& sound) { put_for(file, sound); });
}

void ShowFiles::put_for(const std::string& file, const ImportedSound& sound) {
    Steps steps(document_.show());
    for (const Sequence& sequence : document_.show().sequences) {
        for (SoundClip clip : sequence.clips) {
            if (clip.file == file) {
                clip.file = sound.clip.file;
                clip.content = sound.clip.content;
                clip.file_length = sound.clip.file_length;
                clip.from = clip.from < clip.file_length ? clip.from : Micros{0};
                clip.length = std::min(clip.length, clip.file_length - clip.from);
                steps.add(set_clip(steps.show(), sequence.id, clip));
            }
        }
    }
    const QString name = QString::fromStdString(sound.clip.file);
    document_.perform(steps.take("take " + sound.clip.file + " for " + file));
    emit said(QStringLiteral("Took %1 for %2").arg(name, QString::fromStdString(file)));
}

void ShowFiles::place(const std::vector<ImportedSound>& sounds, Micros at) {
    const bool begins = untouched();
    if (document_.folder().isEmpty()) {
        document_.set_folder(sounds.front().folder);
    }
    const SequenceId sequence = document_.sequence().id;
    Steps steps(document_.show());
    for (const ImportedSound& sound : sounds) {
        SoundClip clip = sound.clip;
        clip.start = at;
        at += clip.length;
        steps.add(add_clip(steps.show(), sequence, std::move(clip)));
    }
    const QString first = QString::fromStdString(sounds.front().clip.file);
    if (begins) {
        steps.add(take_name_and_length_of_sound(steps.show(), sequence));
    }
    document_.perform(steps.take("add " + name_of(first).toStdString()));
    const auto copied =
        std::count_if(sounds.begin(), sounds.end(), [](const auto& sound) { return sound.copied; });
    if (copied > 0) {
        emit said(QStringLiteral("Added %1; copied into the show's folder").arg(name_of(first)));
    } else {
        emit said(QStringLiteral("Added %1").arg(name_of(first)));
    }
}

}  // namespace gasp
