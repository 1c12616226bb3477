// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"
#include "core/sound/peaks.hpp"
#include "core/sound/sound_window.hpp"

#include <QObject>
#include <QString>

#include <memory>

namespace gasp {

/// The peaks of the show's sound files, built in the background and kept by the content of the file, so that
/// a clip cut in two or moved is not decoded again. Window thread.
class Waveforms : public QObject {
    Q_OBJECT

  public:
    explicit Waveforms(QObject* parent = nullptr);
    /// Cancels what is being built and waits for it: some milliseconds.
    ~Waveforms() override;

    /// Relative names of clips are looked up here.
    void set_folder(const QString& folder);

    /// The peaks as far as they are built, which starts with the first call; null while the file is being
    /// opened or where it cannot be.
    [[nodiscard]] std::shared_ptr<const PeakPyramid> peaks(const SoundClip& clip);
    /// The samples of frames [first, last) of the clip's file, with more beside them; null while they are
    /// being read, which starts with the call, or where they cannot be. Of each file one stretch is kept.
    [[nodiscard]] std::shared_ptr<const SoundWindow> samples(const SoundClip& clip, std::int64_t first,
                                                             std::int64_t last);
    /// Why a clip has no peaks, or only a part; empty when nothing is wrong.
    [[nodiscard]] QString problem(const SoundClip& clip) const;
    /// Forgets files that could not be read whole, so that they are tried again.
    void look_again();
    /// The file of that name holds something else than it did: what was read of it is forgotten.
    void read_anew(const QString& file);

    /// Share done of all that is being built, 0..1; 1 when idle.
    [[nodiscard]] double progress() const;
    void cancel();

  signals:
    /// Peaks were added, or samples read; at most some 20 times a second.
    void progressed(double share);
    /// Nothing is being built any more.
    void finished();

  private:
    struct Jobs;
    std::unique_ptr<Jobs> jobs_;
};

}  // namespace gasp
