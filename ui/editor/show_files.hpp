// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"
#include "core/units/time.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"

#include <QDateTime>
#include <QObject>
#include <QString>
#include <QStringList>

#include <memory>
#include <string>

namespace gasp {

/// Opening, saving and adding sound, without a widget. Reading is done in the background, one job at a time;
/// saving is done at once, for it is quick and must be over before a window closes. Window thread.
class ShowFiles : public QObject {
    Q_OBJECT

  public:
    ShowFiles(Document& document, Settings& settings, QObject* parent = nullptr);
    ~ShowFiles() override;

    /// Replaces the open show when the file has been read; an error leaves the open one as it is. A sound
    /// file begins a new show with it. What is unsaved is lost: ask first.
    void open(const QString& path);
    void start_new();
    /// Saves under the document's path; not where its file is no longer as it was last read or saved here,
    /// unless that is to be saved over. Requires: it has one.
    enum class Over { only_what_is_known, anything };
    bool save(Over over = Over::only_what_is_known);
    /// Saves under another path, its sounds copied beside it; ".gasp" is added where it has no ending.
    bool save_as(const QString& path);

    /// Adds sounds to the sequence looked at, the first at a moment, the others each after the last. An
    /// untouched new show begins with them: it takes the first one's name, and its sequence their length.
    void add_sounds(const QStringList& files, Micros at);

    /// Takes another file for a sound, in every clip that plays it: the same recording found elsewhere, or a
    /// new take. Clips keep their places, and are shortened where the file is.
    void choose_sound_file(const std::string& file, const QString& chosen);

    /// What is going on, as "Reading keeper.gasp"; empty when idle.
    [[nodiscard]] const QString& busy() const { return busy_; }
    /// Drops the job going on; the show stays as it was.
    void cancel();

    /// Nothing of this show was ever made by the user.
    [[nodiscard]] bool untouched() const;

  signals:
    void opened();
    void saved();
    void failed(const gasp::Error& error);
    void not_saved(const gasp::Error& error);     ///< until `saved`
    void changed_elsewhere(const QString& path);  ///< since it was read or saved here; so it was not saved
    void said(const QString& sentence);           ///< for the status line
    void busy_changed();

  private:
    struct Job;
    template <class Work, class Then>
    void start(const QString& what, Work work, Then then);
    void finish();
    void place(const std::vector<struct ImportedSound>& sounds, Micros at);
    void put_for(const std::string& file, const struct ImportedSound& sound);
    bool take_sounds_to(const QString& folder);
    bool write(const QString& path);
    [[nodiscard]] bool is_as_known(const QString& path) const;

    /// A file as it stood when it was last read or saved here.
    struct Known {
        QString path;
        QDateTime changed;
        qint64 bytes = 0;
        bool operator==(const Known&) const = default;
    };
    [[nodiscard]] static Known look_at(const QString& path);

    Document& document_;
    Settings& settings_;
    QString busy_;
    std::shared_ptr<Job> job_;
    Known known_;
};

}  // namespace gasp
