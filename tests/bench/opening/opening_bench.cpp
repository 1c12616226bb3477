// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// Opening four hours of recorded voices as stereo FLAC, in programs of their own, in turn with decoding it to
// float: from the file's name to a waveform over its whole length, and how much the most resident memory of
// the program rises until waveform and moments are complete. It is the path of the window: import_sound,
// Waveforms, Moments.
//
//   bench_opening [MINUTES]     240 by default
#include "tests/bench/sound/voices.hpp"
#include "ui/editor/moments.hpp"
#include "ui/editor/sound_import.hpp"
#include "ui/timeline/waveforms.hpp"

#include <QCoreApplication>
#include <QProcess>

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <fstream>
#include <string>
#include <thread>
#include <vector>

using namespace gasp;

namespace {

constexpr int rounds = 5;
constexpr double most_bytes = 96e6;
constexpr std::size_t columns = 1280;  // of a window

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

/// A figure of /proc/self/status, in bytes.
double own_bytes(const std::string& name) {
    std::ifstream status("/proc/self/status");
    std::string word;
    while (status >> word) {
        if (word == name + ":") {
            double kib = 0.0;
            status >> kib;
            return kib * 1024.0;
        }
    }
    return 0.0;
}

/// Whether there is something to see in the last tenth of the file, which is decoded last.
bool seen_to_its_end(const PeakPyramid& peaks) {
    std::vector<Peak> row(columns);
    peaks.columns(0, 0.0, static_cast<double>(peaks.frames()) / columns, row);
    return std::any_of(row.end() - columns / 10, row.end(), [](const Peak& peak) { return peak.max > 0; });
}

template <class Done>
void wait_for(const Done& done) {
    while (!done()) {
        QCoreApplication::processEvents();
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
}

/// Opens the file; prints the seconds until it was imported and until its overview could be seen, and how
/// many bytes the program has come to hold for it: with the whole waveform and the moments, if it waits for
/// them.
int open(const QString& file, bool to_the_end) {
    std::ofstream("/proc/self/clear_refs") << "5";  // the peak begins here
    const double before = own_bytes("VmRSS");
    const double begin = now_s();
    const std::atomic<bool> never{false};
    const auto sound = import_sound(file, {}, never);
    if (!sound) {
        fmt::print(stderr, "{}\n", sound.error().text());
        return 2;
    }
    const double imported = now_s();
    Waveforms waveforms;
    Moments moments;
    waveforms.set_folder(sound->folder);
    moments.set_folder(sound->folder);
    std::shared_ptr<const PeakPyramid> peaks;
    static_cast<void>(moments.heard(sound->clip));
    wait_for([&] {
        peaks = waveforms.peaks(sound->clip);
        return peaks && seen_to_its_end(*peaks);
    });
    const double seen = now_s();
    if (to_the_end) {
        wait_for([&] { return peaks->complete() && moments.heard(sound->clip) != nullptr; });
    }
    fmt::print("{} {} {}\n", imported - begin, seen - begin, own_bytes("VmHWM") - before);
    return 0;
}

struct Opened {
    double imported_s = 0.0;
    double seen_s = 0.0;
    double bytes = 0.0;
};

Opened open_in_program_of_its_own(const QString& file, const QString& how) {
    QProcess program;
    program.setProcessChannelMode(QProcess::ForwardedErrorChannel);
    program.start(QCoreApplication::applicationFilePath(), {how, file});
    if (!program.waitForFinished(-1) || program.exitCode() != 0) {
        std::exit(2);
    }
    const QList<QByteArray> words = program.readAllStandardOutput().simplified().split(' ');
    return {words.value(0).toDouble(), words.value(1).toDouble(), words.value(2).toDouble()};
}

double median(std::vector<double> values) {
    std::ranges::sort(values);
    return values[values.size() / 2];
}

}  // namespace

int main(int argc, char** argv) {
    const QCoreApplication application(argc, argv);
    const QStringList arguments = QCoreApplication::arguments().mid(1);
    if (arguments.value(0) == "--overview" || arguments.value(0) == "--whole") {
        return open(arguments.value(1), arguments.front() == "--whole");
    }
    const int minutes = arguments.empty() ? 240 : arguments.front().toInt();
    if (minutes < 1) {
        fmt::print(stderr, "usage: bench_opening [MINUTES]\n");
        return 2;
    }
    const QString file = QString::fromStdString(bench::voices_flac_alone(minutes).string());
    std::vector<double> decode_s;
    std::vector<double> imported_s;
    std::vector<double> seen_s;
    for (int round = 0; round < rounds; ++round) {
        decode_s.push_back(bench::seconds([&] { bench::decode_to_float(file.toStdString()); }));
        const Opened opened = open_in_program_of_its_own(file, "--overview");
        imported_s.push_back(opened.imported_s);
        seen_s.push_back(opened.seen_s);
    }
    const double bytes = open_in_program_of_its_own(file, "--whole").bytes;
    fmt::print(stderr, "decoded in {:.2f} s; imported {:.3f} s, seen {:.3f} s after; {:.1f} MB\n",
               median(decode_s), median(imported_s), median(seen_s), bytes / 1e6);
    bool all_ok = bench::line(fmt::format("open_{}min_flac_overview_to_decode", minutes),
                              median(seen_s) / median(decode_s), 0.05);
    all_ok = bench::line(fmt::format("open_{}min_flac_memory_to_96MB", minutes), bytes / most_bytes, 1.0) &&
             all_ok;
    return all_ok ? 0 : 1;
}
