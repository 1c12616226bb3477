// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// Ten minutes of recorded voices auditioned into a null sink of a sound server of its own, while another show
// is checked and its nights are forecast, over and over: the longest call of the sound device against the
// time that what it got lasts, how often it was not served in time, and the playhead as it is drawn against
// what the null sink's monitor recorded. Each second of the recording is found in the mix sample by sample;
// when a recorded frame was heard is the server's own word, by its count of latencies.
//
//   bench_audition [MINUTES]     10 by default
#include "core/air/night/night.hpp"
#include "core/checks/check.hpp"
#include "core/checks/sound_shelf.hpp"
#include "core/file/show_file.hpp"
#include "core/schedule/night_sequences.hpp"
#include "core/sound/clip.hpp"
#include "core/sound/mix.hpp"
#include "tests/bench/audition/alignment.hpp"
#include "tests/bench/audition/sound_server.hpp"
#include "tests/bench/sound/voices.hpp"
#include "ui/editor/thread_priority.hpp"
#include "ui/stage/audition.hpp"
#include "ui/stage/sound_output.hpp"

#include <QApplication>
#include <QTimer>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <thread>
#include <vector>

using namespace gasp;

namespace {

constexpr double most_apart_ms = 5.0;
constexpr Micros longest_reading{500};
const std::filesystem::path demos = std::filesystem::path(GASPWORKS_SOURCE_DIR) / "demo-shows";

/// A check and a forecast on threads of their own, each begun again when it is done, as those of a window.
class BusyShow {
  public:
    BusyShow()
        : show_(load_show(demos / "boiler-deck.gasp").value()),
          checks_([this] { check_on(); }),
          nights_([this] { forecast_on(); }) {}
    ~BusyShow() { stop_ = true; }
    BusyShow(const BusyShow&) = delete;
    BusyShow& operator=(const BusyShow&) = delete;

    [[nodiscard]] int checked() const { return checked_; }
    [[nodiscard]] int forecast() const { return forecast_; }

  private:
    void check_on() {
        while (!stop_) {
            SoundShelf sounds(demos);
            CheckSetting setting;
            setting.sounds = &sounds;
            setting.stopped = [this] { return stop_.load(); };
            static_cast<void>(check(show_, setting));
            ++checked_;
        }
    }
    void forecast_on() {
        stand_back();  // as the window's long work does
        while (!stop_) {
            NightWork work;
            work.unfavourable = true;
            static_cast<void>(
                forecast_night(show_, night_sequences(show_), night_terms(show_.night), work, stop_, {}));
            ++forecast_;
        }
    }

    const Show show_;
    std::atomic<bool> stop_{false};
    std::atomic<int> checked_{0};
    std::atomic<int> forecast_{0};
    std::jthread checks_;
    std::jthread nights_;
};

Show show_of(const std::filesystem::path& file, int minutes) {
    Show show = show_of_sound(file).value();
    Sequence& sequence = show.sequences.front();
    sequence.length = Micros{60'000'000LL * minutes};
    sequence.clips.front().length = sequence.length;
    return show;
}

/// What core mixes, as the 16-bit samples that should be heard.
std::vector<std::int16_t> mix_of(const Sequence& sequence, const std::filesystem::path& folder) {
    Mix mix = Mix::open(sequence, folder, sound_rate);
    std::vector<std::int16_t> samples;
    std::vector<float> block(8192);
    for (std::int64_t left = mix.frames(); left > 0; left -= std::ssize(block) / 2) {
        mix.read(block);
        for (std::int64_t i = 0; i < 2 * std::min(left, std::ssize(block) / 2); ++i) {
            const float sample = block[static_cast<std::size_t>(i)];
            samples.push_back(
                static_cast<std::int16_t>(std::lround(std::clamp(sample * 32768.0F, -32768.0F, 32767.0F))));
        }
    }
    return samples;
}

struct Shown {
    std::int64_t time_us = 0;
    Micros position{0};
};

/// Plays to the end; what the window would have shown at each of its pictures. A reading that another thread
/// came between says nothing of when it was taken and is left out.
std::vector<Shown> play(Audition& audition, const Document& document) {
    std::vector<Shown> shown;
    QTimer pictures;
    pictures.setTimerType(Qt::PreciseTimer);
    QObject::connect(&pictures, &QTimer::timeout, [&] {
        const Micros before = steady_now();
        const Micros position = audition.position();
        if (const Micros after = steady_now(); audition.playing() && after - before < longest_reading) {
            shown.push_back({((before + after) / 2).count(), position});
        }
    });
    pictures.start(16);
    QObject::connect(&audition, &Audition::notice, [](const QString& text) {
        fmt::print(stderr, "{}\n", text.toStdString());
        std::exit(2);
    });
    QObject::connect(&audition, &Audition::state_changed, [&] {
        if (!audition.playing() && audition.position() == document.sequence().length) {
            QTimer::singleShot(600, QCoreApplication::instance(), &QCoreApplication::quit);
        }
    });
    audition.play();
    QCoreApplication::exec();
    return shown;
}

/// The most that the playhead is away from what is heard, over all pictures.
double most_apart(const std::vector<Shown>& shown, const bench::Alignment& heard) {
    std::vector<double> apart_ms;
    double sum = 0.0;
    for (const Shown& each : shown) {
        if (const auto frame = heard.frame_at(each.time_us)) {
            const double apart = to_ms(each.position) - *frame * 1000.0 / sound_rate;
            sum += apart;
            apart_ms.push_back(std::abs(apart));
        }
    }
    if (apart_ms.size() < shown.size() / 2) {
        fmt::print(stderr, "only {} of {} positions can be compared\n", apart_ms.size(), shown.size());
        std::exit(2);
    }
    std::ranges::sort(apart_ms);
    fmt::print(stderr,
               "playhead: {} positions, {:+.2f} ms on average, 99 % within {:.2f} ms, all within {:.2f} ms\n",
               apart_ms.size(), sum / static_cast<double>(apart_ms.size()),
               apart_ms[apart_ms.size() * 99 / 100], apart_ms.back());
    return apart_ms.back();
}

}  // namespace

int main(int argc, char** argv) {
    const int minutes = argc > 1 ? std::atoi(argv[1]) : 10;
    if (minutes < 1) {
        fmt::print(stderr, "usage: bench_audition [MINUTES]\n");
        return 2;
    }
    const std::filesystem::path voices = bench::voices_wav(60);
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const bench::SoundServer server;
    const QApplication application(argc, argv);
    Document document;
    document.reset(show_of(voices, minutes), {});
    document.set_folder(QString::fromStdString(voices.parent_path().string()));

    // The recorder's thread must look at the clock in time, like what it judges.
    std::optional<bench::Monitor> monitor;
    std::thread([&monitor, minutes] {
        serve_in_time();
        monitor.emplace(minutes);
    }).join();
    Audition audition(document);
    std::vector<Shown> shown;
    {
        const BusyShow load;
        shown = play(audition, document);
        std::array<double, 1> machine{};  // other programs' work counts
        static_cast<void>(::getloadavg(machine.data(), 1));
        fmt::print(stderr, "meanwhile: {} checks and {} forecasts, load average {:.1f} on {} processors\n",
                   load.checked(), load.forecast(), machine[0], std::thread::hardware_concurrency());
        if (load.checked() == 0 || load.forecast() == 0) {
            return 2;
        }
    }
    const bench::Recording recording = monitor->stop();
    const bench::Alignment heard(recording, mix_of(document.sequence(), voices.parent_path()));
    if (!heard.found()) {
        fmt::print(stderr, "the mix is not in the recording of {} frames\n", recording.stereo.size() / 2);
        return 2;
    }
    const std::string name = fmt::format("audition_{}min", minutes);
    bool all_ok = bench::line(name + "_worst_call_to_period", audition.worst_call(), 0.20);
    all_ok = bench::line(name + "_underruns", static_cast<double>(audition.underruns()), 0.0) && all_ok;
    all_ok = bench::line(name + "_seconds_not_as_mixed", heard.broken(), 0.0) && all_ok;
    all_ok =
        bench::line(name + "_playhead_off_to_5ms", most_apart(shown, heard) / most_apart_ms, 1.0) && all_ok;
    return all_ok ? 0 : 1;
}
