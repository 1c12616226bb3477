#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
#
# Makes the voices of the demo shows, from nothing but the words below: phrase by phrase with espeak-ng, joined
# with silences of known length, so that the start of each phrase, which the shows' marks use, is known and printed.
# Needs espeak-ng, sox and flac. Usage: bash demo-shows/make-voices.sh
set -euo pipefail
cd "$(dirname "$0")"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# phrase VOICE SPEED PITCH WORDS OUT: one phrase, trimmed of the silence around it, at 44.1 kHz.
phrase() {
    espeak-ng -v "$1" -s "$2" -p "$3" -w "$work/raw.wav" "$4"
    sox "$work/raw.wav" -r 44100 -c 1 -b 16 "$5" silence 1 0.005 0.2% fade t 0.003 \
        reverse silence 1 0.005 0.2% fade t 0.01 reverse norm -3
}

# voice NAME VOICE SPEED PITCH then pairs SILENCE_MS "WORDS": a whole voice, and where its phrases start.
voice() {
    local name=$1 speaker=$2 speed=$3 pitch=$4 parts=() i=0
    shift 4
    echo "$name.flac"
    local at=0
    while [ $# -gt 0 ]; do
        sox -n -r 44100 -c 1 -b 16 "$work/$i-gap.wav" trim 0 "$(awk "BEGIN{print $1/1000}")"
        phrase "$speaker" "$speed" "$pitch" "$2" "$work/$i-say.wav"
        at=$(awk "BEGIN{print $at+$1/1000}")
        awk "BEGIN{printf \"  %8.3f s  %s\n\", $at, \"$2\"}"
        at=$(awk "BEGIN{print $at+$(soxi -D "$work/$i-say.wav")}")
        parts+=("$work/$i-gap.wav" "$work/$i-say.wav")
        i=$((i + 1))
        shift 2
    done
    sox "${parts[@]}" "$work/voice.wav" pad 0 0.8
    flac --silent --best --force -o "$name.flac" "$work/voice.wav"
}

voice keepers-locker en-gb+m3 128 22 \
    400 "The lamp went out the night the marsh came in." \
    450 "I put his oilskin in the locker." \
    500 "I put his boots in the locker." \
    700 "I never put the keeper in." \
    1100 "So who," \
    350 "is knocking?"

voice boiler-deck en-gb+m7 135 30 \
    400 "Boiler deck. Mind the steam." \
    500 "Number one holds." \
    450 "Number two holds." \
    600 "Number three" \
    500 "does not!" \
    2000 "Stand clear of the hatch!"

voice fog-question en-gb+m5 120 12 \
    400 "Three long, one short." \
    600 "That is no ship of ours." \
    900 "Whoever you are," \
    400 "do not answer it!"

voice fog-answer en-gb+m2 112 6 \
    300 "I heard you answer." \
    800 "Now I know" \
    350 "where you are."

# The fog signal: two reeds a fifth apart that start and stop with the wind chest.
sox -R -n -r 44100 -c 1 -b 16 "$work/low.wav" synth 2.4 sawtooth 98 lowpass 700 tremolo 7 12 gain -n -6
sox -R -n -r 44100 -c 1 -b 16 "$work/high.wav" synth 2.4 sawtooth 147 lowpass 900 gain -n -14
sox -m "$work/low.wav" "$work/high.wav" "$work/horn.wav" fade t 0.25 2.4 0.5 norm -6
sox "$work/horn.wav" "$work/signal.wav" pad 0.5 1.1
flac --silent --best --force -o fog-horn.flac "$work/signal.wav"
echo "fog-horn.flac"

# The locker door: a slam of brown noise and a ring of sheet iron, both dying away.
sox -R -n -r 44100 -c 1 -b 16 "$work/slam.wav" synth 0.7 brownnoise fade p 0.001 0.7 0.65 gain -n -2
sox -R -n -r 44100 -c 1 -b 16 "$work/ring.wav" synth 0.7 sine 183 sine 311 sine 470 remix - fade p 0.001 0.7 0.6 gain -n -12
sox -m "$work/slam.wav" "$work/ring.wav" "$work/bang.wav" fade t 0 0.7 0.1 norm -1
flac --silent --best --force -o locker-bang.flac "$work/bang.wav"
echo "locker-bang.flac"
