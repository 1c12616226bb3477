// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/sound_import.hpp"

#include "core/show/edits.hpp"
#include "core/show/validity.hpp"
#include "core/sound/clip.hpp"
#include "core/sound/sound_file.hpp"
#include "ui/editor/file_path.hpp"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QSaveFile>

#include <filesystem>
#include <map>
#include <utility>

namespace gasp {
namespace {

constexpr qint64 copy_chunk = 1 << 20;

/// The name relative to the folder, or empty when the file is not below it.
QString name_below(const QString& file, const QString& folder) {
    const QString name =
        QDir(QFileInfo(folder).canonicalFilePath()).relativeFilePath(QFileInfo(file).canonicalFilePath());
    return stays_inside(name.toStdString()) ? name : QString();
}

Result<void> copy_whole(const QString& from, const QString& to, const std::atomic<bool>& cancel) {
    QFile source(from);
    QSaveFile target(to);
    if (!source.open(QIODevice::ReadOnly)) {
        return fail("the sound cannot be read: " + source.errorString().toStdString(), from.toStdString(),
                    "Check that the file is there and may be read");
    }
    if (!QDir().mkpath(QFileInfo(to).absolutePath()) || !target.open(QIODevice::WriteOnly)) {
        return fail("the sound cannot be copied beside the show: " + target.errorString().toStdString(),
                    to.toStdString(), "Save the show in a folder that may be written to, then add the sound");
    }
    while (!source.atEnd()) {
        const QByteArray chunk = source.read(copy_chunk);
        if (cancel) {
            return fail("cancelled", from.toStdString());
        }
        if (chunk.isEmpty() || target.write(chunk) != chunk.size()) {
            const QString why = chunk.isEmpty() ? source.errorString() : target.errorString();
            return fail("the copy beside the show failed: " + why.toStdString(), to.toStdString(),
                        "Make room on the disk, then add the sound again");
        }
    }
    if (!target.commit()) {
        return fail("the copy beside the show failed: " + target.errorString().toStdString(),
                    to.toStdString(), "Make room on the disk, then add the sound again");
    }
    return {};
}

/// The first of "name.wav", "name 2.wav"... in the folder that is free or already holds this content.
struct Spot {
    QString name;
    bool there = false;
};

Spot spot_for(const QString& folder, const QString& wanted, const std::string& content) {
    const QFileInfo info(wanted);
    const QString base =
        info.path() == "." ? info.completeBaseName() : info.path() + '/' + info.completeBaseName();
    const QString ending = info.suffix().isEmpty() ? QString() : '.' + info.suffix();
    for (int number = 1;; ++number) {
        const QString name =
            number == 1 ? wanted : QStringLiteral("%1 %2%3").arg(base).arg(number).arg(ending);
        const QString path = QDir(folder).filePath(name);
        if (!QFileInfo::exists(path)) {
            return {name, false};
        }
        if (const auto other = content_of(as_path(path)); other && *other == content) {
            return {name, true};
        }
    }
}

/// Copies one sound to the same place below another folder; the name it has there.
Result<QString> gather_one(const QString& name, const QString& from, const QString& to) {
    const std::atomic<bool> never = false;
    const QString source = QDir(from).filePath(name);
    const auto content = content_of(as_path(source));
    if (!content) {
        return name;
    }
    const Spot spot = spot_for(to, name, *content);
    if (!spot.there) {
        if (auto copied = copy_whole(source, QDir(to).filePath(spot.name), never); !copied) {
            return tl::unexpected(copied.error());
        }
    }
    return spot.name;
}

}  // namespace

Result<ImportedSound> import_sound(const QString& file, const QString& folder,
                                   const std::atomic<bool>& cancel) {
    auto clip = whole_clip(as_path(file), QFileInfo(file).fileName().toStdString());
    if (!clip) {
        return tl::unexpected(clip.error());
    }
    if (cancel) {
        return fail("cancelled", file.toStdString());
    }
    ImportedSound imported;
    imported.folder = folder.isEmpty() ? QFileInfo(file).absolutePath() : folder;
    QString name = name_below(file, imported.folder);
    if (name.isEmpty()) {
        const Spot spot = spot_for(imported.folder, QFileInfo(file).fileName(), clip->content);
        if (!spot.there) {
            if (auto copied = copy_whole(file, QDir(imported.folder).filePath(spot.name), cancel); !copied) {
                return tl::unexpected(copied.error());
            }
            imported.copied = true;
        }
        name = spot.name;
    }
    imported.clip = std::move(*clip);
    imported.clip.file = name.toStdString();
    return imported;
}

Result<Edit> gather_sounds(const Show& show, const QString& from, const QString& to) {
    Edit renaming;
    renaming.sentence = "rename sounds copied beside the show";
    if (from.isEmpty() || QFileInfo(from).canonicalFilePath() == QFileInfo(to).canonicalFilePath()) {
        return renaming;
    }
    std::map<std::string, std::string> names;
    for (const Sequence& sequence : show.sequences) {
        for (SoundClip clip : sequence.clips) {
            const auto [entry, fresh] = names.try_emplace(clip.file, clip.file);
            if (fresh) {
                auto name = gather_one(QString::fromStdString(clip.file), from, to);
                if (!name) {
                    return tl::unexpected(name.error());
                }
                entry->second = name->toStdString();
            }
            clip.file = entry->second;
            const Edit one = set_clip(show, sequence.id, clip);
            renaming.changes.insert(renaming.changes.end(), one.changes.begin(), one.changes.end());
        }
    }
    return renaming;
}

bool looks_like_sound(const QString& file) {
    return named_like_sound(as_path(file));
}

QString sound_filter() {
    QStringList patterns;
    for (const std::string_view ending : sound_endings()) {
        patterns << "*." + QString::fromLatin1(ending.data(), static_cast<qsizetype>(ending.size()));
    }
    return QStringLiteral("Sound (%1);;All files (*)").arg(patterns.join(' '));
}

}  // namespace gasp
