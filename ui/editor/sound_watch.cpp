// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/sound_watch.hpp"

#include "core/show/validity.hpp"
#include "ui/editor/file_path.hpp"

#include <QDir>
#include <QFileInfo>
#include <QSet>

#include <filesystem>
#include <system_error>

namespace gasp {

namespace {

/// During a drag the show changes with every picture.
constexpr int follow_after_ms = 200;
/// So long a file must stay as it is to count as written.
constexpr int rest_ms = 300;

}  // namespace

SoundWatch::SoundWatch(Document& document, QObject* parent) : QObject(parent), document_(document) {
    follow_.setSingleShot(true);
    look_.setSingleShot(true);
    connect(&follow_, &QTimer::timeout, this, &SoundWatch::follow_show);
    connect(&look_, &QTimer::timeout, this, &SoundWatch::look);
    const auto something_changed = [this] { look_.start(rest_ms); };
    connect(&watcher_, &QFileSystemWatcher::fileChanged, this, something_changed);
    // A file that is replaced by another under its name is lost to the watcher, one that is missing never
    // was in it: their folders tell.
    connect(&watcher_, &QFileSystemWatcher::directoryChanged, this, something_changed);
    const auto show_changed = [this] {
        if (!follow_.isActive()) {
            follow_.start(follow_after_ms);
        }
    };
    connect(&document_, &Document::changed, this, show_changed);
    connect(&document_, &Document::replaced, this, show_changed);
    connect(&document_, &Document::file_changed, this, show_changed);
    follow_show();
}

SoundWatch::Stamp SoundWatch::stamp_of(const QString& file) const {
    std::error_code error;
    const std::filesystem::path path = as_path(folder_) / as_path(file);
    const auto bytes = std::filesystem::file_size(path, error);
    if (error) {
        return {};
    }
    const auto written = std::filesystem::last_write_time(path, error);
    return {static_cast<qint64>(bytes), error ? 0 : written.time_since_epoch().count()};
}

void SoundWatch::follow_show() {
    if (document_.folder() != folder_) {
        folder_ = document_.folder();
        known_.clear();
    }
    QHash<QString, Stamp> known;
    for (const Sequence& sequence : document_.show().sequences) {
        for (const SoundClip& clip : sequence.clips) {
            const QString file = QString::fromStdString(clip.file);
            if (!folder_.isEmpty() && stays_inside(clip.file) && !known.contains(file)) {
                known.insert(file, known_.contains(file) ? known_.value(file) : stamp_of(file));
            }
        }
    }
    known_ = std::move(known);
    watch();
}

/// Files and folders that are there and wanted, and no others.
void SoundWatch::watch() {
    QSet<QString> wanted;
    for (auto file = known_.keyBegin(); file != known_.keyEnd(); ++file) {
        const QFileInfo info(QDir(folder_).filePath(*file));
        for (const QString& path : {info.absoluteFilePath(), info.absolutePath()}) {
            if (QFileInfo::exists(path)) {
                wanted.insert(path);
            }
        }
    }
    const QStringList watched_paths = watcher_.files() + watcher_.directories();
    const QSet<QString> watched(watched_paths.begin(), watched_paths.end());
    if (const QSet<QString> fresh = wanted - watched; !fresh.isEmpty()) {
        watcher_.addPaths(fresh.values());
    }
    if (const QSet<QString> old = watched - wanted; !old.isEmpty()) {
        watcher_.removePaths(old.values());
    }
}

void SoundWatch::look() {
    QStringList others;
    for (auto file = known_.begin(); file != known_.end(); ++file) {
        if (const Stamp now = stamp_of(file.key()); now != file.value()) {
            file.value() = now;
            others << file.key();
        }
    }
    watch();
    if (!others.isEmpty()) {
        others.sort();
        emit changed(others);
    }
}

}  // namespace gasp
