#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Start to first frame of the app on a project file, against an empty Material window: whole processes, in turn.

    start.py APP EMPTY_WINDOW FILE [RUNS]

Prints the median wall time and peak memory of both and their ratio. Both programs end at their first frame.
"""
import os
import statistics
import subprocess
import sys
import tempfile
import time


def once(words, env):
    began = time.monotonic()
    child = subprocess.Popen(words, env=env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, usage = os.wait4(child.pid, 0)
    if status != 0:
        sys.exit(f"{words[0]} ended with status {status}")
    return time.monotonic() - began, usage.ru_maxrss / 1024


def main():
    app, empty, file = sys.argv[1:4]
    runs = int(sys.argv[4]) if len(sys.argv) > 4 else 10
    with tempfile.TemporaryDirectory() as home:
        env = dict(os.environ, XDG_CONFIG_HOME=home, XDG_DATA_HOME=home, XDG_CACHE_HOME=home)
        ours, theirs = [], []
        for turn in range(runs + 1):
            a = once([app, "--first-frame", "--data-folder", home, file], env)
            b = once([empty], env)
            if turn > 0:  # the first warms the disk cache
                ours.append(a)
                theirs.append(b)
    middle = lambda rows, column: statistics.median(row[column] for row in rows)
    print(f"app          {middle(ours, 0) * 1000:7.0f} ms {middle(ours, 1):7.1f} MiB peak")
    print(f"empty window {middle(theirs, 0) * 1000:7.0f} ms {middle(theirs, 1):7.1f} MiB peak")
    print(f"ratio {middle(ours, 0) / middle(theirs, 0):.2f}, memory above {middle(ours, 1) - middle(theirs, 1):.1f} MiB")


main()
