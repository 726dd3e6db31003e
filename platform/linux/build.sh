# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck shell=bash
# Read by run.sh and test.sh: `build PRESET [CMAKE ARGUMENT ...]` configures where that was not done, and builds.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)

if command -v ccache >/dev/null; then
    export CMAKE_C_COMPILER_LAUNCHER=ccache CMAKE_CXX_COMPILER_LAUNCHER=ccache
fi

build() {
    local preset=$1
    shift
    # Written last by a configuration that succeeded; Ninja itself configures again when a CMake file changes.
    if [ ! -e "$root/build/$preset/build.ninja" ]; then
        cmake -S "$root" --preset "$preset"
    fi
    cmake --build "$root/build/$preset" -j"$(nproc)" "$@"
}
