# SPDX-License-Identifier: GPL-3.0-or-later
"""compare_export.py FOLDER: what GDAL read of the exports against what it read of the site (see export.sh)."""
import csv
import json
import os
import sys

DEGREES = 1e-7
METRES = 1e-3
folder = sys.argv[1]
faults = []


def features(name):
    with open(os.path.join(folder, name + ".json"), encoding="utf-8") as file:
        return json.load(file)["features"]


def place(feature):
    return feature["geometry"]["coordinates"]


def near(what, found, wanted, tolerance):
    if len(found) < 2 or any(abs(f - w) > tolerance for f, w in zip(found[:2], wanted[:2])):
        faults.append(f"{what}: {found} is not {wanted}")


def same(what, found, wanted):
    if found != wanted:
        faults.append(f"{what}: {found!r} is not {wanted!r}")


def rows(*path):
    with open(os.path.join(folder, *path), encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def vertices(geometry):
    kind, coordinates = geometry["type"], geometry["coordinates"]
    return coordinates if kind == "LineString" else [point for part in coordinates for point in part]


struck = {row["id"] for row in rows("tables", "station.csv") if row["struck"] == "1"}
stations = {}
kinds = {row["id"]: row["kind"] for row in rows("tables", "station.csv")}
names = {row["id"]: row["name"] for row in rows("tables", "station.csv")}
for feature in features("site_station"):
    key = feature["properties"]["key"]
    if key not in struck and feature["geometry"]:
        stations[names[key]] = feature
same("stations to compare", len(stations) > 5, True)

# stations of each format
for name, wanted in (("back_geojson", None), ("back_gpx_waypoints", "name"), ("back_kml_stations", "Name")):
    found = {f["properties"][wanted or "name"]: f for f in features(name)
             if f["geometry"] and (wanted or f["properties"]["what"] == "station")}
    same(name, sorted(found), sorted(stations))
    for station in set(found) & set(stations):
        near(f"{name} {station}", place(found[station]), place(stations[station]), DEGREES)

# heights above mean sea level: the mean by 1/u^2 over the stays
sums = {}
for row in rows("raw", "occupation.csv"):
    if row["height_msl_m"] and row["u_up_m"]:
        weight = float(row["u_up_m"]) ** -2
        total = sums.setdefault(row["station_id"], [0.0, 0.0])
        total[0] += weight * float(row["height_msl_m"])
        total[1] += weight
above_sea = {names[key]: total[0] / total[1] for key, total in sums.items()}
same("heights above the sea to compare", len(above_sea) > 3, True)
for feature in features("back_gpx_waypoints"):
    name, found = feature["properties"]["name"], feature["properties"]["ele"]
    if (found is None) != (name not in above_sea) or (found is not None and abs(found - above_sea[name]) > METRES):
        faults.append(f"ele of {name}: {found} is not {above_sea.get(name)}")

# the track
walked = [place(f) for f in features("site_fix") if not f["properties"]["occupation_id"]]
same("fixes to compare", len(walked) > 20, True)
tracks = {"back_gpx_track_points": [place(f) for f in features("back_gpx_track_points")],
          "back_geojson": [p for f in features("back_geojson") if f["properties"]["what"] == "track" for p in place(f)],
          "back_kml_track": [p for f in features("back_kml_track") for p in vertices(f["geometry"])]}
for name, found in tracks.items():
    same(name + " length", len(found), len(walked))
    for got, want in zip(found, walked):
        near(name, got, want, DEGREES)

# plans: points on the layers of stations in the zone, against PROJ by way of GDAL
in_zone = {}
for feature in features("site_station_utm"):
    key = feature["properties"]["key"]
    if key not in struck and feature["geometry"]:
        in_zone[names[key]] = (place(feature), "STATION_" + kinds[key].upper())
drawn = [f for f in features("back_dxf_utm") if f["properties"]["Layer"].startswith("STATION_")]
same("points drawn", len(drawn), len(in_zone))
for name, (wanted, layer) in in_zone.items():
    close = [f for f in drawn if f["properties"]["Layer"].replace("-", "_") == layer.replace("-", "_") and
             all(abs(a - b) <= METRES for a, b in zip(place(f), wanted))]
    same(f"{name} in the plan", len(close) >= 1, True)
local = [place(f) for f in features("back_dxf_out") if f["properties"]["Layer"].startswith("STATION_")]
same("points drawn in local metres", len(local), len(in_zone))
for row in rows("tables", "station.csv"):
    if row["name"] in in_zone and row["id"] not in struck:
        near("east and north of " + row["name"], (float(row["east_m"]), float(row["north_m"])), in_zone[row["name"]][0], METRES)

# the profile
profile = rows("profile.csv")
points = [place(f) for f in features("back_dxf_utm-profile") if f["properties"]["Layer"] == "PROFILE_STATION"]
same("points of the profile", len(points), len(profile))
same("stations of the profile to compare", len(profile) > 2, True)
for row, point in zip(profile, points):
    near("profile " + row["station"], point, (float(row["chainage_m"]), float(row["height_m"])), METRES)
heights = {f["properties"]["name"]: f["properties"] for f in features("back_geojson") if f["properties"]["what"] == "station"}
for row in profile:
    near("height of " + row["station"], (float(row["height_m"]), float(row["height_u_m"])),
         (heights[row["station"]]["height_m"], heights[row["station"]]["height_u_m"]), METRES)

# tables: every cell that is a number or a text in both
for table in ("station", "occupation", "fix", "level_sight", "container_fill", "gauging_velocity"):
    ours, theirs = rows("tables", table + ".csv"), rows("raw", table + ".csv")
    same(table + " rows", len(ours), len(theirs))
    by_key = {row["id"]: row for row in ours}
    columns = [c for c in (theirs[0] if theirs else {}) if c in (ours[0] if ours else {}) and not c.endswith("_at")]
    same(table + " columns to compare", len(columns) > 2 or not theirs, True)
    for row in theirs:
        for column in columns:
            found, wanted = by_key[row["key"]][column], row[column]
            try:
                equal = abs(float(found) - float(wanted)) <= 1e-12 * max(1.0, abs(float(wanted)))
            except ValueError:
                equal = found == wanted
            same(f"{table} {row['key']} {column}", equal or (found, wanted), True)

for fault in faults[:40]:
    print(fault)
print(f"{len(faults)} faults, {len(stations)} stations, {len(walked)} fixes, {len(profile)} of the profile")
sys.exit(1 if faults else 0)
