// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// From starting a program to its first picture, the editor against a bare QMainWindow. They are programs of
// their own, run in turn, with no screen and no sound device. The editor's time ends when the window was
// painted with the lanes, marks and cues of the demo show in its timeline, not with a window still empty; the
// show was opened before, so that it is in the list of recent ones. What is in the docks comes after, as it
// does for the user, and so do the sound's waveform and the findings, which are worked out in the background.
// An empty window is timed besides, as the least that Qt takes.
#include <QCoreApplication>
#include <QElapsedTimer>
#include <QProcess>
#include <QStringList>
#include <QTemporaryDir>

#include <algorithm>
#include <cstdio>
#include <vector>

namespace {

constexpr int rounds = 15;
constexpr double bar = 2.0;

/// Milliseconds until the program says that it painted; negative when it never does.
double time_to_paint(const QString& program, const QStringList& arguments, const QString& home) {
    QProcess process;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    environment.insert("QT_QPA_PLATFORM", "offscreen");
    environment.insert("HOME", home);
    environment.insert("XDG_CONFIG_HOME", home + "/config");
    environment.insert("XDG_DATA_HOME", home + "/data");
    process.setProcessEnvironment(environment);
    QElapsedTimer timer;
    timer.start();
    process.start(program, arguments);
    QByteArray said;
    while (!said.contains("painted")) {
        if (!process.waitForReadyRead(20000)) {
            return -1.0;
        }
        said += process.readAllStandardOutput();
    }
    const double elapsed = static_cast<double>(timer.nsecsElapsed()) / 1e6;
    process.waitForFinished();
    return elapsed;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

}  // namespace

int main(int argc, char** argv) {
    const QCoreApplication application(argc, argv);
    const QTemporaryDir home;
    std::vector<double> editor;
    std::vector<double> bare;
    std::vector<double> empty;
    for (int round = 0; round <= rounds; ++round) {
        const double with_demo =
            time_to_paint(GASPWORKS_PROGRAM, {"--quit-after-first-paint", DEMO_SHOW}, home.path());
        const double without = time_to_paint(BARE_PROGRAM, {}, home.path());
        const double nothing = time_to_paint(BARE_PROGRAM, {"--empty"}, home.path());
        if (with_demo < 0.0 || without < 0.0 || nothing < 0.0) {
            std::fprintf(stderr, "a program did not paint within 20 s\n");
            return 1;
        }
        if (round > 0) {  // the first round warms the caches
            editor.push_back(with_demo);
            bare.push_back(without);
            empty.push_back(nothing);
        }
    }
    const double ratio = median(editor) / median(bare);
    std::fprintf(stderr, "editor %.1f ms, bare window %.1f ms, empty window %.1f ms\n", median(editor),
                 median(bare), median(empty));
    std::printf("bench first_painted_window = %.2f (bar %.2f) %s\n", ratio, bar,
                ratio <= bar ? "ok" : "short");
    return ratio <= bar ? 0 : 1;
}
