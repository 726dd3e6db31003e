#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Runs every benchmark of a build folder (default build/dev) under a virtual screen and prints the figures.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
bin=${1:-$root/build/dev}/bin
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
"$bin/core_bench" --benchmark_repetitions=5 --benchmark_report_aggregates_only=true
"$bin/handover_bench"
"$bin/network_bench" --benchmark_repetitions=5 --benchmark_report_aggregates_only=true
"$bin/flow_bench" --benchmark_repetitions=5 --benchmark_report_aggregates_only=true
"$bin/power_bench" --benchmark_repetitions=5 --benchmark_report_aggregates_only=true
"$bin/rillmark-desk" demo "$scratch/demo.gpkg"
export XDG_CONFIG_HOME=$scratch XDG_DATA_HOME=$scratch XDG_CACHE_HOME=$scratch
xvfb-run -a -s "-screen 0 412x892x24" "$root/tests/bench/start.py" "$bin/rillmark-app" "$bin/empty_window" "$scratch/demo.gpkg"
xvfb-run -a -s "-screen 0 412x892x24" "$bin/ui_bench"
