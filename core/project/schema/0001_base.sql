-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 1 of the project file: a GeoPackage 1.3 (OGC 12-128r18) without spatial index.
-- The text of a released step never changes: files are compared with it when they are opened.
-- A CHECK is named after its column, so that a refusal can name the column. Units and titles of the columns are
-- in core/project/columns*.cpp and are written to gpkg_data_columns when a file is made.
PRAGMA application_id = 1196444487; -- "GPKG"
PRAGMA user_version = 10300;

-- ---- tables of the standard ---------------------------------------------------------------------------------------

CREATE TABLE gpkg_spatial_ref_sys (
    srs_name TEXT NOT NULL,
    srs_id INTEGER NOT NULL PRIMARY KEY,
    organization TEXT NOT NULL,
    organization_coordsys_id INTEGER NOT NULL,
    definition TEXT NOT NULL,
    description TEXT
);
INSERT INTO gpkg_spatial_ref_sys VALUES
    ('WGS 84 geodetic', 4326, 'EPSG', 4326, 'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AXIS["Latitude",NORTH],AXIS["Longitude",EAST],AUTHORITY["EPSG","4326"]]', 'longitude and latitude in degrees on the WGS 84 ellipsoid'),
    ('Undefined Cartesian', -1, 'NONE', -1, 'undefined', 'undefined Cartesian coordinate reference system'),
    ('Undefined geographic', 0, 'NONE', 0, 'undefined', 'undefined geographic coordinate reference system');

CREATE TABLE gpkg_contents (
    table_name TEXT NOT NULL PRIMARY KEY,
    data_type TEXT NOT NULL,
    identifier TEXT UNIQUE,
    description TEXT DEFAULT '',
    last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
    min_x DOUBLE,
    min_y DOUBLE,
    max_x DOUBLE,
    max_y DOUBLE,
    srs_id INTEGER,
    CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id)
);

CREATE TABLE gpkg_geometry_columns (
    table_name TEXT NOT NULL,
    column_name TEXT NOT NULL,
    geometry_type_name TEXT NOT NULL,
    srs_id INTEGER NOT NULL,
    z TINYINT NOT NULL,
    m TINYINT NOT NULL,
    CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
    CONSTRAINT uk_gc_table_name UNIQUE (table_name),
    CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
    CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id)
);

CREATE TABLE gpkg_extensions (
    table_name TEXT,
    column_name TEXT,
    extension_name TEXT NOT NULL,
    definition TEXT NOT NULL,
    scope TEXT NOT NULL,
    CONSTRAINT ge_tce UNIQUE (table_name, column_name, extension_name)
);

-- Schema extension: title and unit of every column.
CREATE TABLE gpkg_data_columns (
    table_name TEXT NOT NULL,
    column_name TEXT NOT NULL,
    name TEXT,
    title TEXT,
    description TEXT,
    mime_type TEXT,
    constraint_name TEXT,
    CONSTRAINT pk_gdc PRIMARY KEY (table_name, column_name),
    CONSTRAINT gdc_tn UNIQUE (table_name, name)
);
CREATE TABLE gpkg_data_column_constraints (
    constraint_name TEXT NOT NULL,
    constraint_type TEXT NOT NULL,
    value TEXT,
    min NUMERIC,
    min_is_inclusive BOOLEAN,
    max NUMERIC,
    max_is_inclusive BOOLEAN,
    description TEXT,
    CONSTRAINT gdcc_ntv UNIQUE (constraint_name, constraint_type, value)
);

-- Related Tables extension (OGC 18-000): the photos of a station.
CREATE TABLE gpkgext_relations (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    base_table_name TEXT NOT NULL,
    base_primary_column TEXT NOT NULL DEFAULT 'id',
    related_table_name TEXT NOT NULL,
    related_primary_column TEXT NOT NULL DEFAULT 'id',
    relation_name TEXT NOT NULL,
    mapping_table_name TEXT NOT NULL UNIQUE
);
INSERT INTO gpkg_extensions VALUES
    ('gpkg_data_columns', NULL, 'gpkg_schema', 'http://www.geopackage.org/spec130/#extension_schema', 'read-write'),
    ('gpkg_data_column_constraints', NULL, 'gpkg_schema', 'http://www.geopackage.org/spec130/#extension_schema', 'read-write'),
    ('gpkgext_relations', NULL, 'related_tables', 'http://www.opengis.net/doc/IS/gpkg-rte/1.0', 'read-write'),
    ('station_photo', NULL, 'related_tables', 'http://www.opengis.net/doc/IS/gpkg-rte/1.0', 'read-write');
INSERT INTO gpkgext_relations (base_table_name, base_primary_column, related_table_name, related_primary_column, relation_name, mapping_table_name)
VALUES ('station', 'id', 'photo', 'id', 'media', 'station_photo');

-- ---- items: what may change, its earlier values kept in edit_log ---------------------------------------------------

CREATE TABLE station (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    geom POINT,
    name TEXT NOT NULL CONSTRAINT name CHECK (length(name) > 0),
    kind TEXT NOT NULL CONSTRAINT kind CHECK (length(kind) > 0),
    note TEXT NOT NULL,
    longitude_deg DOUBLE CONSTRAINT longitude_deg CHECK (longitude_deg BETWEEN -180 AND 180),
    latitude_deg DOUBLE CONSTRAINT latitude_deg CHECK (latitude_deg BETWEEN -90 AND 90),
    route_order INTEGER CONSTRAINT route_order CHECK (route_order BETWEEN -1000000 AND 1000000),
    created_at DATETIME NOT NULL CONSTRAINT created_at CHECK (created_at GLOB '????-??-??T??:??:??.???Z' AND julianday(created_at) IS NOT NULL),
    booked_order INTEGER NOT NULL,
    CONSTRAINT longitude_deg CHECK ((longitude_deg IS NULL) = (latitude_deg IS NULL))
);

CREATE TABLE meter (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    name TEXT NOT NULL CONSTRAINT name CHECK (length(name) > 0),
    slope_m DOUBLE NOT NULL CONSTRAINT slope_m CHECK (slope_m BETWEEN 0 AND 10),
    intercept_ms DOUBLE NOT NULL CONSTRAINT intercept_ms CHECK (intercept_ms BETWEEN -1 AND 1),
    limit_rev_s DOUBLE CONSTRAINT limit_rev_s CHECK (limit_rev_s BETWEEN 0 AND 1000),
    upper_slope_m DOUBLE CONSTRAINT upper_slope_m CHECK (upper_slope_m BETWEEN 0 AND 10),
    upper_intercept_ms DOUBLE CONSTRAINT upper_intercept_ms CHECK (upper_intercept_ms BETWEEN -1 AND 1),
    individual_rating BOOLEAN NOT NULL CONSTRAINT individual_rating CHECK (individual_rating IN (0, 1)),
    created_at DATETIME NOT NULL CONSTRAINT created_at CHECK (created_at GLOB '????-??-??T??:??:??.???Z' AND julianday(created_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE flow_test (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    method TEXT NOT NULL CONSTRAINT method CHECK (length(method) > 0),
    name TEXT NOT NULL CONSTRAINT name CHECK (length(name) > 0),
    note TEXT NOT NULL,
    station_id INTEGER REFERENCES station(id),
    meter_id INTEGER REFERENCES meter(id),
    stage_m DOUBLE CONSTRAINT stage_m CHECK (stage_m BETWEEN -50 AND 50),
    volume_uncertainty DOUBLE CONSTRAINT volume_uncertainty CHECK (volume_uncertainty BETWEEN 0 AND 1),
    counts BOOLEAN NOT NULL CONSTRAINT counts CHECK (counts IN (0, 1)),
    created_at DATETIME NOT NULL CONSTRAINT created_at CHECK (created_at GLOB '????-??-??T??:??:??.???Z' AND julianday(created_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE level_book (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    name TEXT NOT NULL CONSTRAINT name CHECK (length(name) > 0),
    instrument TEXT NOT NULL,
    observer TEXT NOT NULL,
    staff_uncertainty_m DOUBLE CONSTRAINT staff_uncertainty_m CHECK (staff_uncertainty_m > 0 AND staff_uncertainty_m <= 1),
    allowance TEXT NOT NULL,
    length_m DOUBLE CONSTRAINT length_m CHECK (length_m BETWEEN 0 AND 1000000),
    created_at DATETIME NOT NULL CONSTRAINT created_at CHECK (created_at GLOB '????-??-??T??:??:??.???Z' AND julianday(created_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE alternative (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    name TEXT NOT NULL CONSTRAINT name CHECK (length(name) > 0),
    note TEXT NOT NULL,
    intake_id INTEGER REFERENCES station(id),
    powerhouse_id INTEGER REFERENCES station(id),
    house_id INTEGER REFERENCES station(id),
    design_flow_m3s DOUBLE CONSTRAINT design_flow_m3s CHECK (design_flow_m3s BETWEEN 0 AND 1000),
    pipe_id TEXT NOT NULL,
    pipe_length_m DOUBLE CONSTRAINT pipe_length_m CHECK (pipe_length_m BETWEEN 0 AND 100000),
    minor_k DOUBLE CONSTRAINT minor_k CHECK (minor_k BETWEEN 0 AND 1000),
    turbine_efficiency DOUBLE CONSTRAINT turbine_efficiency CHECK (turbine_efficiency BETWEEN 0 AND 1),
    turbine_efficiency_u DOUBLE CONSTRAINT turbine_efficiency_u CHECK (turbine_efficiency_u BETWEEN 0 AND 1),
    generator_efficiency DOUBLE CONSTRAINT generator_efficiency CHECK (generator_efficiency BETWEEN 0 AND 1),
    generator_efficiency_u DOUBLE CONSTRAINT generator_efficiency_u CHECK (generator_efficiency_u BETWEEN 0 AND 1),
    cable_id TEXT NOT NULL,
    cable_system TEXT NOT NULL CONSTRAINT cable_system CHECK (cable_system IN ('', 'dc', 'single-phase', 'three-phase')),
    cable_length_m DOUBLE CONSTRAINT cable_length_m CHECK (cable_length_m BETWEEN 0 AND 100000),
    voltage_V DOUBLE CONSTRAINT voltage_V CHECK (voltage_V > 0 AND voltage_V <= 100000),
    power_factor DOUBLE CONSTRAINT power_factor CHECK (power_factor > 0 AND power_factor <= 1),
    created_at DATETIME NOT NULL CONSTRAINT created_at CHECK (created_at GLOB '????-??-??T??:??:??.???Z' AND julianday(created_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE site (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    name TEXT NOT NULL CONSTRAINT name CHECK (length(name) > 0),
    owner TEXT NOT NULL,
    note TEXT NOT NULL,
    water_temperature_C DOUBLE CONSTRAINT water_temperature_C CHECK (water_temperature_C BETWEEN -5 AND 60),
    flow_choice TEXT NOT NULL CONSTRAINT flow_choice CHECK (flow_choice IN ('lowest-visit', 'weighted-mean', 'chosen-test')),
    flow_test_id INTEGER REFERENCES flow_test(id),
    alternative_id INTEGER REFERENCES alternative(id),
    created_at DATETIME NOT NULL CONSTRAINT created_at CHECK (created_at GLOB '????-??-??T??:??:??.???Z' AND julianday(created_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

-- ---- observations: inserted, never changed, never deleted ---------------------------------------------------------

CREATE TABLE occupation (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    station_id INTEGER NOT NULL REFERENCES station(id),
    longitude_deg DOUBLE NOT NULL CONSTRAINT longitude_deg CHECK (longitude_deg BETWEEN -180 AND 180),
    latitude_deg DOUBLE NOT NULL CONSTRAINT latitude_deg CHECK (latitude_deg BETWEEN -90 AND 90),
    height_ellipsoid_m DOUBLE CONSTRAINT height_ellipsoid_m CHECK (height_ellipsoid_m BETWEEN -1000 AND 10000),
    height_msl_m DOUBLE CONSTRAINT height_msl_m CHECK (height_msl_m BETWEEN -1000 AND 10000),
    u_east_m DOUBLE NOT NULL CONSTRAINT u_east_m CHECK (u_east_m BETWEEN 0 AND 100000),
    u_north_m DOUBLE NOT NULL CONSTRAINT u_north_m CHECK (u_north_m BETWEEN 0 AND 100000),
    u_up_m DOUBLE CONSTRAINT u_up_m CHECK (u_up_m BETWEEN 0 AND 100000),
    scatter_east_m DOUBLE CONSTRAINT scatter_east_m CHECK (scatter_east_m BETWEEN 0 AND 100000),
    scatter_north_m DOUBLE CONSTRAINT scatter_north_m CHECK (scatter_north_m BETWEEN 0 AND 100000),
    scatter_up_m DOUBLE CONSTRAINT scatter_up_m CHECK (scatter_up_m BETWEEN 0 AND 100000),
    fixes INTEGER NOT NULL CONSTRAINT fixes CHECK (fixes BETWEEN 0 AND 100000000),
    seconds DOUBLE NOT NULL CONSTRAINT seconds CHECK (seconds BETWEEN 0 AND 10000000),
    quality TEXT NOT NULL,
    source TEXT NOT NULL,
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE fix (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    geom POINT,
    occupation_id INTEGER REFERENCES occupation(id),
    longitude_deg DOUBLE NOT NULL CONSTRAINT longitude_deg CHECK (longitude_deg BETWEEN -180 AND 180),
    latitude_deg DOUBLE NOT NULL CONSTRAINT latitude_deg CHECK (latitude_deg BETWEEN -90 AND 90),
    height_ellipsoid_m DOUBLE CONSTRAINT height_ellipsoid_m CHECK (height_ellipsoid_m BETWEEN -1000 AND 10000),
    height_msl_m DOUBLE CONSTRAINT height_msl_m CHECK (height_msl_m BETWEEN -1000 AND 10000),
    geoid_separation_m DOUBLE CONSTRAINT geoid_separation_m CHECK (geoid_separation_m BETWEEN -200 AND 200),
    u_east_m DOUBLE CONSTRAINT u_east_m CHECK (u_east_m BETWEEN 0 AND 100000),
    u_north_m DOUBLE CONSTRAINT u_north_m CHECK (u_north_m BETWEEN 0 AND 100000),
    u_up_m DOUBLE CONSTRAINT u_up_m CHECK (u_up_m BETWEEN 0 AND 100000),
    hdop DOUBLE CONSTRAINT hdop CHECK (hdop BETWEEN 0 AND 1000),
    satellites INTEGER CONSTRAINT satellites CHECK (satellites BETWEEN 0 AND 1000),
    quality TEXT NOT NULL,
    source TEXT NOT NULL,
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE level_sight (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    book_id INTEGER NOT NULL REFERENCES level_book(id),
    position INTEGER NOT NULL CONSTRAINT position CHECK (position BETWEEN 0 AND 1000000),
    kind TEXT NOT NULL CONSTRAINT kind CHECK (kind IN ('backsight', 'intermediate', 'foresight')),
    station_id INTEGER REFERENCES station(id),
    point TEXT NOT NULL,
    reading_m DOUBLE NOT NULL CONSTRAINT reading_m CHECK (reading_m BETWEEN -10 AND 10),
    distance_m DOUBLE CONSTRAINT distance_m CHECK (distance_m BETWEEN 0 AND 1000),
    typed TEXT NOT NULL,
    remark TEXT NOT NULL,
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE container_fill (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    test_id INTEGER NOT NULL REFERENCES flow_test(id),
    volume_m3 DOUBLE NOT NULL CONSTRAINT volume_m3 CHECK (volume_m3 > 0 AND volume_m3 <= 1000),
    time_s DOUBLE NOT NULL CONSTRAINT time_s CHECK (time_s > 0 AND time_s <= 86400),
    typed TEXT NOT NULL,
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE gauging_vertical (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    test_id INTEGER NOT NULL REFERENCES flow_test(id),
    distance_m DOUBLE NOT NULL CONSTRAINT distance_m CHECK (distance_m BETWEEN -1000 AND 5000),
    depth_m DOUBLE NOT NULL CONSTRAINT depth_m CHECK (depth_m BETWEEN 0 AND 50),
    edge TEXT NOT NULL CONSTRAINT edge CHECK (edge IN ('', 'water-edge', 'vertical-bank')),
    angle_deg DOUBLE CONSTRAINT angle_deg CHECK (angle_deg BETWEEN -90 AND 90),
    typed TEXT NOT NULL,
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE gauging_velocity (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    vertical_id INTEGER NOT NULL REFERENCES gauging_vertical(id),
    depth_fraction DOUBLE NOT NULL CONSTRAINT depth_fraction CHECK (depth_fraction BETWEEN 0 AND 1),
    revolutions DOUBLE CONSTRAINT revolutions CHECK (revolutions BETWEEN 0 AND 1000000),
    time_s DOUBLE CONSTRAINT time_s CHECK (time_s > 0 AND time_s <= 86400),
    velocity_ms DOUBLE CONSTRAINT velocity_ms CHECK (velocity_ms BETWEEN -20 AND 20),
    typed TEXT NOT NULL,
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE note (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    station_id INTEGER REFERENCES station(id),
    text TEXT NOT NULL CONSTRAINT text CHECK (length(text) > 0),
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE photo (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    title TEXT NOT NULL,
    content_type TEXT NOT NULL CONSTRAINT content_type CHECK (length(content_type) > 0),
    longitude_deg DOUBLE CONSTRAINT longitude_deg CHECK (longitude_deg BETWEEN -180 AND 180),
    latitude_deg DOUBLE CONSTRAINT latitude_deg CHECK (latitude_deg BETWEEN -90 AND 90),
    direction_deg DOUBLE CONSTRAINT direction_deg CHECK (direction_deg BETWEEN 0 AND 360),
    source TEXT NOT NULL,
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    data BLOB NOT NULL CONSTRAINT data CHECK (typeof(data) = 'blob' AND length(data) > 0),
    thumbnail BLOB,
    booked_order INTEGER NOT NULL
);

CREATE TABLE strike_out (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    struck_table TEXT NOT NULL CONSTRAINT struck_table CHECK (length(struck_table) > 0),
    struck_id INTEGER NOT NULL CONSTRAINT struck_id CHECK (struck_id BETWEEN 1 AND 4503599627370495),
    reason TEXT NOT NULL CONSTRAINT reason CHECK (length(reason) > 0),
    restores BOOLEAN NOT NULL CONSTRAINT restores CHECK (restores IN (0, 1)),
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE INDEX strike_out_by_row ON strike_out (struck_table, struck_id);

-- Mapping table of the relation station - photo.
CREATE TABLE station_photo (
    base_id INTEGER NOT NULL REFERENCES station(id),
    related_id INTEGER NOT NULL REFERENCES photo(id),
    UNIQUE (base_id, related_id)
);

-- ---- history ------------------------------------------------------------------------------------------------------

-- One row for each booking, strike-out and changed column, in the same transaction as the deed. `sequence` counts up
-- within a file; rows that belong to one deed of the user share `action_id`; an undoing names the action it undoes.
CREATE TABLE edit_log (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    sequence INTEGER NOT NULL,
    action_id INTEGER NOT NULL,
    undoes INTEGER,
    at DATETIME NOT NULL CONSTRAINT at CHECK (at GLOB '????-??-??T??:??:??.???Z' AND julianday(at) IS NOT NULL),
    device TEXT NOT NULL,
    verb TEXT NOT NULL CONSTRAINT verb CHECK (verb IN ('booked', 'changed', 'struck', 'restored')),
    table_name TEXT NOT NULL,
    row_id INTEGER NOT NULL,
    column_name TEXT,
    before TEXT,
    after TEXT
);
CREATE INDEX edit_log_by_sequence ON edit_log (sequence);
CREATE INDEX edit_log_by_undone ON edit_log (undoes) WHERE undoes IS NOT NULL;

-- The version of this schema, one row for each step taken; the highest holds. (user_version is the GeoPackage's.)
CREATE TABLE schema_version (
    version INTEGER PRIMARY KEY NOT NULL,
    applied_at DATETIME NOT NULL CONSTRAINT applied_at CHECK (applied_at GLOB '????-??-??T??:??:??.???Z' AND julianday(applied_at) IS NOT NULL)
);

-- ---- guards -------------------------------------------------------------------------------------------------------
-- INSERT OR REPLACE deletes without firing delete triggers, hence the guard on insert as well.

CREATE TRIGGER occupation_inserted_once BEFORE INSERT ON occupation WHEN EXISTS (SELECT 1 FROM occupation WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'occupation: a row is never replaced'); END;
CREATE TRIGGER occupation_never_changed BEFORE UPDATE ON occupation
BEGIN SELECT RAISE(ABORT, 'occupation: a row is never changed'); END;
CREATE TRIGGER occupation_never_deleted BEFORE DELETE ON occupation
BEGIN SELECT RAISE(ABORT, 'occupation: a row is never deleted'); END;

CREATE TRIGGER fix_inserted_once BEFORE INSERT ON fix WHEN EXISTS (SELECT 1 FROM fix WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'fix: a row is never replaced'); END;
CREATE TRIGGER fix_never_changed BEFORE UPDATE ON fix
BEGIN SELECT RAISE(ABORT, 'fix: a row is never changed'); END;
CREATE TRIGGER fix_never_deleted BEFORE DELETE ON fix
BEGIN SELECT RAISE(ABORT, 'fix: a row is never deleted'); END;

CREATE TRIGGER level_sight_inserted_once BEFORE INSERT ON level_sight WHEN EXISTS (SELECT 1 FROM level_sight WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'level_sight: a row is never replaced'); END;
CREATE TRIGGER level_sight_never_changed BEFORE UPDATE ON level_sight
BEGIN SELECT RAISE(ABORT, 'level_sight: a row is never changed'); END;
CREATE TRIGGER level_sight_never_deleted BEFORE DELETE ON level_sight
BEGIN SELECT RAISE(ABORT, 'level_sight: a row is never deleted'); END;

CREATE TRIGGER container_fill_inserted_once BEFORE INSERT ON container_fill WHEN EXISTS (SELECT 1 FROM container_fill WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'container_fill: a row is never replaced'); END;
CREATE TRIGGER container_fill_never_changed BEFORE UPDATE ON container_fill
BEGIN SELECT RAISE(ABORT, 'container_fill: a row is never changed'); END;
CREATE TRIGGER container_fill_never_deleted BEFORE DELETE ON container_fill
BEGIN SELECT RAISE(ABORT, 'container_fill: a row is never deleted'); END;

CREATE TRIGGER gauging_vertical_inserted_once BEFORE INSERT ON gauging_vertical WHEN EXISTS (SELECT 1 FROM gauging_vertical WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'gauging_vertical: a row is never replaced'); END;
CREATE TRIGGER gauging_vertical_never_changed BEFORE UPDATE ON gauging_vertical
BEGIN SELECT RAISE(ABORT, 'gauging_vertical: a row is never changed'); END;
CREATE TRIGGER gauging_vertical_never_deleted BEFORE DELETE ON gauging_vertical
BEGIN SELECT RAISE(ABORT, 'gauging_vertical: a row is never deleted'); END;

CREATE TRIGGER gauging_velocity_inserted_once BEFORE INSERT ON gauging_velocity WHEN EXISTS (SELECT 1 FROM gauging_velocity WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'gauging_velocity: a row is never replaced'); END;
CREATE TRIGGER gauging_velocity_never_changed BEFORE UPDATE ON gauging_velocity
BEGIN SELECT RAISE(ABORT, 'gauging_velocity: a row is never changed'); END;
CREATE TRIGGER gauging_velocity_never_deleted BEFORE DELETE ON gauging_velocity
BEGIN SELECT RAISE(ABORT, 'gauging_velocity: a row is never deleted'); END;

CREATE TRIGGER note_inserted_once BEFORE INSERT ON note WHEN EXISTS (SELECT 1 FROM note WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'note: a row is never replaced'); END;
CREATE TRIGGER note_never_changed BEFORE UPDATE ON note
BEGIN SELECT RAISE(ABORT, 'note: a row is never changed'); END;
CREATE TRIGGER note_never_deleted BEFORE DELETE ON note
BEGIN SELECT RAISE(ABORT, 'note: a row is never deleted'); END;

CREATE TRIGGER photo_inserted_once BEFORE INSERT ON photo WHEN EXISTS (SELECT 1 FROM photo WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'photo: a row is never replaced'); END;
CREATE TRIGGER photo_never_changed BEFORE UPDATE ON photo
BEGIN SELECT RAISE(ABORT, 'photo: a row is never changed'); END;
CREATE TRIGGER photo_never_deleted BEFORE DELETE ON photo
BEGIN SELECT RAISE(ABORT, 'photo: a row is never deleted'); END;

CREATE TRIGGER strike_out_inserted_once BEFORE INSERT ON strike_out WHEN EXISTS (SELECT 1 FROM strike_out WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'strike_out: a row is never replaced'); END;
CREATE TRIGGER strike_out_never_changed BEFORE UPDATE ON strike_out
BEGIN SELECT RAISE(ABORT, 'strike_out: a row is never changed'); END;
CREATE TRIGGER strike_out_never_deleted BEFORE DELETE ON strike_out
BEGIN SELECT RAISE(ABORT, 'strike_out: a row is never deleted'); END;

CREATE TRIGGER edit_log_inserted_once BEFORE INSERT ON edit_log WHEN EXISTS (SELECT 1 FROM edit_log WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'edit_log: a row is never replaced'); END;
CREATE TRIGGER edit_log_never_changed BEFORE UPDATE ON edit_log
BEGIN SELECT RAISE(ABORT, 'edit_log: a row is never changed'); END;
CREATE TRIGGER edit_log_never_deleted BEFORE DELETE ON edit_log
BEGIN SELECT RAISE(ABORT, 'edit_log: a row is never deleted'); END;

CREATE TRIGGER station_photo_never_changed BEFORE UPDATE ON station_photo
BEGIN SELECT RAISE(ABORT, 'station_photo: a row is never changed'); END;
CREATE TRIGGER station_photo_never_deleted BEFORE DELETE ON station_photo
BEGIN SELECT RAISE(ABORT, 'station_photo: a row is never deleted'); END;

CREATE TRIGGER station_inserted_once BEFORE INSERT ON station WHEN EXISTS (SELECT 1 FROM station WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'station: a row is never replaced'); END;
CREATE TRIGGER station_key_kept BEFORE UPDATE OF id, booked_order ON station WHEN NEW.id <> OLD.id OR NEW.booked_order <> OLD.booked_order
BEGIN SELECT RAISE(ABORT, 'station: the key of a row is never changed'); END;
CREATE TRIGGER station_never_deleted BEFORE DELETE ON station
BEGIN SELECT RAISE(ABORT, 'station: a row is never deleted'); END;

CREATE TRIGGER meter_inserted_once BEFORE INSERT ON meter WHEN EXISTS (SELECT 1 FROM meter WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'meter: a row is never replaced'); END;
CREATE TRIGGER meter_key_kept BEFORE UPDATE OF id, booked_order ON meter WHEN NEW.id <> OLD.id OR NEW.booked_order <> OLD.booked_order
BEGIN SELECT RAISE(ABORT, 'meter: the key of a row is never changed'); END;
CREATE TRIGGER meter_never_deleted BEFORE DELETE ON meter
BEGIN SELECT RAISE(ABORT, 'meter: a row is never deleted'); END;

CREATE TRIGGER flow_test_inserted_once BEFORE INSERT ON flow_test WHEN EXISTS (SELECT 1 FROM flow_test WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'flow_test: a row is never replaced'); END;
CREATE TRIGGER flow_test_key_kept BEFORE UPDATE OF id, booked_order ON flow_test WHEN NEW.id <> OLD.id OR NEW.booked_order <> OLD.booked_order
BEGIN SELECT RAISE(ABORT, 'flow_test: the key of a row is never changed'); END;
CREATE TRIGGER flow_test_never_deleted BEFORE DELETE ON flow_test
BEGIN SELECT RAISE(ABORT, 'flow_test: a row is never deleted'); END;

CREATE TRIGGER level_book_inserted_once BEFORE INSERT ON level_book WHEN EXISTS (SELECT 1 FROM level_book WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'level_book: a row is never replaced'); END;
CREATE TRIGGER level_book_key_kept BEFORE UPDATE OF id, booked_order ON level_book WHEN NEW.id <> OLD.id OR NEW.booked_order <> OLD.booked_order
BEGIN SELECT RAISE(ABORT, 'level_book: the key of a row is never changed'); END;
CREATE TRIGGER level_book_never_deleted BEFORE DELETE ON level_book
BEGIN SELECT RAISE(ABORT, 'level_book: a row is never deleted'); END;

CREATE TRIGGER alternative_inserted_once BEFORE INSERT ON alternative WHEN EXISTS (SELECT 1 FROM alternative WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'alternative: a row is never replaced'); END;
CREATE TRIGGER alternative_key_kept BEFORE UPDATE OF id, booked_order ON alternative WHEN NEW.id <> OLD.id OR NEW.booked_order <> OLD.booked_order
BEGIN SELECT RAISE(ABORT, 'alternative: the key of a row is never changed'); END;
CREATE TRIGGER alternative_never_deleted BEFORE DELETE ON alternative
BEGIN SELECT RAISE(ABORT, 'alternative: a row is never deleted'); END;

CREATE TRIGGER site_inserted_once BEFORE INSERT ON site WHEN EXISTS (SELECT 1 FROM site WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'site: a row is never replaced'); END;
CREATE TRIGGER site_key_kept BEFORE UPDATE OF id, booked_order ON site WHEN NEW.id <> OLD.id OR NEW.booked_order <> OLD.booked_order
BEGIN SELECT RAISE(ABORT, 'site: the key of a row is never changed'); END;
CREATE TRIGGER site_never_deleted BEFORE DELETE ON site
BEGIN SELECT RAISE(ABORT, 'site: a row is never deleted'); END;

-- ---- registration -------------------------------------------------------------------------------------------------

INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) VALUES
    ('site', 'attributes', 'site', 'The surveyed site', NULL),
    ('station', 'features', 'station', 'Named places at the creek', 4326),
    ('level_book', 'attributes', 'level_book', 'Level books', NULL),
    ('meter', 'attributes', 'meter', 'Current meters and their ratings', NULL),
    ('flow_test', 'attributes', 'flow_test', 'Flow tests', NULL),
    ('alternative', 'attributes', 'alternative', 'Ways to build the plant', NULL),
    ('occupation', 'attributes', 'occupation', 'Averaged positions, one for each stay at a station', NULL),
    ('fix', 'features', 'fix', 'Fixes of the receiver as they came', 4326),
    ('level_sight', 'attributes', 'level_sight', 'Staff readings of the level books', NULL),
    ('container_fill', 'attributes', 'container_fill', 'Fills of the container tests', NULL),
    ('gauging_vertical', 'attributes', 'gauging_vertical', 'Verticals of the gaugings', NULL),
    ('gauging_velocity', 'attributes', 'gauging_velocity', 'Velocities in the verticals of the gaugings', NULL),
    ('note', 'attributes', 'note', 'Remarks made at a place', NULL),
    ('photo', 'attributes', 'photo', 'Photos with the place and direction they were taken from', NULL),
    ('strike_out', 'attributes', 'strike_out', 'Rows that no longer count, and why', NULL),
    ('edit_log', 'attributes', 'edit_log', 'What was done, when and by which device', NULL),
    ('schema_version', 'attributes', 'schema_version', 'Versions that this file has gone through', NULL);
INSERT INTO gpkg_geometry_columns VALUES
    ('station', 'geom', 'POINT', 4326, 0, 0),
    ('fix', 'geom', 'POINT', 4326, 0, 0);
