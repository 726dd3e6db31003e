-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 3: every way to measure a flow, and the flow to leave in the creek.
ALTER TABLE flow_test ADD COLUMN length_m DOUBLE CONSTRAINT length_m CHECK (length_m > 0 AND length_m <= 100000);
ALTER TABLE flow_test ADD COLUMN width_m DOUBLE CONSTRAINT width_m CHECK (width_m > 0 AND width_m <= 1000);
ALTER TABLE flow_test ADD COLUMN bed TEXT NOT NULL DEFAULT '';
ALTER TABLE flow_test ADD COLUMN wind TEXT NOT NULL DEFAULT '';
ALTER TABLE flow_test ADD COLUMN water_surface TEXT NOT NULL DEFAULT '';
ALTER TABLE flow_test ADD COLUMN coefficient DOUBLE CONSTRAINT coefficient CHECK (coefficient > 0 AND coefficient <= 2);
ALTER TABLE flow_test ADD COLUMN shape TEXT NOT NULL DEFAULT '';
ALTER TABLE flow_test ADD COLUMN notch_angle_deg DOUBLE CONSTRAINT notch_angle_deg CHECK (notch_angle_deg > 0 AND notch_angle_deg < 180);
ALTER TABLE flow_test ADD COLUMN crest_length_m DOUBLE CONSTRAINT crest_length_m CHECK (crest_length_m > 0 AND crest_length_m <= 1000);
ALTER TABLE flow_test ADD COLUMN crest_height_m DOUBLE CONSTRAINT crest_height_m CHECK (crest_height_m > 0 AND crest_height_m <= 1000);
ALTER TABLE flow_test ADD COLUMN gauge_distance_m DOUBLE CONSTRAINT gauge_distance_m CHECK (gauge_distance_m >= 0 AND gauge_distance_m <= 1000);
ALTER TABLE flow_test ADD COLUMN gauge_zero_m DOUBLE CONSTRAINT gauge_zero_m CHECK (gauge_zero_m BETWEEN -100 AND 100);
ALTER TABLE flow_test ADD COLUMN tailwater_m DOUBLE CONSTRAINT tailwater_m CHECK (tailwater_m BETWEEN -100 AND 100);
ALTER TABLE flow_test ADD COLUMN flume_size TEXT NOT NULL DEFAULT '';
ALTER TABLE flow_test ADD COLUMN salt_mass_kg DOUBLE CONSTRAINT salt_mass_kg CHECK (salt_mass_kg > 0 AND salt_mass_kg <= 100000);
ALTER TABLE flow_test ADD COLUMN solution_m3 DOUBLE CONSTRAINT solution_m3 CHECK (solution_m3 > 0 AND solution_m3 <= 1000);
ALTER TABLE flow_test ADD COLUMN solution_kgm3 DOUBLE CONSTRAINT solution_kgm3 CHECK (solution_kgm3 > 0 AND solution_kgm3 <= 400);
ALTER TABLE flow_test ADD COLUMN injection_m3s DOUBLE CONSTRAINT injection_m3s CHECK (injection_m3s > 0 AND injection_m3s <= 100);
ALTER TABLE flow_test ADD COLUMN tracer_kgm3 DOUBLE CONSTRAINT tracer_kgm3 CHECK (tracer_kgm3 > 0 AND tracer_kgm3 <= 2000);
ALTER TABLE flow_test ADD COLUMN sample_m3 DOUBLE CONSTRAINT sample_m3 CHECK (sample_m3 > 0 AND sample_m3 <= 10);
ALTER TABLE flow_test ADD COLUMN standard_kgm3 DOUBLE CONSTRAINT standard_kgm3 CHECK (standard_kgm3 > 0 AND standard_kgm3 <= 400);
ALTER TABLE flow_test ADD COLUMN factor DOUBLE CONSTRAINT factor CHECK (factor > 0 AND factor <= 10000);
ALTER TABLE flow_test ADD COLUMN factor_u DOUBLE CONSTRAINT factor_u CHECK (factor_u >= 0 AND factor_u <= 10000);
ALTER TABLE flow_test ADD COLUMN temperature_rule TEXT NOT NULL DEFAULT '';
ALTER TABLE flow_test ADD COLUMN trace_from_s DOUBLE CONSTRAINT trace_from_s CHECK (trace_from_s BETWEEN -1e9 AND 1e9);
ALTER TABLE flow_test ADD COLUMN trace_to_s DOUBLE CONSTRAINT trace_to_s CHECK (trace_to_s BETWEEN -1e9 AND 1e9);
ALTER TABLE flow_test ADD COLUMN manning_n DOUBLE CONSTRAINT manning_n CHECK (manning_n > 0 AND manning_n <= 1);
ALTER TABLE flow_test ADD COLUMN manning_n_u DOUBLE CONSTRAINT manning_n_u CHECK (manning_n_u >= 0 AND manning_n_u <= 1);

ALTER TABLE site ADD COLUMN leave_rule TEXT NOT NULL DEFAULT '' CONSTRAINT leave_rule CHECK (leave_rule IN ('', 'fixed', 'share-of-flow'));
ALTER TABLE site ADD COLUMN leave_m3s DOUBLE CONSTRAINT leave_m3s CHECK (leave_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_share DOUBLE CONSTRAINT leave_share CHECK (leave_share BETWEEN 0 AND 1);

CREATE TABLE flow_reading (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    test_id INTEGER NOT NULL REFERENCES flow_test(id),
    position INTEGER NOT NULL CONSTRAINT position CHECK (position BETWEEN 0 AND 10000000),
    role TEXT NOT NULL CONSTRAINT role CHECK (length(role) > 0),
    part INTEGER NOT NULL CONSTRAINT part CHECK (part BETWEEN 0 AND 100000),
    distance_m DOUBLE CONSTRAINT distance_m CHECK (distance_m BETWEEN -100000 AND 100000),
    depth_m DOUBLE CONSTRAINT depth_m CHECK (depth_m BETWEEN 0 AND 100),
    time_s DOUBLE CONSTRAINT time_s CHECK (time_s BETWEEN -1e9 AND 1e9),
    length_m DOUBLE CONSTRAINT length_m CHECK (length_m BETWEEN -100000 AND 100000),
    head_m DOUBLE CONSTRAINT head_m CHECK (head_m BETWEEN -100 AND 100),
    height_m DOUBLE CONSTRAINT height_m CHECK (height_m BETWEEN -1000 AND 10000),
    conductivity_Sm DOUBLE CONSTRAINT conductivity_Sm CHECK (conductivity_Sm BETWEEN -1 AND 1000),
    temperature_C DOUBLE CONSTRAINT temperature_C CHECK (temperature_C BETWEEN -10 AND 80),
    volume_m3 DOUBLE CONSTRAINT volume_m3 CHECK (volume_m3 BETWEEN 0 AND 10),
    typed TEXT NOT NULL,
    remark TEXT NOT NULL,
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TRIGGER flow_reading_inserted_once BEFORE INSERT ON flow_reading WHEN EXISTS (SELECT 1 FROM flow_reading WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'flow_reading: a row is never replaced'); END;
CREATE TRIGGER flow_reading_never_changed BEFORE UPDATE ON flow_reading
BEGIN SELECT RAISE(ABORT, 'flow_reading: a row is never changed'); END;
CREATE TRIGGER flow_reading_never_deleted BEFORE DELETE ON flow_reading
BEGIN SELECT RAISE(ABORT, 'flow_reading: a row is never deleted'); END;

INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) VALUES
    ('flow_reading', 'attributes', 'flow_reading', 'Readings of the flow tests by floats, tracers, weirs, flumes and marks', NULL);
