// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// Plays sound files through the audition and writes down what it says, for null_sink_test.py:
//   audition_player LENGTH_MS FILE START_MS [FILE START_MS ...] [--mix OUT] [--loop BEGIN_MS END_MS]
//                   [--seek AT_MS TO_MS] [--pause AT_MS] [--stop-after MS] [--times N] [--scrub FROM_MS
//                   TO_MS]
//                   [--replace AT_MS BY_FILE]
// A scrub drags the playhead at the pace of the clock, and nothing is played. A file that replaces the first
// sound is renamed over it.
// Lines: "at <steady us> <position us>", "notice <position us> <text>", "end <position us> <underruns>".

#include "core/sound/mix.hpp"
#include "core/sound/sound_file.hpp"
#include "ui/stage/audition.hpp"
#include "ui/stage/sound_output.hpp"

#include <QApplication>
#include <QFileInfo>
#include <QTimer>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <vector>

using namespace gasp;

namespace {

Micros ms(const QString& text) {
    return Micros{text.toLongLong() * 1000};
}

SoundClip clip_of(const QString& file, Micros start) {
    SoundClip clip;
    clip.file = QFileInfo(file).fileName().toStdString();
    const auto opened = SoundFile::open(file.toStdString());
    if (!opened) {
        std::fprintf(stderr, "%s\n", opened.error().text().c_str());
        std::exit(2);
    }
    const SoundInfo& info = opened->info();
    clip.length = clip.file_length = Micros{info.frames * 1'000'000 / info.rate};
    clip.start = start;
    return clip;
}

/// What core mixes, as the 16-bit samples that should be heard.
void write_mix(const Document& document, const QString& path) {
    Mix mix = Mix::open(document.sequence(), document.folder().toStdString(), sound_rate);
    std::vector<float> samples(static_cast<std::size_t>(mix.frames() * sound_channels));
    mix.read(samples);
    std::ofstream out(path.toStdString(), std::ios::binary);
    for (const float sample : samples) {
        const auto value =
            static_cast<std::int16_t>(std::lround(std::clamp(sample * 32768.0F, -32768.0F, 32767.0F)));
        out.write(reinterpret_cast<const char*>(&value), sizeof value);
    }
}

}  // namespace

int main(int argc, char** argv) {
    const QApplication application(argc, argv);
    QStringList arguments = QCoreApplication::arguments().mid(1);

    Show show = empty_show();
    Sequence& sequence = show.sequences.front();
    sequence.length = ms(arguments.takeFirst());
    QString folder;
    QString first_sound;
    while (!arguments.empty() && !arguments.front().startsWith("--")) {
        const QString file = arguments.takeFirst();
        folder = QFileInfo(file).absolutePath();
        first_sound = first_sound.isEmpty() ? file : first_sound;
        SoundClip clip = clip_of(file, ms(arguments.takeFirst()));
        clip.id = ClipId{show.next_id++};
        sequence.clips.push_back(clip);
    }
    Document document;
    document.reset(show, {});
    document.set_folder(folder);
    Audition audition(document);

    std::vector<std::pair<Micros, Micros>> positions;
    positions.reserve(100'000);
    QObject::connect(&audition, &Audition::notice, [&](const QString& text) {
        std::printf("notice %lld %s\n", static_cast<long long>(audition.position().count()),
                    qPrintable(text));
        std::fflush(stdout);
    });
    QObject::connect(&audition, &Audition::state_changed, [&] {
        if (!audition.playing() && audition.position() == document.sequence().length) {
            QTimer::singleShot(600, QCoreApplication::instance(), &QCoreApplication::quit);
        }
    });
    bool plays = true;
    QTimer scrubbing;
    scrubbing.setTimerType(Qt::PreciseTimer);
    while (!arguments.empty()) {
        const QString option = arguments.takeFirst();
        const auto take = [&] { return ms(arguments.takeFirst()); };
        const auto later = [](Micros at, auto act) {
            QTimer::singleShot(static_cast<int>(at.count() / 1000), QCoreApplication::instance(), act);
        };
        if (option == "--mix") {
            write_mix(document, arguments.takeFirst());
        } else if (option == "--loop") {
            const Micros begin = take();
            audition.set_loop(Dwell{begin, take()});
        } else if (option == "--seek") {
            const Micros at = take();
            later(at, [&audition, to = take()] { audition.seek(to); });
        } else if (option == "--pause") {
            later(take(), [&audition] { audition.pause(); });
        } else if (option == "--stop-after") {
            later(take(), [] { QCoreApplication::quit(); });
        } else if (option == "--replace") {
            const Micros at = take();
            later(at, [&audition, first_sound, by = arguments.takeFirst()] {
                if (std::rename(qPrintable(by), qPrintable(first_sound)) == 0) {
                    audition.reopen_sounds();
                }
            });
        } else if (option == "--times") {
            audition.set_times(arguments.takeFirst().toInt());
        } else if (option == "--scrub") {
            plays = false;
            const Micros from = take();
            const Micros to = take();
            QObject::connect(&scrubbing, &QTimer::timeout, [&, from, to, began = steady_now()] {
                if (const Micros at = from + steady_now() - began; at < to) {
                    audition.scrub(at);
                }
            });
            scrubbing.start(16);
        }
    }
    QTimer sampling;
    sampling.setTimerType(Qt::PreciseTimer);
    QObject::connect(&sampling, &QTimer::timeout,
                     [&] { positions.emplace_back(steady_now(), audition.position()); });
    sampling.start(5);
    if (plays) {
        audition.play();
    }
    QCoreApplication::exec();
    for (const auto& [now, position] : positions) {
        std::printf("at %lld %lld\n", static_cast<long long>(now.count()),
                    static_cast<long long>(position.count()));
    }
    std::printf("end %lld %llu\n", static_cast<long long>(audition.position().count()),
                static_cast<unsigned long long>(audition.underruns()));
    return 0;
}
