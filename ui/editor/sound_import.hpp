// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"
#include "core/units/error.hpp"

#include <QString>

#include <atomic>

namespace gasp {

// Sound files stand in the show's folder, because a show names them relative to itself. A file from elsewhere
// is copied there when it is added, without asking, under its own name (or "name 2" where another sound has
// that name); a show that was never saved takes the folder of its first sound instead, and its sounds are
// copied when it is saved somewhere else. The file that was copied is never touched.

/// A sound ready to be placed: the clip of its whole length, starting at 0, and the folder its name is
/// relative to.
struct ImportedSound {
    SoundClip clip;
    QString folder;
    bool copied = false;
};

/// Reads a sound file once through (for its content's sign), copying it into `folder` if it is not below it;
/// an empty folder means the file's own. May take seconds for an hour of sound: call it on a worker thread.
/// `cancel` ends it early with an error; nothing half-copied is left.
[[nodiscard]] Result<ImportedSound> import_sound(const QString& file, const QString& folder,
                                                 const std::atomic<bool>& cancel);

/// Whether a file's name ends like a sound's.
[[nodiscard]] bool looks_like_sound(const QString& file);
/// For a file chooser: "Sound (*.wav *.flac ...)".
[[nodiscard]] QString sound_filter();

}  // namespace gasp
