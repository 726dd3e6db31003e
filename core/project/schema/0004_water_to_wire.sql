-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 4: from the water of the year to the wire.

-- ---- the season -----------------------------------------------------------------------------------------------------

ALTER TABLE flow_test ADD COLUMN set_aside_reason TEXT NOT NULL DEFAULT '';

-- Two choices get more answers: a limit of a column cannot be widened, so the column is made anew.
ALTER TABLE site RENAME COLUMN flow_choice TO flow_choice_before;
ALTER TABLE site ADD COLUMN flow_choice TEXT NOT NULL DEFAULT 'lowest-visit' CONSTRAINT flow_choice CHECK (flow_choice IN ('lowest-visit', 'weighted-mean', 'chosen-test', 'season'));
ALTER TABLE site RENAME COLUMN leave_rule TO leave_rule_before;
ALTER TABLE site ADD COLUMN leave_rule TEXT NOT NULL DEFAULT '' CONSTRAINT leave_rule CHECK (leave_rule IN ('', 'fixed', 'share-of-flow', 'share-of-q95', 'monthly'));
UPDATE site SET flow_choice = flow_choice_before, leave_rule = leave_rule_before;
ALTER TABLE site DROP COLUMN flow_choice_before;
ALTER TABLE site DROP COLUMN leave_rule_before;

CREATE TABLE flow_series (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    kind TEXT NOT NULL CONSTRAINT kind CHECK (length(kind) > 0),
    name TEXT NOT NULL CONSTRAINT name CHECK (length(name) > 0),
    note TEXT NOT NULL,
    catchment_m2 DOUBLE CONSTRAINT catchment_m2 CHECK (catchment_m2 > 0 AND catchment_m2 <= 1e13),
    catchment_u DOUBLE CONSTRAINT catchment_u CHECK (catchment_u BETWEEN 0 AND 0.5),
    flow_u DOUBLE CONSTRAINT flow_u CHECK (flow_u BETWEEN 0 AND 0.5),
    unit TEXT NOT NULL,
    file_name TEXT NOT NULL,
    file_sha256 TEXT NOT NULL,
    created_at DATETIME NOT NULL CONSTRAINT created_at CHECK (created_at GLOB '????-??-??T??:??:??.???Z' AND julianday(created_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

-- A run of readings of a series as text, so that any program can read them: one row a reading would be a million rows.
CREATE TABLE flow_series_block (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    series_id INTEGER NOT NULL REFERENCES flow_series(id),
    position INTEGER NOT NULL CONSTRAINT position CHECK (position BETWEEN 0 AND 1000000),
    first_at DATETIME NOT NULL CONSTRAINT first_at CHECK (first_at GLOB '????-??-??T??:??:??.???Z' AND julianday(first_at) IS NOT NULL),
    readings INTEGER NOT NULL CONSTRAINT readings CHECK (readings BETWEEN 1 AND 100000),
    data TEXT NOT NULL CONSTRAINT data CHECK (length(data) > 0),
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

ALTER TABLE site ADD COLUMN flow_figure TEXT NOT NULL DEFAULT '' CONSTRAINT flow_figure CHECK (flow_figure IN ('', 'q95', 'q50', 'mean', 'low7'));
ALTER TABLE site ADD COLUMN flow_from_month INTEGER CONSTRAINT flow_from_month CHECK (flow_from_month BETWEEN 1 AND 12);
ALTER TABLE site ADD COLUMN flow_to_month INTEGER CONSTRAINT flow_to_month CHECK (flow_to_month BETWEEN 1 AND 12);
ALTER TABLE site ADD COLUMN zero_flow_stage_m DOUBLE CONSTRAINT zero_flow_stage_m CHECK (zero_flow_stage_m BETWEEN -100 AND 100);
ALTER TABLE site ADD COLUMN series_id INTEGER REFERENCES flow_series(id);
ALTER TABLE site ADD COLUMN transfer TEXT NOT NULL DEFAULT '' CONSTRAINT transfer CHECK (transfer IN ('', 'area', 'spots', 'yield'));
ALTER TABLE site ADD COLUMN catchment_m2 DOUBLE CONSTRAINT catchment_m2 CHECK (catchment_m2 > 0 AND catchment_m2 <= 1e13);
ALTER TABLE site ADD COLUMN catchment_u DOUBLE CONSTRAINT catchment_u CHECK (catchment_u BETWEEN 0 AND 0.5);
ALTER TABLE site ADD COLUMN area_power DOUBLE CONSTRAINT area_power CHECK (area_power BETWEEN 0.3 AND 1.5);
ALTER TABLE site ADD COLUMN yield_ms DOUBLE CONSTRAINT yield_ms CHECK (yield_ms BETWEEN 0 AND 1);
ALTER TABLE site ADD COLUMN yield_u_ms DOUBLE CONSTRAINT yield_u_ms CHECK (yield_u_ms BETWEEN 0 AND 1);
ALTER TABLE site ADD COLUMN duration_rule TEXT NOT NULL DEFAULT '' CONSTRAINT duration_rule CHECK (duration_rule IN ('', 'linear'));
ALTER TABLE site ADD COLUMN year_begins INTEGER CONSTRAINT year_begins CHECK (year_begins BETWEEN 1 AND 12);
ALTER TABLE site ADD COLUMN leave_q95_share DOUBLE CONSTRAINT leave_q95_share CHECK (leave_q95_share BETWEEN 0 AND 10);
ALTER TABLE site ADD COLUMN leave_jan_m3s DOUBLE CONSTRAINT leave_jan_m3s CHECK (leave_jan_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_feb_m3s DOUBLE CONSTRAINT leave_feb_m3s CHECK (leave_feb_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_mar_m3s DOUBLE CONSTRAINT leave_mar_m3s CHECK (leave_mar_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_apr_m3s DOUBLE CONSTRAINT leave_apr_m3s CHECK (leave_apr_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_may_m3s DOUBLE CONSTRAINT leave_may_m3s CHECK (leave_may_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_jun_m3s DOUBLE CONSTRAINT leave_jun_m3s CHECK (leave_jun_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_jul_m3s DOUBLE CONSTRAINT leave_jul_m3s CHECK (leave_jul_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_aug_m3s DOUBLE CONSTRAINT leave_aug_m3s CHECK (leave_aug_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_sep_m3s DOUBLE CONSTRAINT leave_sep_m3s CHECK (leave_sep_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_oct_m3s DOUBLE CONSTRAINT leave_oct_m3s CHECK (leave_oct_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_nov_m3s DOUBLE CONSTRAINT leave_nov_m3s CHECK (leave_nov_m3s BETWEEN 0 AND 100000);
ALTER TABLE site ADD COLUMN leave_dec_m3s DOUBLE CONSTRAINT leave_dec_m3s CHECK (leave_dec_m3s BETWEEN 0 AND 100000);

CREATE TRIGGER flow_series_inserted_once BEFORE INSERT ON flow_series WHEN EXISTS (SELECT 1 FROM flow_series WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'flow_series: a row is never replaced'); END;
CREATE TRIGGER flow_series_key_kept BEFORE UPDATE OF id, booked_order ON flow_series WHEN NEW.id <> OLD.id OR NEW.booked_order <> OLD.booked_order
BEGIN SELECT RAISE(ABORT, 'flow_series: the key of a row is never changed'); END;
CREATE TRIGGER flow_series_never_deleted BEFORE DELETE ON flow_series
BEGIN SELECT RAISE(ABORT, 'flow_series: a row is never deleted'); END;
CREATE TRIGGER flow_series_block_inserted_once BEFORE INSERT ON flow_series_block WHEN EXISTS (SELECT 1 FROM flow_series_block WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'flow_series_block: a row is never replaced'); END;
CREATE TRIGGER flow_series_block_never_changed BEFORE UPDATE ON flow_series_block
BEGIN SELECT RAISE(ABORT, 'flow_series_block: a row is never changed'); END;
CREATE TRIGGER flow_series_block_never_deleted BEFORE DELETE ON flow_series_block
BEGIN SELECT RAISE(ABORT, 'flow_series_block: a row is never deleted'); END;

INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) VALUES
    ('flow_series', 'attributes', 'flow_series', 'Stage logs and daily flows read in', NULL),
    ('flow_series_block', 'attributes', 'flow_series_block', 'The readings of the series', NULL);

-- ---- gauging and container ----------------------------------------------------------------------------------------

-- Gaugings with several meters, what a gauging and a container test take for their readings, and weighed fills.
ALTER TABLE meter ADD COLUMN min_velocity_ms DOUBLE CONSTRAINT min_velocity_ms CHECK (min_velocity_ms BETWEEN 0 AND 10);
ALTER TABLE meter ADD COLUMN max_velocity_ms DOUBLE CONSTRAINT max_velocity_ms CHECK (max_velocity_ms > 0 AND max_velocity_ms <= 10);
ALTER TABLE meter ADD COLUMN third_limit_rev_s DOUBLE CONSTRAINT third_limit_rev_s CHECK (third_limit_rev_s BETWEEN 0 AND 1000);
ALTER TABLE meter ADD COLUMN third_slope_m DOUBLE CONSTRAINT third_slope_m CHECK (third_slope_m BETWEEN 0 AND 10);
ALTER TABLE meter ADD COLUMN third_intercept_ms DOUBLE CONSTRAINT third_intercept_ms CHECK (third_intercept_ms BETWEEN -1 AND 1);

ALTER TABLE flow_test ADD COLUMN depth_u_m DOUBLE CONSTRAINT depth_u_m CHECK (depth_u_m BETWEEN 0 AND 1);
ALTER TABLE flow_test ADD COLUMN wall_share DOUBLE CONSTRAINT wall_share CHECK (wall_share BETWEEN 0 AND 1);
ALTER TABLE flow_test ADD COLUMN surface_share DOUBLE CONSTRAINT surface_share CHECK (surface_share > 0 AND surface_share <= 1);
ALTER TABLE flow_test ADD COLUMN reaction_s DOUBLE CONSTRAINT reaction_s CHECK (reaction_s BETWEEN 0 AND 10);

ALTER TABLE gauging_velocity ADD COLUMN meter_id INTEGER REFERENCES meter(id);

ALTER TABLE container_fill ADD COLUMN full_kg DOUBLE CONSTRAINT full_kg CHECK (full_kg > 0 AND full_kg <= 100000);
ALTER TABLE container_fill ADD COLUMN empty_kg DOUBLE CONSTRAINT empty_kg CHECK (empty_kg BETWEEN 0 AND 100000);
ALTER TABLE container_fill ADD COLUMN temperature_C DOUBLE CONSTRAINT temperature_C CHECK (temperature_C BETWEEN -10 AND 80);

-- A steady injection of dye, whose readings are concentrations.
ALTER TABLE flow_test ADD COLUMN tracer TEXT NOT NULL DEFAULT '' CONSTRAINT tracer CHECK (tracer IN ('', 'dye'));
ALTER TABLE flow_reading ADD COLUMN concentration_kgm3 DOUBLE CONSTRAINT concentration_kgm3 CHECK (concentration_kgm3 BETWEEN 0 AND 2000);

-- ---- the plant: intake, pipe sections and fittings, machines, prices -----------------------------------------------
ALTER TABLE alternative ADD COLUMN intake_kind TEXT NOT NULL DEFAULT '' CONSTRAINT intake_kind CHECK (intake_kind IN ('', 'broad-crest', 'sharp-crest'));
ALTER TABLE alternative ADD COLUMN crest_width_m DOUBLE CONSTRAINT crest_width_m CHECK (crest_width_m > 0 AND crest_width_m <= 1000);
ALTER TABLE alternative ADD COLUMN crest_breadth_m DOUBLE CONSTRAINT crest_breadth_m CHECK (crest_breadth_m > 0 AND crest_breadth_m <= 100);
ALTER TABLE alternative ADD COLUMN crest_height_m DOUBLE CONSTRAINT crest_height_m CHECK (crest_height_m > 0 AND crest_height_m <= 100);
ALTER TABLE alternative ADD COLUMN wall_top_m DOUBLE CONSTRAINT wall_top_m CHECK (wall_top_m > 0 AND wall_top_m <= 100);
ALTER TABLE alternative ADD COLUMN flood_m3s DOUBLE CONSTRAINT flood_m3s CHECK (flood_m3s >= 0 AND flood_m3s <= 100000);
ALTER TABLE alternative ADD COLUMN rack_area_m2 DOUBLE CONSTRAINT rack_area_m2 CHECK (rack_area_m2 > 0 AND rack_area_m2 <= 10000);
ALTER TABLE alternative ADD COLUMN rack_bar_m DOUBLE CONSTRAINT rack_bar_m CHECK (rack_bar_m > 0 AND rack_bar_m <= 1);
ALTER TABLE alternative ADD COLUMN rack_gap_m DOUBLE CONSTRAINT rack_gap_m CHECK (rack_gap_m > 0 AND rack_gap_m <= 1);
ALTER TABLE alternative ADD COLUMN rack_slope_deg DOUBLE CONSTRAINT rack_slope_deg CHECK (rack_slope_deg > 0 AND rack_slope_deg <= 90);
ALTER TABLE alternative ADD COLUMN screen_capacity_m2s DOUBLE CONSTRAINT screen_capacity_m2s CHECK (screen_capacity_m2s > 0 AND screen_capacity_m2s <= 100);
ALTER TABLE alternative ADD COLUMN screen_drop_m DOUBLE CONSTRAINT screen_drop_m CHECK (screen_drop_m BETWEEN 0 AND 100);
ALTER TABLE alternative ADD COLUMN mouth_depth_m DOUBLE CONSTRAINT mouth_depth_m CHECK (mouth_depth_m BETWEEN 0 AND 100);
ALTER TABLE alternative ADD COLUMN basin_width_m DOUBLE CONSTRAINT basin_width_m CHECK (basin_width_m > 0 AND basin_width_m <= 1000);
ALTER TABLE alternative ADD COLUMN grain_m DOUBLE CONSTRAINT grain_m CHECK (grain_m > 0 AND grain_m <= 1);
ALTER TABLE alternative ADD COLUMN parallel_pipes INTEGER CONSTRAINT parallel_pipes CHECK (parallel_pipes BETWEEN 1 AND 20);
ALTER TABLE alternative ADD COLUMN pipe_anchoring TEXT NOT NULL DEFAULT '' CONSTRAINT pipe_anchoring CHECK (pipe_anchoring IN ('', 'joints', 'one-end', 'throughout'));
ALTER TABLE alternative ADD COLUMN closing_s DOUBLE CONSTRAINT closing_s CHECK (closing_s BETWEEN 0 AND 100000);
ALTER TABLE alternative ADD COLUMN wall_temperature_C DOUBLE CONSTRAINT wall_temperature_C CHECK (wall_temperature_C BETWEEN -40 AND 100);
ALTER TABLE alternative ADD COLUMN soil_bearing_Pa DOUBLE CONSTRAINT soil_bearing_Pa CHECK (soil_bearing_Pa > 0 AND soil_bearing_Pa <= 1e9);
ALTER TABLE alternative ADD COLUMN turbine_kind TEXT NOT NULL DEFAULT '';
ALTER TABLE alternative ADD COLUMN jets INTEGER CONSTRAINT jets CHECK (jets BETWEEN 1 AND 20);
ALTER TABLE alternative ADD COLUMN runner_m DOUBLE CONSTRAINT runner_m CHECK (runner_m > 0 AND runner_m <= 100);
ALTER TABLE alternative ADD COLUMN turbine_rpm DOUBLE CONSTRAINT turbine_rpm CHECK (turbine_rpm > 0 AND turbine_rpm <= 100000);
ALTER TABLE alternative ADD COLUMN setting_m DOUBLE CONSTRAINT setting_m CHECK (setting_m BETWEEN -100 AND 100);
ALTER TABLE alternative ADD COLUMN frequency_Hz DOUBLE CONSTRAINT frequency_Hz CHECK (frequency_Hz > 0 AND frequency_Hz <= 1000);
ALTER TABLE alternative ADD COLUMN drive_id TEXT NOT NULL DEFAULT '';
ALTER TABLE alternative ADD COLUMN drive_efficiency DOUBLE CONSTRAINT drive_efficiency CHECK (drive_efficiency BETWEEN 0 AND 1);
ALTER TABLE alternative ADD COLUMN drive_efficiency_u DOUBLE CONSTRAINT drive_efficiency_u CHECK (drive_efficiency_u BETWEEN 0 AND 1);
ALTER TABLE alternative ADD COLUMN conductor_temperature_C DOUBLE CONSTRAINT conductor_temperature_C CHECK (conductor_temperature_C BETWEEN -50 AND 150);
ALTER TABLE alternative ADD COLUMN currency TEXT NOT NULL DEFAULT '';
ALTER TABLE alternative ADD COLUMN energy_price_per_J DOUBLE CONSTRAINT energy_price_per_J CHECK (energy_price_per_J BETWEEN 0 AND 1e6);
ALTER TABLE alternative ADD COLUMN price_years DOUBLE CONSTRAINT price_years CHECK (price_years > 0 AND price_years <= 200);
ALTER TABLE alternative ADD COLUMN price_interest DOUBLE CONSTRAINT price_interest CHECK (price_interest BETWEEN 0 AND 1);
ALTER TABLE alternative ADD COLUMN cable_price DOUBLE CONSTRAINT cable_price CHECK (cable_price BETWEEN 0 AND 1e9);
ALTER TABLE alternative ADD COLUMN other_price DOUBLE CONSTRAINT other_price CHECK (other_price BETWEEN 0 AND 1e12);

CREATE TABLE pipe_section (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    alternative_id INTEGER NOT NULL REFERENCES alternative(id),
    position INTEGER NOT NULL CONSTRAINT position CHECK (position BETWEEN 0 AND 10000000),
    name TEXT NOT NULL,
    pipe_id TEXT NOT NULL,
    material TEXT NOT NULL,
    length_m DOUBLE CONSTRAINT length_m CHECK (length_m BETWEEN 0 AND 100000),
    bore_m DOUBLE CONSTRAINT bore_m CHECK (bore_m > 0 AND bore_m <= 20),
    wall_m DOUBLE CONSTRAINT wall_m CHECK (wall_m > 0 AND wall_m <= 1),
    roughness_m DOUBLE CONSTRAINT roughness_m CHECK (roughness_m BETWEEN 0 AND 1),
    rating_Pa DOUBLE CONSTRAINT rating_Pa CHECK (rating_Pa > 0 AND rating_Pa <= 1e9),
    created_at DATETIME NOT NULL CONSTRAINT created_at CHECK (created_at GLOB '????-??-??T??:??:??.???Z' AND julianday(created_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE pipe_fitting (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    alternative_id INTEGER NOT NULL REFERENCES alternative(id),
    section_id INTEGER REFERENCES pipe_section(id),
    position INTEGER NOT NULL CONSTRAINT position CHECK (position BETWEEN 0 AND 10000000),
    name TEXT NOT NULL,
    fitting_id TEXT NOT NULL,
    count INTEGER NOT NULL CONSTRAINT count CHECK (count BETWEEN 0 AND 10000),
    k DOUBLE CONSTRAINT k CHECK (k BETWEEN 0 AND 1000),
    created_at DATETIME NOT NULL CONSTRAINT created_at CHECK (created_at GLOB '????-??-??T??:??:??.???Z' AND julianday(created_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE pipe_price (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    pipe_id TEXT NOT NULL CONSTRAINT pipe_id CHECK (length(pipe_id) > 0),
    size_price DOUBLE CONSTRAINT size_price CHECK (size_price BETWEEN 0 AND 1e9),
    trench_price DOUBLE CONSTRAINT trench_price CHECK (trench_price BETWEEN 0 AND 1e9),
    created_at DATETIME NOT NULL CONSTRAINT created_at CHECK (created_at GLOB '????-??-??T??:??:??.???Z' AND julianday(created_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TRIGGER pipe_section_inserted_once BEFORE INSERT ON pipe_section WHEN EXISTS (SELECT 1 FROM pipe_section WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'pipe_section: a row is never replaced'); END;
CREATE TRIGGER pipe_section_key_kept BEFORE UPDATE OF id, booked_order ON pipe_section WHEN NEW.id <> OLD.id OR NEW.booked_order <> OLD.booked_order
BEGIN SELECT RAISE(ABORT, 'pipe_section: the key of a row is never changed'); END;
CREATE TRIGGER pipe_section_never_deleted BEFORE DELETE ON pipe_section
BEGIN SELECT RAISE(ABORT, 'pipe_section: a row is never deleted'); END;
CREATE TRIGGER pipe_fitting_inserted_once BEFORE INSERT ON pipe_fitting WHEN EXISTS (SELECT 1 FROM pipe_fitting WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'pipe_fitting: a row is never replaced'); END;
CREATE TRIGGER pipe_fitting_key_kept BEFORE UPDATE OF id, booked_order ON pipe_fitting WHEN NEW.id <> OLD.id OR NEW.booked_order <> OLD.booked_order
BEGIN SELECT RAISE(ABORT, 'pipe_fitting: the key of a row is never changed'); END;
CREATE TRIGGER pipe_fitting_never_deleted BEFORE DELETE ON pipe_fitting
BEGIN SELECT RAISE(ABORT, 'pipe_fitting: a row is never deleted'); END;
CREATE TRIGGER pipe_price_inserted_once BEFORE INSERT ON pipe_price WHEN EXISTS (SELECT 1 FROM pipe_price WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'pipe_price: a row is never replaced'); END;
CREATE TRIGGER pipe_price_key_kept BEFORE UPDATE OF id, booked_order ON pipe_price WHEN NEW.id <> OLD.id OR NEW.booked_order <> OLD.booked_order
BEGIN SELECT RAISE(ABORT, 'pipe_price: the key of a row is never changed'); END;
CREATE TRIGGER pipe_price_never_deleted BEFORE DELETE ON pipe_price
BEGIN SELECT RAISE(ABORT, 'pipe_price: a row is never deleted'); END;

INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) VALUES
    ('pipe_section', 'attributes', 'pipe_section', 'Sections of the pipes of the alternatives, in series from the intake down', NULL),
    ('pipe_fitting', 'attributes', 'pipe_fitting', 'Bends, valves and contractions in the pipes', NULL),
    ('pipe_price', 'attributes', 'pipe_price', 'Prices of pipe sizes as the user entered them', NULL);

-- ---- handover: answers to the designer's list, and files read in ---------------------------------------------------

CREATE TABLE answer (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    ask TEXT NOT NULL CONSTRAINT ask CHECK (length(ask) > 0),
    verdict TEXT NOT NULL CONSTRAINT verdict CHECK (verdict IN ('yes', 'no', 'text', 'not-needed')),
    text TEXT NOT NULL CONSTRAINT text CHECK (length(text) > 0 OR verdict IN ('yes', 'no')),
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TABLE import_source (
    id INTEGER PRIMARY KEY NOT NULL CONSTRAINT id CHECK (id BETWEEN 1 AND 4503599627370495),
    format TEXT NOT NULL CONSTRAINT format CHECK (length(format) > 0),
    file_name TEXT NOT NULL CONSTRAINT file_name CHECK (length(file_name) > 0),
    file_sha256 TEXT NOT NULL,
    layer TEXT NOT NULL,
    mapping TEXT NOT NULL,
    stations INTEGER NOT NULL CONSTRAINT stations CHECK (stations BETWEEN 0 AND 10000000),
    fixes INTEGER NOT NULL CONSTRAINT fixes CHECK (fixes BETWEEN 0 AND 10000000),
    photos INTEGER NOT NULL CONSTRAINT photos CHECK (photos BETWEEN 0 AND 10000000),
    observed_at DATETIME NOT NULL CONSTRAINT observed_at CHECK (observed_at GLOB '????-??-??T??:??:??.???Z' AND julianday(observed_at) IS NOT NULL),
    booked_order INTEGER NOT NULL
);

CREATE TRIGGER answer_inserted_once BEFORE INSERT ON answer WHEN EXISTS (SELECT 1 FROM answer WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'answer: a row is never replaced'); END;
CREATE TRIGGER answer_never_changed BEFORE UPDATE ON answer
BEGIN SELECT RAISE(ABORT, 'answer: a row is never changed'); END;
CREATE TRIGGER answer_never_deleted BEFORE DELETE ON answer
BEGIN SELECT RAISE(ABORT, 'answer: a row is never deleted'); END;
CREATE TRIGGER import_source_inserted_once BEFORE INSERT ON import_source WHEN EXISTS (SELECT 1 FROM import_source WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'import_source: a row is never replaced'); END;
CREATE TRIGGER import_source_never_changed BEFORE UPDATE ON import_source
BEGIN SELECT RAISE(ABORT, 'import_source: a row is never changed'); END;
CREATE TRIGGER import_source_never_deleted BEFORE DELETE ON import_source
BEGIN SELECT RAISE(ABORT, 'import_source: a row is never deleted'); END;

INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) VALUES
    ('answer', 'attributes', 'answer', 'Answers to what a designer will ask for', NULL),
    ('import_source', 'attributes', 'import_source', 'Files of other programs that were read in', NULL);
