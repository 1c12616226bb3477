// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/stage/audition.hpp"

#include <QObject>
#include <QTimer>

#include <chrono>
#include <optional>

namespace gasp {

/// Plays the mix in time with a run on a real board: begins it where the run is, hears after a while how far
/// the two are apart, moves the sound by that, and says what remains. What the device took to begin is
/// remembered for the next run. Window thread.
class SoundWithBoard : public QObject {
    Q_OBJECT

  public:
    using Moment = std::chrono::steady_clock::time_point;

    explicit SoundWithBoard(Audition& audition, QObject* parent = nullptr);

    /// A run of the sequence looked at was at its tick 0 at this moment.
    void begin(Moment start);
    /// The run is over: the sound begun with it ends.
    void end();
    /// Of the sound against the run, as last measured: above 0, it is ahead.
    [[nodiscard]] std::optional<Micros> error() const { return error_; }

  signals:
    void measured(gasp::Micros error);  ///< nothing is moved any more

  private:
    void start_at_the_run();
    void measure();

    Audition& audition_;
    QTimer measure_soon_;
    Moment start_;
    Micros bias_{0};  ///< how much earlier the device has to be asked
    int tries_ = 0;
    bool playing_ = false;  ///< what is heard was begun here
    std::optional<Micros> error_;
};

}  // namespace gasp
