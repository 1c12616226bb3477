// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QProcess>
#include <QTemporaryDir>

namespace gasp::bench {

/// A PulseAudio server of our own with one null sink, "lab", in a private XDG_RUNTIME_DIR; this program's
/// environment points to it. It asks for the priority that a desktop gives its sound server. A stream of
/// silence keeps the sink's clock fine-grained.
class SoundServer {
  public:
    /// What fails ends the program.
    SoundServer();
    ~SoundServer();
    SoundServer(const SoundServer&) = delete;
    SoundServer& operator=(const SoundServer&) = delete;

  private:
    QTemporaryDir folder_;
    QProcess server_;
    QProcess silence_;
};

}  // namespace gasp::bench
