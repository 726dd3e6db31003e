#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Sets up, builds and runs every test without a display. Ends with CTest's own summary; the exit status is 0 only when
# everything passed, the sanitizer build of the core tests included.
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
# shellcheck source=platform/linux/build.sh
. "$here/build.sh"
"$here/setup.sh"

# Nothing of the person who runs this is read or written: settings, projects and sockets go to a folder of their own.
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
mkdir -m 700 "$scratch/runtime"
export XDG_RUNTIME_DIR=$scratch/runtime XDG_DATA_HOME=$scratch/data XDG_CONFIG_HOME=$scratch/config
export XDG_CACHE_HOME=$scratch/cache CCACHE_DIR=${CCACHE_DIR:-$HOME/.cache/ccache}
export LC_ALL=C.UTF-8 QT_QPA_PLATFORM=offscreen
unset DISPLAY WAYLAND_DISPLAY

build asan
sanitized=0
ctest --test-dir "$root/build/asan" -j"$(nproc)" --output-on-failure || sanitized=$?
[ "$sanitized" -eq 0 ] || echo "test: the sanitizer build failed: see above" >&2

build dev
plain=0
ctest --test-dir "$root/build/dev" -j"$(nproc)" --output-on-failure || plain=$?

[ "$sanitized" -eq 0 ] && [ "$plain" -eq 0 ]
