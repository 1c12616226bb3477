// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/audition.hpp"

#include "ui/editor/thread_priority.hpp"
#include "ui/stage/mix_reader.hpp"
#include "ui/stage/play_clock.hpp"
#include "ui/stage/sound_output.hpp"
#include "ui/stage/trigger.hpp"

#include <QThread>
#include <QTimer>

#include <algorithm>
#include <utility>

namespace gasp {

namespace {

constexpr int frame_ms = 16;
constexpr int lockout_ms = 100;
/// Changes of the show follow each other during a drag; the mix is opened anew after the last of them.
constexpr int settle_ms = 60;
/// A piece that is heard of a scrub, and how soon the next may begin: they overlap by their fades.
constexpr std::int64_t piece_frames = sound_rate * 90 / 1000;
constexpr int piece_ms = 60;
/// After the last piece, files and device are let go.
constexpr int pieces_over_ms = 1500;

std::int64_t frame_of(Micros time) {
    return time.count() * sound_rate / 1'000'000;
}
Micros time_of(std::int64_t frame) {
    return Micros{frame * 1'000'000 / sound_rate};
}

std::optional<FrameSpan> frames_of(const std::optional<Dwell>& loop) {
    return loop ? std::optional(FrameSpan{frame_of(loop->begin), frame_of(loop->end)}) : std::nullopt;
}

}  // namespace

struct Audition::Parts {
    Parts(Document& document_in, Audition& owner_in) : document(document_in), owner(owner_in) {}
    ~Parts();

    void open_output();
    void begin_at(Micros position);
    void halt(Micros position);
    void play_piece();
    void end_pieces();
    void follow_show();
    void frame();
    [[nodiscard]] std::int64_t heard();  ///< the written frame that is heard now
    [[nodiscard]] Micros now();
    [[nodiscard]] std::shared_ptr<const Programme> programme() const;
    [[nodiscard]] const Sequence* triggered() const;

    Document& document;
    Audition& owner;
    SoundFeed feed;
    std::unique_ptr<MixReader> reader;
    SoundOutput* output = nullptr;  ///< lives and is deleted in `thread`
    QThread thread;
    QTimer frames;
    QTimer lockout_ticks;
    QTimer settle;
    QTimer next_piece;
    QTimer pieces_over;

    PlayClock clock;
    PieceMap turns;
    std::uint32_t tag = 0;
    std::shared_ptr<const Programme> playing_programme;

    bool playing = false;
    QString trouble;  ///< why it runs without a device; empty with one
    Micros held{0};   ///< the position while nothing is heard
    std::optional<Dwell> loop;
    int times = 1;
    bool pieces = true;
    bool pieces_heard = false;  ///< reader and device are at work for them
    std::optional<Micros> piece_wanted;
    std::shared_ptr<const Programme> piece_programme;  ///< null once the show has changed
    TriggerGate gate;
    bool triggered_run = false;
    bool changing_sequence = false;
};

Audition::Parts::~Parts() {
    feed.set_held(true);
    thread.quit();
    thread.wait();
}

void Audition::Parts::open_output() {
    if (output != nullptr) {
        return;
    }
    reader = std::make_unique<MixReader>(feed, [this](const std::string& problem) {
        QMetaObject::invokeMethod(
            &owner, [this, text = QString::fromStdString(problem)] { emit owner.notice(text); });
    });
    output = new SoundOutput(feed);
    output->moveToThread(&thread);
    QObject::connect(&thread, &QThread::finished, output, &QObject::deleteLater);
    QObject::connect(output, &SoundOutput::started, &owner, [this](const QString& why) {
        clock.restart();
        if (std::exchange(trouble, why) != why) {
            if (!why.isEmpty()) {
                emit owner.notice(why);
            }
            emit owner.state_changed();
        }
    });
    thread.setObjectName("sound");
    QObject::connect(&thread, &QThread::started, [] { serve_in_time(); });  // in the thread itself
    thread.start();
}

std::shared_ptr<const Programme> Audition::Parts::programme() const {
    Sequence heard_part;  // the cues are not listened to, and there may be many
    const Sequence& sequence = document.sequence();
    heard_part.id = sequence.id;
    heard_part.length = sequence.length;
    heard_part.clips = sequence.clips;
    return std::make_shared<const Programme>(
        Programme{std::move(heard_part), document.folder().toStdString()});
}

void Audition::Parts::begin_at(Micros position) {
    open_output();
    held = position;
    end_pieces();
    playing_programme = programme();
    MixReader::Run run{frame_of(position), {}, {}, 1, ++tag};
    if (!triggered_run) {
        run.loop = frames_of(loop);
        run.times = times;
    }
    reader->start(playing_programme, run);
    feed.set_held(false);
    QMetaObject::invokeMethod(output, &SoundOutput::start);
    playing = true;
    frames.start(frame_ms);
}

void Audition::Parts::halt(Micros position) {
    held = position;
    if (std::exchange(playing, false)) {
        frames.stop();
        feed.set_held(true);
        reader->rest();
        QMetaObject::invokeMethod(output, &SoundOutput::rest);
    }
}

void Audition::Parts::play_piece() {
    if (!piece_wanted || playing) {
        return;
    }
    open_output();
    if (!piece_programme) {
        piece_programme = programme();
    }
    reader->start(piece_programme, {frame_of(*piece_wanted), {}, piece_frames, 1, ++tag});
    piece_wanted.reset();
    feed.set_held(false);
    QMetaObject::invokeMethod(output, &SoundOutput::start);
    next_piece.start(piece_ms);
    pieces_over.start(pieces_over_ms);
    pieces_heard = true;
}

void Audition::Parts::end_pieces() {
    piece_wanted.reset();
    piece_programme.reset();
    pieces_over.stop();
    if (std::exchange(pieces_heard, false)) {
        feed.set_held(true);
        reader->rest();
        QMetaObject::invokeMethod(output, &SoundOutput::rest);
    }
}

std::int64_t Audition::Parts::heard() {
    const SoundOutput::Reading reading = output->reading();
    clock.reading(reading.now, reading.played);
    while (const std::optional<Piece> turn = feed.take_turn()) {
        turns.add(*turn);
    }
    const std::int64_t given = frame_of(clock.at(steady_now()));
    turns.forget_before(given);
    const std::optional<PieceMap::Value> written = turns.at(given);
    return written ? written->frame : -1;
}

Micros Audition::Parts::now() {
    if (playing) {
        const std::optional<PieceMap::Value> place = reader->place_of(heard());
        if (place && place->tag == tag) {
            held = std::min(time_of(place->frame), playing_programme->sequence.length);
        }
    }
    return held;
}

void Audition::Parts::frame() {
    const Micros position = now();
    // The last frame may lie a rounding before the end.
    const bool over = feed.ended() && position + Micros{1000} >= playing_programme->sequence.length;
    if (over) {
        halt(playing_programme->sequence.length);
        gate.run_ended();
        triggered_run = false;
    }
    emit owner.position_changed(held);
    if (over) {
        emit owner.state_changed();
    }
}

void Audition::Parts::follow_show() {
    if (!playing) {
        return;
    }
    const Sequence& before = playing_programme->sequence;
    const Sequence& after = document.sequence();
    if (before.length != after.length) {
        begin_at(std::min(now(), after.length));
    } else if (before.clips != after.clips) {
        playing_programme = programme();
        reader->exchange(playing_programme);
    }
}

const Sequence* Audition::Parts::triggered() const {
    if (document.sequence().kind == SequenceKind::triggered) {
        return &document.sequence();
    }
    const std::vector<Sequence>& all = document.show().sequences;
    const auto first = std::find_if(all.begin(), all.end(),
                                    [](const Sequence& s) { return s.kind == SequenceKind::triggered; });
    return first == all.end() ? nullptr : &*first;
}

Audition::Audition(Document& document, QObject* parent)
    : QObject(parent), parts_(std::make_unique<Parts>(document, *this)) {
    Parts& parts = *parts_;
    parts.frames.setTimerType(Qt::PreciseTimer);
    connect(&parts.frames, &QTimer::timeout, this, [&parts] { parts.frame(); });
    parts.settle.setSingleShot(true);
    connect(&parts.settle, &QTimer::timeout, this, [&parts] { parts.follow_show(); });
    parts.next_piece.setSingleShot(true);
    connect(&parts.next_piece, &QTimer::timeout, this, [&parts] { parts.play_piece(); });
    parts.pieces_over.setSingleShot(true);
    connect(&parts.pieces_over, &QTimer::timeout, this, [&parts] { parts.end_pieces(); });
    connect(&parts.lockout_ticks, &QTimer::timeout, this, [this, &parts] {
        if (lockout_remaining() == Micros{0}) {
            parts.lockout_ticks.stop();
        }
        emit lockout_changed();
    });
    connect(&document, &Document::changed, this, [&parts] {
        parts.piece_programme.reset();
        if (parts.playing) {
            parts.settle.start(settle_ms);
        } else {
            parts.held = std::min(parts.held, parts.document.sequence().length);
        }
    });
    connect(&document, &Document::replaced, this, [this, &parts] {
        parts.end_pieces();
        if (!parts.changing_sequence) {
            stop();
        }
    });
}

Audition::~Audition() = default;

void Audition::play() {
    Parts& parts = *parts_;
    if (parts.playing) {
        return;
    }
    if (parts.triggered_run) {
        parts.gate.release(steady_now());
    } else {
        parts.gate.run_began();
    }
    const bool at_end = parts.held >= parts.document.sequence().length;
    parts.begin_at(at_end ? Micros{0} : parts.held);
    emit state_changed();
}

void Audition::pause() {
    Parts& parts = *parts_;
    if (!parts.playing) {
        return;
    }
    parts.halt(parts.now());
    if (parts.triggered_run) {
        parts.gate.hold(steady_now());
    } else {
        parts.gate.run_ended();
    }
    emit position_changed(parts.held);
    emit state_changed();
}

void Audition::toggle() {
    if (parts_->playing) {
        pause();
    } else {
        play();
    }
}

void Audition::stop() {
    Parts& parts = *parts_;
    parts.halt(Micros{0});
    parts.gate.reset();
    parts.triggered_run = false;
    emit position_changed(Micros{0});
    emit state_changed();
    emit lockout_changed();
}

void Audition::seek(Micros position) {
    Parts& parts = *parts_;
    const Micros target = std::clamp(position, Micros{0}, parts.document.sequence().length);
    if (parts.playing) {
        parts.begin_at(target);
    } else {
        parts.held = target;
    }
    emit position_changed(target);
}

void Audition::scrub(Micros position) {
    seek(position);
    sound_at(position);
}

void Audition::sound_at(Micros position) {
    Parts& parts = *parts_;
    if (parts.playing || !parts.pieces) {
        return;
    }
    parts.piece_wanted = std::clamp(position, Micros{0}, parts.document.sequence().length);
    if (!parts.next_piece.isActive()) {
        parts.play_piece();
    }
}

void Audition::set_pieces(bool on) {
    parts_->pieces = on;
    emit state_changed();
}

bool Audition::pieces() const {
    return parts_->pieces;
}

void Audition::set_times(int times) {
    Parts& parts = *parts_;
    if (times == parts.times) {
        return;
    }
    const Micros position = parts.now();
    parts.times = times;
    if (parts.playing && !parts.triggered_run) {
        parts.begin_at(position);
    }
    emit state_changed();
}

int Audition::times() const {
    return parts_->times;
}

void Audition::set_loop(std::optional<Dwell> loop) {
    Parts& parts = *parts_;
    if (loop == parts.loop) {
        return;
    }
    parts.loop = loop;
    if (parts.playing && !parts.triggered_run) {
        parts.begin_at(parts.now());
    }
    emit state_changed();
}

std::optional<Dwell> Audition::loop() const {
    return parts_->loop;
}

Micros Audition::position() const {
    return parts_->now();
}

bool Audition::playing() const {
    return parts_->playing;
}

bool Audition::silent() const {
    return !parts_->trouble.isEmpty();
}

void Audition::reopen_sounds() {
    Parts& parts = *parts_;
    parts.piece_programme.reset();
    if (parts.playing) {
        parts.playing_programme = parts.programme();
        parts.reader->exchange(parts.playing_programme);
    }
}

void Audition::set_volume(double volume) {
    parts_->feed.set_volume(static_cast<float>(std::clamp(volume, 0.0, 1.0)));
    emit state_changed();
}

double Audition::volume() const {
    return static_cast<double>(parts_->feed.volume());
}

double Audition::level() const {
    return parts_->playing ? static_cast<double>(parts_->reader->level_of(parts_->heard())) : 0.0;
}

std::uint64_t Audition::underruns() const {
    const std::uint64_t starved = parts_->output != nullptr ? parts_->output->service().starved.load() : 0;
    return parts_->feed.underruns() + starved;
}

double Audition::worst_call() const {
    return parts_->output != nullptr ? parts_->output->service().worst_share.load() : 0.0;
}

bool Audition::trigger() {
    Parts& parts = *parts_;
    const Sequence* sequence = parts.triggered();
    if (sequence == nullptr) {
        emit notice(tr("No sequence of this show is started by a trigger"));
        return false;
    }
    const Figure& lockout_s = parts.document.show().rig.sensor.lockout_s;
    const auto lockout = lockout_s ? std::optional(from_ms(*lockout_s * 1000.0)) : std::nullopt;
    const TriggerAnswer answer = parts.gate.trigger(steady_now(), lockout);
    if (!answer.said.empty()) {
        emit notice(QString::fromStdString(answer.said));
    }
    if (answer.taken) {
        parts.changing_sequence = true;
        parts.document.look_at(sequence->id);
        parts.changing_sequence = false;
        parts.triggered_run = true;
        parts.begin_at(Micros{0});
        parts.lockout_ticks.start(lockout_ms);
        emit position_changed(Micros{0});
        emit state_changed();
    }
    emit lockout_changed();
    return answer.taken;
}

Micros Audition::lockout_remaining() const {
    return parts_->gate.lockout_remaining(steady_now());
}

int Audition::triggers_taken() const {
    return parts_->gate.taken();
}

int Audition::triggers_refused() const {
    return parts_->gate.refused();
}

}  // namespace gasp
