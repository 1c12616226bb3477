#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
#
# Installs what the tests need, builds and runs all of them; the last line is ctest's. A second call is incremental.
# With arguments for ctest, only the tests of the dev build.
# Usage: bash tests/run.sh [--bench | --asan | --tidy] [CTEST ARGUMENTS]
#   --bench  the benchmarks instead: a line for each bar, exit 1 when one is short
#   --asan   the tests under AddressSanitizer and UndefinedBehaviourSanitizer instead
#   --tidy   clang-tidy over our own code instead
set -euo pipefail

house=$(cd "$(dirname "$0")/.." && pwd)
cd "$house"
bash app/install.sh app/packages tests/packages

# build PRESET [TARGETS]: quiet unless it fails.
build() {
    local preset=$1
    shift
    mkdir -p .build
    local log=.build/$preset.log
    cmake --preset "$preset" >"$log" 2>&1 && cmake --build --preset "$preset" ${1:+--target "$@"} >>"$log" 2>&1 || {
        cat "$log"
        exit 1
    }
    echo "built $preset"
}

case "${1:-}" in
--bench)
    bash app/install.sh tests/bench/packages
    build bench
    status=0
    for bench in .build/bench/tests/bench/*/bench_*; do
        [ -x "$bench" ] && [ ! -d "$bench" ] && { "$bench" || status=1; }
    done
    exit $status
    ;;
--asan)
    shift
    build asan
    export ASAN_OPTIONS=detect_leaks=1 LSAN_OPTIONS=suppressions=$house/tests/support/lsan.supp
    exec ctest --preset asan -j "$(nproc)" "$@"
    ;;
--tidy)
    build dev
    exec bash tests/support/tidy.sh .build/dev
    ;;
esac

if [ $# -eq 0 ]; then
    # First the readers under libFuzzer, and the part of core with threads under ThreadSanitizer.
    build fuzz fuzz_all
    ctest --test-dir .build/fuzz --output-on-failure -j "$(nproc)"
    build tsan test_sound
    ctest --preset tsan -R '^sound:(Progress|Cancel|Reading while|The first overview)' -j "$(nproc)"
fi
build dev
exec ctest --preset dev -j "$(nproc)" "$@"
