// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/schedule.hpp"
#include "ui/editor/document.hpp"

#include <QObject>
#include <QString>

#include <cstdint>
#include <memory>
#include <optional>

namespace gasp {

/// Plays the sequence looked at: its mix through the sound device, and the position everything moving is
/// drawn at. The device's clock is the master; without a device a steady clock takes its place and a notice
/// says so. The device is opened at the first play(). Lives on the window's thread; sound is read and fed on
/// threads of its own.
class Audition : public QObject {
    Q_OBJECT

  public:
    explicit Audition(Document& document, QObject* parent = nullptr);
    ~Audition() override;

    void play();  ///< from position(), or from the start when that is the end
    void pause();
    void toggle();
    void stop();                 ///< back to the start; a trigger's run and lockout are forgotten
    void seek(Micros position);  ///< clamped to the sequence; plays on from there when playing

    /// A stretch repeated without a gap; play() from outside it runs into it. Empty: to the end, once.
    void set_loop(std::optional<Dwell> loop);
    [[nodiscard]] std::optional<Dwell> loop() const;

    /// So many times as slow, at true pitch, to place things by ear: 1, 2 or 4. A triggered run, and one on a
    /// board, play at full speed all the same.
    void set_times(int times);
    [[nodiscard]] int times() const;

    /// Seeks, and while it does not play lets a short piece sound from there: a drag of the playhead is
    /// heard.
    void scrub(Micros position);
    /// Lets a short piece sound from a time on, the playhead staying where it is. Does nothing while playing,
    /// or while pieces are switched off. Of calls that follow each other closely, the last one counts.
    void sound_at(Micros position);
    void set_pieces(bool on);
    [[nodiscard]] bool pieces() const;

    /// What is heard now. Never steps back while playing but for a seek and the loop's own return.
    [[nodiscard]] Micros position() const;
    [[nodiscard]] bool playing() const;
    /// Whether it runs (or last ran) on the steady clock, without a sound device.
    [[nodiscard]] bool silent() const;

    /// Sound files of the show have become others on the disk: they are opened anew, while it plays too.
    void reopen_sounds();

    void set_volume(double volume);  ///< 0..1, of the amplitude
    [[nodiscard]] double volume() const;
    /// Peak of what is heard now, 0..1 of full scale, before the volume; 0 when not playing.
    [[nodiscard]] double level() const;
    /// How often the sound device had to be given silence because the reader was late, or ran out because it
    /// was not served in time.
    [[nodiscard]] std::uint64_t underruns() const;
    /// The longest that a call of the sound device for samples took, as a share of the time they last.
    [[nodiscard]] double worst_call() const;

    /// Fires the rig's sensor: starts the triggered sequence (the one looked at, or else the show's first of
    /// that kind) from its beginning, unless a run is going on or the lockout lasts; then it is refused,
    /// counted and said in a notice. True when it was taken. A triggered run ignores the loop.
    bool trigger();
    [[nodiscard]] Micros lockout_remaining()
        const;  ///< 0: the next trigger is taken, unless a run is going on
    [[nodiscard]] int triggers_taken() const;
    [[nodiscard]] int triggers_refused() const;

  signals:
    void position_changed(gasp::Micros position);  ///< at frame rate while playing, and on every jump
    void state_changed();                          ///< playing or not, silent or not, another loop or volume
    void lockout_changed();            ///< a trigger was taken or refused, or the lockout counts down
    void notice(const QString& text);  ///< one sentence for the status line

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace gasp
