// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"
#include "core/sound/jaw.hpp"
#include "core/sound/words.hpp"

#include <QObject>
#include <QString>

#include <memory>
#include <vector>

namespace gasp {

/// Something in the sound that a cue may go with.
enum class MomentKind { word, pause, onset, loudest };  // a word or a pause begins
struct SoundMoment {
    Micros time{0};  ///< on the ruler
    MomentKind kind = MomentKind::onset;
    bool operator==(const SoundMoment&) const = default;
};

/// By what moments are found, whether they are shown and snapped to, and how a jaw goes with the voice.
struct MomentOptions {
    OnsetOptions onsets;
    WordOptions words;
    JawOptions jaw;
    bool shown = true;
    bool operator==(const MomentOptions&) const = default;
};

/// The moments of the show's sound files: each is listened to once in the background, and kept by its
/// content. Window thread.
class Moments : public QObject {
    Q_OBJECT

  public:
    explicit Moments(QObject* parent = nullptr);
    /// Cancels what is under way and waits for it: some milliseconds.
    ~Moments() override;

    /// Relative names of clips are looked up here.
    void set_folder(const QString& folder);
    [[nodiscard]] const MomentOptions& options() const;
    /// Other words show at once; for other onsets the files are listened to again.
    void set_options(const MomentOptions& options);

    /// Of one clip, within what is played of it, by time; empty while it is being listened to, and where it
    /// cannot be read. Starts listening.
    [[nodiscard]] std::vector<SoundMoment> of(const SoundClip& clip);
    /// What was heard in the clip's file, in the file's own time; null in the same cases.
    [[nodiscard]] const Heard* heard(const SoundClip& clip);
    /// Of all clips, by time; empty while they are not shown.
    [[nodiscard]] const std::vector<SoundMoment>& shown(const Sequence& sequence);
    [[nodiscard]] bool listening() const;
    /// The file of that name holds something else than it did: it is listened to again.
    void listen_anew(const QString& file);

  signals:
    void changed();

  private:
    struct Parts;
    struct Ear;
    /// The one that listens to the clip's file, begun if it was not.
    [[nodiscard]] Ear& ear_of(const SoundClip& clip);
    std::unique_ptr<Parts> parts_;
};

}  // namespace gasp
