#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
#
# Installs what Gaspworks needs, builds it and opens a show in the editor; the first demo show unless one is given.
# With no display the same job is done without a window, into a folder that is named at the end.
# Usage: bash app/start.sh [SHOW.gasp | SOUND FILE]
set -euo pipefail

case "${1:-}" in
-h | --help)
    sed -n '5,8s/^# \?//p' "$0"
    exit 0
    ;;
esac
house=$(cd "$(dirname "$0")/.." && pwd)
show=${1:-$house/demo-shows/keepers-locker.gasp}
if [ ! -f "$show" ]; then
    echo "$show: no such file. Give a show (.gasp) or a sound file, or nothing for the demo." >&2
    exit 2
fi
show=$(realpath "$show")

bash "$house/app/install.sh" "$house/app/packages"
cd "$house"
[ -f .build/release/build.ninja ] || cmake --preset release >.build-log 2>&1 || { cat .build-log; exit 1; }
rm -f .build-log
cmake --build --preset release

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    exec .build/release/app/gaspworks/gaspworks "$show"
fi

out=$house/.build/without-a-window/$(basename "${show%.*}")
echo "There is no display: the same job without a window."
mkdir -p "$out"
gasp=.build/release/app/gasp/gasp
"$gasp" check "$show" | tee "$out/findings.txt" || [ "${PIPESTATUS[0]}" -eq 1 ]
"$gasp" budget "$show" -o "$out/air.txt"
"$gasp" table "$show" --as csv -o "$out/events.csv" || [ $? -eq 1 ]
"$gasp" picture "$show" -o "$out/timeline.png"
"$gasp" picture "$show" -o "$out/timeline.svg"
"$gasp" sheet "$show" -o "$out/build-pack.pdf"
echo "Findings, air, event table, picture and build pack are in $out"
