#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# validate.sh FILE: GDAL finds no fault in a GeoPackage. Works on a copy, so that the file stays as it is.
set -u
# Debian's python3: another one earlier in PATH does not see GDAL's modules.
python=/usr/bin/python3
command -v ogrinfo >/dev/null && $python -c 'import osgeo_utils.samples.validate_gpkg' 2>/dev/null || {
    echo "GDAL's tools are not installed"
    exit 77
}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp "$1" "$work/file.gpkg" || exit 1
[ ! -e "$1-wal" ] || cp "$1-wal" "$work/file.gpkg-wal"

status=0
run() {
    "$@" >"$work/output" 2>&1 || { echo "FAILED: $*"; status=1; }
    if grep -E -i 'error|warning' "$work/output"; then status=1; fi
}
run ogrinfo -ro -so -al "$work/file.gpkg"
grep -E '^(Layer name|Geometry|Feature Count)' "$work/output"
# -so does not read the rows; this does.
run ogrinfo -ro -al -q "$work/file.gpkg" -fields=NO
run $python -m osgeo_utils.samples.validate_gpkg -k "$work/file.gpkg"
[ $status -eq 0 ] || cat "$work/output"
exit $status
