// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/document.hpp"

#include <QFileSystemWatcher>
#include <QHash>
#include <QObject>
#include <QStringList>
#include <QTimer>

namespace gasp {

/// Watches the sound files of the open show and tells which have become others on the disk: written anew,
/// replaced, taken away, put back. A file still being written is told of once it rests.
class SoundWatch : public QObject {
    Q_OBJECT

  public:
    explicit SoundWatch(Document& document, QObject* parent = nullptr);

  signals:
    /// The files, as clips name them.
    void changed(const QStringList& files);

  private:
    /// What tells one state of a file from the next; all 0 where there is none.
    struct Stamp {
        qint64 bytes = 0;
        qint64 written = 0;
        bool operator==(const Stamp&) const = default;
    };
    [[nodiscard]] Stamp stamp_of(const QString& file) const;
    void follow_show();
    void watch();
    void look();

    Document& document_;
    QString folder_;
    QHash<QString, Stamp> known_;  ///< by the name that clips have for it
    QFileSystemWatcher watcher_;
    QTimer follow_;
    QTimer look_;
};

}  // namespace gasp
