// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/sound_import.hpp"

#include "core/show/validity.hpp"
#include "core/sound/clip.hpp"
#include "core/sound/gather.hpp"
#include "ui/editor/file_path.hpp"

#include <QDir>
#include <QFileInfo>

#include <filesystem>
#include <utility>

namespace gasp {
namespace {

/// The name relative to the folder, or empty when the file is not below it.
QString name_below(const QString& file, const QString& folder) {
    const QString name =
        QDir(QFileInfo(folder).canonicalFilePath()).relativeFilePath(QFileInfo(file).canonicalFilePath());
    return stays_inside(name.toStdString()) ? name : QString();
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
        const Result<PutSound> put = put_sound(as_path(file), clip->content, as_path(imported.folder),
                                               QFileInfo(file).fileName().toStdString(), cancel);
        if (!put) {
            return tl::unexpected(put.error());
        }
        imported.copied = put->copied;
        name = QString::fromStdString(put->name);
    }
    imported.clip = std::move(*clip);
    imported.clip.file = name.toStdString();
    return imported;
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
