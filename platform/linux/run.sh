#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Sets up, builds and opens the app: on the demo creek, or on what the arguments say. Where there is no display it prints
# the summary of the project instead.
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
# shellcheck source=platform/linux/build.sh
. "$here/build.sh"

demo=${XDG_DATA_HOME:-$HOME/.local/share}/rillmark/demo.gpkg

# The demo creek comes into its place whole or not at all.
make_demo() {
    [ ! -e "$demo" ] || return 0
    mkdir -p "$(dirname "$demo")"
    local fresh
    fresh=$(mktemp -d "$(dirname "$demo")/new.XXXXXX")
    if ! "$root/build/release/bin/rillmark-desk" demo "$fresh/demo.gpkg" >&2; then
        rm -rf "$fresh"
        echo "run: the demo creek could not be made at $demo" >&2
        return 1
    fi
    mv "$fresh/demo.gpkg" "$demo"
    rm -rf "$fresh"
}

display=${DISPLAY:-}${WAYLAND_DISPLAY:-}${QT_QPA_PLATFORM:-}
extra=()
if [ -n "${WAYLAND_DISPLAY:-}" ] && [ -z "${DISPLAY:-}" ]; then
    extra=(qt6-wayland)
fi
"$here/setup.sh" "${extra[@]}"

if [ -z "$display" ]; then
    build release --target rillmark-desk >&2
    file=${1:-$demo}
    [ $# -gt 0 ] || make_demo
    "$root/build/release/bin/rillmark-desk" show "$file"
    printf '\nThere is no display here, so this is the summary only. The project file: %s\n' "$file"
    exit 0
fi

build release >&2
if [ $# -eq 0 ]; then
    make_demo
    set -- "$demo"
fi
exec "$root/build/release/bin/rillmark-app" "$@"
