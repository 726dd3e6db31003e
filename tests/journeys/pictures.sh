#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Makes pictures of every page on the demo creek: pictures.sh FOLDER [BUILD]. Needs Debian's xvfb.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
folder=$1
bin=${2:-$root/build/dev}/bin
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
"$bin/rillmark-desk" demo "$scratch/demo.gpkg" >/dev/null
xvfb-run -a -s "-screen 0 1280x900x24" env QT_QPA_PLATFORM=xcb "$bin/pictures" "$scratch/demo.gpkg" "$folder"
