// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/bench/audition/sound_server.hpp"

#include <QDir>
#include <QThread>

#include <cstdio>
#include <cstdlib>

namespace gasp::bench {

namespace {

/// Microseconds that the sink says it is behind; many while it does not answer.
qint64 latency_us() {
    QProcess list;
    list.start("pactl", {"list", "sinks"});
    list.waitForFinished();
    for (const QByteArray& line : list.readAllStandardOutput().split('\n')) {
        const QList<QByteArray> words = line.simplified().split(' ');
        if (words.value(0) == "Latency:") {
            return words.value(1).toLongLong();
        }
    }
    return 1'000'000'000;
}

void wait_for_latency(qint64 most_us, const char* what) {
    for (int tries = 0; tries < 400; ++tries) {
        if (latency_us() < most_us) {
            return;
        }
        QThread::msleep(50);
    }
    std::fprintf(stderr, "the sound server of the benchmark: %s\n", what);
    std::exit(2);
}

void end(QProcess& process) {
    process.terminate();
    if (!process.waitForFinished(5000)) {
        process.kill();
        process.waitForFinished();
    }
}

}  // namespace

SoundServer::SoundServer() {
    const QString runtime = folder_.filePath("run");
    QDir().mkpath(runtime);
    QFile::setPermissions(runtime, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
    for (const char* name : {"PULSE_SINK", "DISPLAY", "WAYLAND_DISPLAY", "DBUS_SESSION_BUS_ADDRESS"}) {
        qunsetenv(name);
    }
    qputenv("XDG_RUNTIME_DIR", runtime.toUtf8());
    qputenv("HOME", folder_.path().toUtf8());
    qputenv("PULSE_SERVER", "unix:" + runtime.toUtf8() + "/pulse/native");  // ours or none
    server_.start("pulseaudio", {"-n", "--daemonize=no", "--exit-idle-time=-1", "--realtime=yes",
                                 "--high-priority=yes", "-L", "module-native-protocol-unix auth-anonymous=1",
                                 "-L", "module-null-sink sink_name=lab rate=48000 channels=2 format=s16le",
                                 "-L", "module-always-sink"});
    wait_for_latency(900'000'000, "it does not answer");
    // Its main thread, which takes the samples, is not what is measured: it goes first where that is allowed.
    QProcess::execute("chrt", {"--rr", "--pid", "1", QString::number(server_.processId())});
    silence_.setStandardInputFile("/dev/zero");
    silence_.start("pacat", {"--playback", "--raw", "--rate=48000", "--channels=2", "--format=s16le",
                             "--latency-msec=5", "--device=lab"});
    // Before the stream came, the idle sink had rendered up to 2 s ahead.
    wait_for_latency(50'000, "the clock of its sink stays coarse");
}

SoundServer::~SoundServer() {
    end(silence_);
    end(server_);
}

}  // namespace gasp::bench
