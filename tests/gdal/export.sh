#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# export.sh RILLMARK_DESK SITE: GDAL reads every export back and finds the values of the site, read by GDAL as well.
# Works on a copy of the site. Exit status 77: GDAL's tools are not installed.
set -u
desk=$1
# Debian's python3: its standard library is all that compare_export.py needs
python=/usr/bin/python3
here=$(cd "$(dirname "$0")" && pwd)
command -v ogr2ogr >/dev/null && command -v $python >/dev/null || {
    echo "GDAL's tools are not installed"
    exit 77
}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp "$2" "$work/site.gpkg" || exit 1
cd "$work" || exit 1

set -e
sum=$(cksum <site.gpkg)
for format in geojson gpx kml dxf; do "$desk" export $format site.gpkg --to out.$format >/dev/null; done
"$desk" export dxf site.gpkg --to utm.dxf --utm >/dev/null
"$desk" export csv site.gpkg --to tables --utm >/dev/null
"$desk" export profile site.gpkg --to profile.csv >/dev/null
[ "$sum" = "$(cksum <site.gpkg)" ] || { echo "the site was written"; exit 1; }

json() { ogr2ogr -f GeoJSON -lco COORDINATE_PRECISION=12 "$@" 2>>warnings; }
# GDAL keeps the key of a row apart from its columns: ask for it as a column too
with_key() { echo "SELECT *, CAST(id AS TEXT) AS key FROM $1"; }
json site_station.json site.gpkg -sql "$(with_key station)"
json site_fix.json site.gpkg -sql "$(with_key fix) ORDER BY observed_at, booked_order"
json back_geojson.json out.geojson
for layer in waypoints routes tracks track_points; do json back_gpx_$layer.json out.gpx $layer; done
for layer in stations lines track; do json back_kml_$layer.json out.kml $layer; done
# no reference system is in a DXF file; -a_srs keeps GeoJSON from asking for degrees
for name in out utm utm-profile; do json -lco RFC7946=NO back_dxf_$name.json $name.dxf entities; done
# the site in the zone that the drawing names, by PROJ
zone=$(sed -n 's/^UTM \([0-9]*\)\([NS]\) WGS 84.*/\1 \2/p' utm.dxf)
case ${zone#* } in N) epsg=$((32600 + ${zone% *})) ;; S) epsg=$((32700 + ${zone% *})) ;; esac
json -lco RFC7946=NO -t_srs EPSG:$epsg site_station_utm.json site.gpkg -sql "$(with_key station)"
for table in tables/*.csv; do ogrinfo -ro -al -so "$table" >/dev/null; done
mkdir raw
for table in station occupation fix level_sight container_fill gauging_velocity; do
    ogr2ogr -f CSV raw/$table.csv site.gpkg -sql "$(with_key $table)"
done
if command -v xmllint >/dev/null; then xmllint --noout out.gpx out.kml; fi
if grep -i error warnings; then exit 1; fi
exec $python "$here/compare_export.py" "$work"
