// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/recovery_keeper.hpp"

#include "ui/editor/file_path.hpp"

#include <QStandardPaths>
#include <QtConcurrentRun>

#include <utility>

namespace gasp {
namespace {

/// Where the document belongs: its file, or for one that was never saved the folder of its sounds, with a
/// separator at the end.
std::filesystem::path origin_of(const Document& document) {
    if (!document.path().isEmpty()) {
        return as_path(document.path());
    }
    return document.folder().isEmpty() ? std::filesystem::path() : as_path(document.folder()) / "";
}

}  // namespace

RecoveryKeeper::RecoveryKeeper(Document& document, std::filesystem::path folder, QObject* parent)
    : QObject(parent), document_(document), folder_(std::move(folder)) {
    timer_.setInterval(interval);
    connect(&timer_, &QTimer::timeout, this, &RecoveryKeeper::keep);
    connect(&document_, &Document::file_changed, this, &RecoveryKeeper::forget_if_saved);
    timer_.start();
}

RecoveryKeeper::~RecoveryKeeper() {
    writing_.waitForFinished();
    static_cast<void>(discard_own_recovery(folder_));
}

std::filesystem::path RecoveryKeeper::usual_folder() {
    return as_path(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation)) / "recovery";
}

std::vector<Recovery> RecoveryKeeper::offers() const {
    return find_recoveries(folder_);
}

Result<void> RecoveryKeeper::take(const Recovery& recovery) {
    writing_.waitForFinished();
    static_cast<void>(discard_own_recovery(folder_));
    auto show = take_recovery(recovery);
    if (!show) {
        return tl::unexpected(show.error());
    }
    const bool has_file = recovery.original.has_filename();
    const QString original = QString::fromStdU16String(recovery.original.u16string());
    document_.reset(std::move(*show), has_file ? original : QString());
    if (!has_file && !original.isEmpty()) {
        document_.set_folder(QString::fromStdU16String(recovery.original.parent_path().u16string()));
    }
    document_.mark_unsaved();
    kept_ = true;
    kept_revision_ = document_.revision();
    return {};
}

void RecoveryKeeper::keep() {
    if (!document_.modified() || document_.revision() == kept_revision_ || writing_.isRunning()) {
        return;
    }
    kept_ = true;
    kept_revision_ = document_.revision();
    writing_ = QtConcurrent::run([show = document_.snapshot(), origin = origin_of(document_),
                                  folder = folder_] { return save_recovery(*show, origin, folder); });
    writing_.then(this, [this](const Result<void>& written) {
        if (!written && !std::exchange(failing_, true)) {
            emit failed(written.error());
        }
        if (written) {
            if (std::exchange(failing_, false)) {
                emit works_again();
            }
        } else {
            kept_revision_ = 0;
        }
    });
}

void RecoveryKeeper::keep_now() {
    writing_.waitForFinished();
    keep();
    writing_.waitForFinished();
}

void RecoveryKeeper::forget_if_saved() {
    if (kept_ && !document_.modified()) {
        writing_.waitForFinished();
        static_cast<void>(discard_own_recovery(folder_));
        kept_ = false;
        kept_revision_ = 0;
    }
}

}  // namespace gasp
