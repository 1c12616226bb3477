#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
#
# clang-tidy over our own sources, two at a time. Usage: bash tests/support/tidy.sh BUILD_FOLDER
set -euo pipefail
cd "$(dirname "$0")/../.."
git ls-files 'core/*.cpp' 'ui/*.cpp' 'app/*.cpp' |
    xargs -P "$(nproc)" -n 1 clang-tidy -p "$1" --quiet
