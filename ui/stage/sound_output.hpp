// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/time.hpp"
#include "ui/stage/sound_feed.hpp"

#include <QIODevice>
#include <QObject>
#include <QString>
#include <QTimer>

#include <atomic>
#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>

class QAudioSink;

namespace gasp {

/// How the sound device was served so far. Any thread may look.
struct SoundService {
    std::atomic<double> worst_share{
        0.0};  ///< the longest call for samples, as a share of the time its samples last
    std::atomic<std::uint64_t> starved{0};  ///< how often the device ran out of them
};

/// The sound device's end of a feed: a stream of samples without end. Qt calls it in the thread of the
/// output.
class FeedDevice : public QIODevice {
    Q_OBJECT

  public:
    FeedDevice(SoundFeed& feed, SoundService& service) : feed_(feed), service_(service) {
        open(QIODevice::ReadOnly | QIODevice::Unbuffered);
    }
    [[nodiscard]] bool isSequential() const override { return true; }
    [[nodiscard]] qint64 bytesAvailable() const override;

  protected:
    qint64 readData(char* data, qint64 most) override;
    qint64 writeData(const char*, qint64) override { return -1; }

  private:
    SoundFeed& feed_;
    SoundService& service_;
};

/// Empties a feed at the pace of the default sound device, or without one at that of a steady clock, and says
/// how much has been played. Lives in a thread of its own, so that a busy window does not starve the device;
/// all but reading() are called there.
class SoundOutput : public QObject {
    Q_OBJECT

  public:
    struct Reading {
        Micros now{0};     ///< of the steady clock
        Micros played{0};  ///< of what was given, as heard; never less than a reading before
    };

    explicit SoundOutput(SoundFeed& feed);
    ~SoundOutput() override;

    [[nodiscard]] Reading reading() const;  ///< any thread
    [[nodiscard]] const SoundService& service() const { return service_; }

  public slots:
    /// Begins to play; a device that was lost, or never there, is asked for again.
    void start();
    /// Stops as soon as what is heard is silence.
    void rest();

  signals:
    /// Playing; `trouble` is empty with a device, else the sentence that says why it is silent.
    void started(const QString& trouble);

  private:
    void tick();
    void tick_device();
    void tick_steady();
    [[nodiscard]] QString open_device();
    void close_device();
    void run_steady(const QString& trouble);
    void publish(Micros played);

    SoundFeed& feed_;
    SoundService service_;
    std::unique_ptr<FeedDevice> device_;
    std::unique_ptr<QAudioSink> sink_;
    std::unique_ptr<QTimer> timer_;
    bool running_ = false;
    bool resting_ = false;
    Micros base_{0};   ///< played when the sink or the steady clock began
    Micros began_{0};  ///< of the steady clock
    Micros device_moved_at_{0};
    Micros quiet_since_{0};

    mutable std::mutex mutex_;
    Reading reading_;
};

/// The program's steady clock; every time given to the audition's parts is of it.
[[nodiscard]] Micros steady_now();

}  // namespace gasp
