// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/sound_with_board.hpp"

#include <utility>

namespace gasp {

namespace {

/// Long enough for a device to have begun, and its clock to run evenly.
constexpr int settles_in_ms = 600;
/// Sound this near to what is seen is not heard apart (ITU-R BT.1359-1 finds 45 ms of sound ahead and 125 ms
/// behind just detectable; from memory); each try costs an audible jump.
constexpr Micros near_enough{8'000};
constexpr int most_tries = 3;

}  // namespace

SoundWithBoard::SoundWithBoard(Audition& audition, QObject* parent) : QObject(parent), audition_(audition) {
    measure_soon_.setSingleShot(true);
    measure_soon_.setInterval(settles_in_ms);
    connect(&measure_soon_, &QTimer::timeout, this, &SoundWithBoard::measure);
    connect(&audition_, &Audition::state_changed, this,
            [this] { playing_ = playing_ && audition_.playing(); });
}

void SoundWithBoard::begin(Moment start) {
    start_ = start;
    tries_ = 0;
    error_.reset();
    audition_.set_loop(std::nullopt);
    audition_.set_times(1);
    start_at_the_run();
    audition_.play();
    playing_ = true;
}

void SoundWithBoard::end() {
    measure_soon_.stop();
    if (std::exchange(playing_, false)) {
        audition_.stop();
    }
}

void SoundWithBoard::start_at_the_run() {
    const auto run = std::chrono::duration_cast<Micros>(std::chrono::steady_clock::now() - start_);
    audition_.seek(run + bias_);
    measure_soon_.start();
}

void SoundWithBoard::measure() {
    if (!playing_) {
        return;
    }
    const auto run = std::chrono::duration_cast<Micros>(std::chrono::steady_clock::now() - start_);
    error_ = audition_.position() - run;
    if (std::chrono::abs(*error_) > near_enough && ++tries_ < most_tries) {
        bias_ -= *error_;
        start_at_the_run();
        return;
    }
    emit measured(*error_);
}

}  // namespace gasp
