// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/sound_output.hpp"

#include <QAudioDevice>
#include <QAudioSink>
#include <QMediaDevices>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstring>
#include <limits>

namespace gasp {

namespace {

constexpr int tick_ms = 5;
/// In bytes. With 4096 or 8192 Qt 6.4 says it is active and never plays.
constexpr qsizetype buffer_bytes = 16'384;
/// A device that takes nothing for so long while active has stalled.
constexpr Micros stall{1'500'000};
/// What a device still holds when the feed has gone quiet.
constexpr Micros tail{400'000};

Micros micros_of(std::int64_t frames) {
    return Micros{frames * 1'000'000 / sound_rate};
}

QAudioFormat format() {
    QAudioFormat format;
    format.setSampleRate(sound_rate);
    format.setChannelCount(sound_channels);
    format.setSampleFormat(QAudioFormat::Int16);
    return format;
}

}  // namespace

Micros steady_now() {
    return std::chrono::duration_cast<Micros>(std::chrono::steady_clock::now().time_since_epoch());
}

qint64 FeedDevice::bytesAvailable() const {
    return std::numeric_limits<int>::max();
}

qint64 FeedDevice::readData(char* data, qint64 most) {
    const auto begin = std::chrono::steady_clock::now();
    std::array<std::int16_t, 512>
        block;  // NOLINT(cppcoreguidelines-pro-type-member-init): filled by the feed
    const auto frame_bytes = qint64{sizeof(std::int16_t)} * sound_channels;
    qint64 done = 0;
    while (most - done >= frame_bytes) {
        const auto bytes =
            std::min((most - done) / frame_bytes * frame_bytes, static_cast<qint64>(sizeof block));
        feed_.read(std::span(block.data(), static_cast<std::size_t>(bytes) / sizeof(std::int16_t)));
        std::memcpy(data + done, block.data(), static_cast<std::size_t>(bytes));
        done += bytes;
    }
    if (done > 0) {
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
        const qint64 frames = done / frame_bytes;
        const double lasts = static_cast<double>(frames) / sound_rate;
        const double worst = service_.worst_share.load(std::memory_order_relaxed);
        service_.worst_share.store(std::max(worst, took.count() / lasts), std::memory_order_relaxed);
    }
    return done;
}

SoundOutput::SoundOutput(SoundFeed& feed) : feed_(feed) {}

SoundOutput::~SoundOutput() {
    close_device();
}

SoundOutput::Reading SoundOutput::reading() const {
    const std::lock_guard lock(mutex_);
    return reading_;
}

void SoundOutput::start() {
    resting_ = false;
    if (running_) {
        return;
    }
    running_ = true;
    if (!timer_) {
        timer_ = std::make_unique<QTimer>();
        timer_->setTimerType(Qt::PreciseTimer);
        connect(timer_.get(), &QTimer::timeout, this, &SoundOutput::tick);
    }
    timer_->start(tick_ms);
    publish(micros_of(feed_.given()));
    const QString trouble = open_device();
    if (trouble.isEmpty()) {
        emit started({});
    } else {
        run_steady(trouble);
    }
}

void SoundOutput::rest() {
    resting_ = true;
    quiet_since_ = steady_now();
}

QString SoundOutput::open_device() {
    const QAudioDevice device = QMediaDevices::defaultAudioOutput();
    if (device.isNull()) {
        return QStringLiteral("No sound device: running silently on a steady clock");
    }
    if (!device.isFormatSupported(format())) {
        return QStringLiteral(
            "The sound device does not take 48 kHz stereo: running silently on a steady clock");
    }
    device_ = std::make_unique<FeedDevice>(feed_, service_);
    sink_ = std::make_unique<QAudioSink>(device, format());
    sink_->setBufferSize(buffer_bytes);
    connect(sink_.get(), &QAudioSink::stateChanged, this, [this](QAudio::State state) {
        if (state == QAudio::IdleState && sink_->error() == QAudio::UnderrunError) {
            service_.starved.fetch_add(1, std::memory_order_relaxed);
        }
    });
    base_ = micros_of(feed_.given());
    device_moved_at_ = steady_now();
    sink_->start(device_.get());
    // Qt 6.4 does not signal a failed start.
    if (sink_->error() != QAudio::NoError) {
        close_device();
        return QStringLiteral("The sound device does not open: running silently on a steady clock");
    }
    return {};
}

void SoundOutput::close_device() {
    if (sink_) {
        sink_->disconnect(this);
    }
    sink_.reset();
    device_.reset();
}

void SoundOutput::run_steady(const QString& trouble) {
    close_device();
    base_ = reading().played;
    began_ = steady_now();
    emit started(trouble);
}

void SoundOutput::tick() {
    if (sink_) {
        tick_device();
    } else {
        tick_steady();
    }
    if (!resting_ || !feed_.quiet()) {
        quiet_since_ = steady_now();
    } else if (steady_now() - quiet_since_ > tail) {
        close_device();
        timer_->stop();
        running_ = false;
    }
}

void SoundOutput::tick_device() {
    // A device that is lost reads 0: what it had played is kept.
    const bool lost = sink_->state() == QAudio::StoppedState;
    const Micros before = reading().played;
    const Micros played = lost ? before : base_ + Micros{sink_->processedUSecs()};
    if (lost) {
        run_steady(QStringLiteral("The sound device was lost: running silently on a steady clock"));
    } else if (played > before) {
        device_moved_at_ = steady_now();
        publish(played);
    } else if (steady_now() - device_moved_at_ > stall) {
        run_steady(QStringLiteral("The sound device has stalled: running silently on a steady clock"));
    }
}

void SoundOutput::tick_steady() {
    const Micros played = base_ + steady_now() - began_;
    std::array<std::int16_t, 512>
        block;  // NOLINT(cppcoreguidelines-pro-type-member-init): filled by the feed
    std::int64_t due = played.count() * sound_rate / 1'000'000 - feed_.given();
    while (due > 0) {
        const auto frames = std::min(due, static_cast<std::int64_t>(block.size()) / sound_channels);
        feed_.read(std::span(block.data(), static_cast<std::size_t>(frames * sound_channels)));
        due -= frames;
    }
    publish(played);
}

void SoundOutput::publish(Micros played) {
    const std::lock_guard lock(mutex_);
    reading_ = {steady_now(), std::max(reading_.played, played)};
}

}  // namespace gasp
