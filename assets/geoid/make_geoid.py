#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes egm96_15.bin from the EGM96 15-minute grid in GTX form: make_geoid.py egm96_15.gtx egm96_15.bin

GTX: big-endian; south latitude, west longitude, latitude step, longitude step (float64), rows, columns (int32), then
float32 metres row by row from the south. Out: int16 centimetres, little-endian, the same order: 721 rows from 90 S to
90 N of 1440 columns from 180 W. No header: the size says it all.
"""
import array
import struct
import sys

HEADER = ">4d2i"
GRID = (-90.0, -180.0, 0.25, 0.25, 721, 1440)


def main(source: str, target: str) -> None:
    with open(source, "rb") as file:
        data = file.read()
    start = struct.calcsize(HEADER)
    header = struct.unpack(HEADER, data[:start])
    if header != GRID:
        sys.exit(f"{source}: not the 15-minute grid of the whole earth: {header}")
    metres = array.array("f", data[start:])
    if sys.byteorder == "little":
        metres.byteswap()
    centimetres = array.array("h", (round(100.0 * value) for value in metres))
    worst = max(abs(value / 100.0 - true) for value, true in zip(centimetres, metres))
    if len(centimetres) != 721 * 1440 or worst > 0.00501:
        sys.exit(f"{source}: {len(centimetres)} values, rounded by up to {worst} m")
    if sys.byteorder == "big":
        centimetres.byteswap()
    with open(target, "wb") as file:
        centimetres.tofile(file)


if __name__ == "__main__":
    main(*sys.argv[1:])
