#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs the packages of packages.txt that are missing, and those named as arguments. With nothing missing it does nothing.
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)

fail() {
    printf 'setup: %s\n' "$1" >&2
    exit 1
}

if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    fail "this is not a Debian system. Install by hand what $here/packages.txt lists, then build with CMake: see README.md."
fi

mapfile -t wanted < <(sed -e 's/#.*//' -e 's/[[:space:]]//g' -e '/^$/d' "$here/packages.txt"; printf '%s\n' "$@" | sed '/^$/d')

# Unknown names go to standard error; what counts is the list of those that are there.
present=$(dpkg-query -W -f='${Package} ${Status}\n' "${wanted[@]}" 2>/dev/null | sed -n 's/ install ok installed$//p' || true)
missing=()
for package in "${wanted[@]}"; do
    grep -qxF -- "$package" <<<"$present" || missing+=("$package")
done
[ ${#missing[@]} -gt 0 ] || exit 0

as_root=()
if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null ||
        fail "not root and no sudo here. As root, run: apt-get update && apt-get install ${missing[*]}"
    as_root=(sudo)
fi

printf 'setup: installing %d packages: %s\n' "${#missing[@]}" "${missing[*]}" >&2
log=$(mktemp)
trap 'rm -f "$log"' EXIT
# Without this, apt only warns where it cannot reach its server, and the install then fails with less to go by.
if ! "${as_root[@]}" apt-get update -q -o APT::Update::Error-Mode=any >"$log" 2>&1; then
    tail -n 8 "$log" >&2
    fail "the package server was not reached. Is there a network? Nothing was installed."
fi
if ! "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
    apt-get install -q -y --no-install-recommends "${missing[@]}" >"$log" 2>&1; then
    tail -n 15 "$log" >&2
    fail "apt could not install them: see the lines above. Rillmark is made for Debian 12 or newer."
fi
