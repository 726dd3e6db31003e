-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 2: every way to measure a fall beside the level book; three wires in the level book.
ALTER TABLE level_sight ADD COLUMN upper_m DOUBLE CONSTRAINT upper_m CHECK (upper_m BETWEEN -10 AND 10);
ALTER TABLE level_sight ADD COLUMN lower_m DOUBLE CONSTRAINT lower_m CHECK (lower_m BETWEEN -10 AND 10);
ALTER TABLE level_book ADD COLUMN stadia_factor DOUBLE CONSTRAINT stadia_factor CHECK (stadia_factor > 0 AND stadia_factor <= 1000);
ALTER TABLE alternative ADD COLUMN lower_end TEXT NOT NULL DEFAULT '' CONSTRAINT lower_end CHECK (lower_end IN ('', 'turbine-axis', 'tailwater'));
ALTER TABLE level_book ADD COLUMN share_out TEXT NOT NULL DEFAULT '' CONSTRAINT share_out CHECK (share_out IN ('', 'setup', 'distance', 'setup-anyway', 'distance-anyway'));

CREATE TABLE height_run (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    method TEXT NOT NULL CONSTRAINT method CHECK (length(method) > 0),
    name TEXT NOT NULL CONSTRAINT name CHECK (length(name) > 0),
    instrument TEXT NOT NULL,
    note TEXT NOT NULL,
    eye_height_m DOUBLE CONSTRAINT eye_height_m CHECK (eye_height_m > 0 AND eye_height_m <= 5),
    eye_height_u_m DOUBLE CONSTRAINT eye_height_u_m CHECK (eye_height_u_m BETWEEN 0 AND 1),
    angle_u_deg DOUBLE CONSTRAINT angle_u_deg CHECK (angle_u_deg > 0 AND angle_u_deg <= 45),
    index_deg DOUBLE CONSTRAINT index_deg CHECK (index_deg BETWEEN -45 AND 45),
    index_u_deg DOUBLE CONSTRAINT index_u_deg CHECK (index_u_deg BETWEEN 0 AND 45),
    reading_u_m DOUBLE CONSTRAINT reading_u_m CHECK (reading_u_m > 0 AND reading_u_m <= 10),
    distance_u DOUBLE CONSTRAINT distance_u CHECK (distance_u BETWEEN 0 AND 1),
    gauge_class DOUBLE CONSTRAINT gauge_class CHECK (gauge_class > 0 AND gauge_class <= 1),
    gauge_range_Pa DOUBLE CONSTRAINT gauge_range_Pa CHECK (gauge_range_Pa > 0 AND gauge_range_Pa <= 1e9),
    gauge_zero_Pa DOUBLE CONSTRAINT gauge_zero_Pa CHECK (gauge_zero_Pa BETWEEN -1e6 AND 1e6),
    pressure_u_Pa DOUBLE CONSTRAINT pressure_u_Pa CHECK (pressure_u_Pa > 0 AND pressure_u_Pa <= 1e6),
    station_id INTEGER REFERENCES station(id),
    created_at DATETIME NOT NULL CONSTRAINT created_at CHECK (created_at GLOB '????-??-??T??:??:??.???Z' AND julianday(created_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE height_reading (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    run_id INTEGER NOT NULL REFERENCES height_run(id),
    position INTEGER NOT NULL CONSTRAINT position CHECK (position BETWEEN 0 AND 1000000),
    role TEXT NOT NULL,
    from_id INTEGER REFERENCES station(id),
    from_point TEXT NOT NULL,
    to_id INTEGER REFERENCES station(id),
    to_point TEXT NOT NULL,
    sights INTEGER CONSTRAINT sights CHECK (sights BETWEEN 0 AND 100000),
    part_m DOUBLE CONSTRAINT part_m CHECK (part_m BETWEEN -10 AND 10),
    angle_deg DOUBLE CONSTRAINT angle_deg CHECK (angle_deg BETWEEN -90 AND 90),
    back_angle_deg DOUBLE CONSTRAINT back_angle_deg CHECK (back_angle_deg BETWEEN -90 AND 90),
    slope_distance_m DOUBLE CONSTRAINT slope_distance_m CHECK (slope_distance_m > 0 AND slope_distance_m <= 100000),
    level_distance_m DOUBLE CONSTRAINT level_distance_m CHECK (level_distance_m > 0 AND level_distance_m <= 100000),
    instrument_height_m DOUBLE CONSTRAINT instrument_height_m CHECK (instrument_height_m BETWEEN -10 AND 100),
    target_height_m DOUBLE CONSTRAINT target_height_m CHECK (target_height_m BETWEEN -10 AND 100),
    near_reading_m DOUBLE CONSTRAINT near_reading_m CHECK (near_reading_m BETWEEN -10 AND 10),
    far_reading_m DOUBLE CONSTRAINT far_reading_m CHECK (far_reading_m BETWEEN -10 AND 10),
    near_distance_m DOUBLE CONSTRAINT near_distance_m CHECK (near_distance_m >= 0 AND near_distance_m <= 10000),
    far_distance_m DOUBLE CONSTRAINT far_distance_m CHECK (far_distance_m >= 0 AND far_distance_m <= 10000),
    pressure_Pa DOUBLE CONSTRAINT pressure_Pa CHECK (pressure_Pa BETWEEN -1e6 AND 1e9),
    temperature_C DOUBLE CONSTRAINT temperature_C CHECK (temperature_C BETWEEN -60 AND 80),
    humidity DOUBLE CONSTRAINT humidity CHECK (humidity BETWEEN 0 AND 1),
    gauge_above_m DOUBLE CONSTRAINT gauge_above_m CHECK (gauge_above_m BETWEEN -10 AND 10),
    water_above_m DOUBLE CONSTRAINT water_above_m CHECK (water_above_m BETWEEN -10 AND 10),
    height_m DOUBLE CONSTRAINT height_m CHECK (height_m BETWEEN -1000 AND 10000),
    height_u_m DOUBLE CONSTRAINT height_u_m CHECK (height_u_m > 0 AND height_u_m <= 1000),
    typed TEXT NOT NULL,
    remark TEXT NOT NULL,
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TRIGGER height_run_inserted_once BEFORE INSERT ON height_run WHEN EXISTS (SELECT 1 FROM height_run WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'height_run: a row is never replaced'); END;
CREATE TRIGGER height_run_key_kept BEFORE UPDATE OF id, booked_order ON height_run WHEN NEW.id <> OLD.id OR NEW.booked_order <> OLD.booked_order
BEGIN SELECT RAISE(ABORT, 'height_run: the key of a row is never changed'); END;
CREATE TRIGGER height_run_never_deleted BEFORE DELETE ON height_run
BEGIN SELECT RAISE(ABORT, 'height_run: a row is never deleted'); END;

CREATE TRIGGER height_reading_inserted_once BEFORE INSERT ON height_reading WHEN EXISTS (SELECT 1 FROM height_reading WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'height_reading: a row is never replaced'); END;
CREATE TRIGGER height_reading_never_changed BEFORE UPDATE ON height_reading
BEGIN SELECT RAISE(ABORT, 'height_reading: a row is never changed'); END;
CREATE TRIGGER height_reading_never_deleted BEFORE DELETE ON height_reading
BEGIN SELECT RAISE(ABORT, 'height_reading: a row is never deleted'); END;

INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) VALUES
    ('height_run', 'attributes', 'height_run', 'Runs of the ways to measure a fall beside the level book', NULL),
    ('height_reading', 'attributes', 'height_reading', 'Readings of those runs', NULL);
