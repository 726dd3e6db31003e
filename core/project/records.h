// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>

/// The rows of a project file. Each struct is one table; columns.h lists its columns once, with title and unit, and the
/// schema, the readers and the writers go by that list.
///
/// Two sorts of rows:
/// - observations (insert-only): what was read at the creek. Never changed; struck out with a reason instead.
/// - items: names, notes and choices. Changing one keeps the earlier value in the edit log.
/// Keys are random 52-bit integers. Times are UTC, ISO 8601 with milliseconds. All other units are SI.
// Over 500 lines on purpose: every record of the file stands in this one place, each with the meaning of its columns.
namespace rillmark {

using Id = std::int64_t;

// ---- items -------------------------------------------------------------------------------------------------------

/// The one site of the file.
struct SiteRow {
    static constexpr const char* kTable = "site";
    Id id = 0;
    std::string name;
    std::string owner;
    std::string note;
    std::optional<double> water_temperature_C;
    std::string flow_choice = "lowest-visit"; // lowest-visit, weighted-mean, chosen-test, season
    std::optional<Id> flow_test_id;           // with chosen-test
    std::optional<Id> alternative_id;         // the alternative that the strip shows
    std::string leave_rule; // flow to leave in the creek: empty (none), fixed, share-of-flow, share-of-q95, monthly
    std::optional<double> leave_m3s;
    std::optional<double> leave_share;
    std::string flow_figure;                     // with season: q95 (also when empty), q50, mean, low7
    std::optional<std::int64_t> flow_from_month; // months whose visits count; all year when empty
    std::optional<std::int64_t> flow_to_month;
    std::optional<double> zero_flow_stage_m; // staff gauge when the flow ceases
    std::optional<Id> series_id;             // the series that the year's flow is taken from
    std::string transfer; // how it comes to the site: empty (it is of this creek), area, spots, yield (without a series)
    std::optional<double> catchment_m2;
    std::optional<double> catchment_u; // relative standard uncertainty
    std::optional<double> area_power;
    std::optional<double> yield_ms; // specific yield, m3/s per m2
    std::optional<double> yield_u_ms;
    std::string duration_rule; // empty: r/(N+1); linear
    std::optional<std::int64_t> year_begins; // month
    std::optional<double> leave_q95_share;
    std::optional<double> leave_jan_m3s; // the monthly table
    std::optional<double> leave_feb_m3s;
    std::optional<double> leave_mar_m3s;
    std::optional<double> leave_apr_m3s;
    std::optional<double> leave_may_m3s;
    std::optional<double> leave_jun_m3s;
    std::optional<double> leave_jul_m3s;
    std::optional<double> leave_aug_m3s;
    std::optional<double> leave_sep_m3s;
    std::optional<double> leave_oct_m3s;
    std::optional<double> leave_nov_m3s;
    std::optional<double> leave_dec_m3s;
    std::string created_at;
};

/// A named place at the creek. Its position is the mean of its occupations; the geometry column holds it for other programs.
struct StationRow {
    static constexpr const char* kTable = "station";
    Id id = 0;
    std::string name;
    std::string kind; // id of StationKind: intake, powerhouse, route-point, ...
    std::string note;
    std::optional<double> longitude_deg; // kept in step with the geometry column `geom`
    std::optional<double> latitude_deg;
    std::optional<std::int64_t> route_order; // place along the line that its kind belongs to; as logged when empty
    std::string created_at;
};

/// One level book: a line of levels run in one go.
struct LevelBookRow {
    static constexpr const char* kTable = "level_book";
    Id id = 0;
    std::string name;
    std::string instrument;
    std::string observer;
    std::optional<double> staff_uncertainty_m; // standard uncertainty of one staff reading; default when empty
    std::string allowance;                     // id of the class of allowed misclosure
    std::optional<double> length_m;            // length of the line for classes by distance
    std::optional<double> stadia_factor;       // three wires: 100 when empty
    std::string share_out;                     // misclosure shared out: empty (not), setup, distance, each with -anyway
    std::string created_at;
};

/// One flow test, whatever the method; its readings are in the table of the method.
struct FlowTestRow {
    static constexpr const char* kTable = "flow_test";
    Id id = 0;
    std::string method; // id of FlowMethod
    std::string name;
    std::string note;
    std::optional<Id> station_id;
    std::optional<Id> meter_id;
    std::optional<double> stage_m;              // staff gauge at the test
    std::optional<double> volume_uncertainty;   // container: relative standard uncertainty of the volume
    std::optional<double> length_m; // float: over which they are timed; salt: from pouring to probe
    std::optional<double> width_m;
    std::string bed; // id of FloatBed; empty: ordinary
    std::string wind;
    std::string water_surface;
    std::optional<double> coefficient;
    std::string shape; // v-notch, rectangular, cipolletti
    std::optional<double> notch_angle_deg;
    std::optional<double> crest_length_m;
    std::optional<double> crest_height_m;
    std::optional<double> gauge_distance_m;
    std::optional<double> gauge_zero_m;
    std::optional<double> tailwater_m; // weir: tailwater; flume: head downstream
    std::string flume_size; // id of FlumeSize
    std::optional<double> salt_mass_kg;
    std::optional<double> solution_m3;
    std::optional<double> solution_kgm3;
    std::string tracer; // of a steady injection; empty: salt; dye
    std::optional<double> injection_m3s;
    std::optional<double> tracer_kgm3;
    std::optional<double> sample_m3;
    std::optional<double> standard_kgm3;
    std::optional<double> factor;
    std::optional<double> factor_u;
    std::string temperature_rule; // empty: as read; linear, iso-7888
    std::optional<double> trace_from_s;
    std::optional<double> trace_to_s;
    std::optional<double> manning_n;
    std::optional<double> manning_n_u;
    std::optional<double> depth_u_m;     // current meter: standard uncertainty of one depth
    std::optional<double> wall_share;    // current meter: velocity at a wall over that of its neighbour
    std::optional<double> surface_share; // current meter: mean velocity over that at the surface
    std::optional<double> reaction_s;    // container: half-width of the error of the watch
    bool counts = true;                         // takes part in the flow to use
    std::string set_aside_reason;               // where it does not
    std::string created_at;
};

/// A current meter with its rating: v = a n + b, n in revolutions per second, in up to three ranges.
struct MeterRow {
    static constexpr const char* kTable = "meter";
    Id id = 0;
    std::string name;
    double slope_m = 0.0;     // a, metres per revolution; 0: it shows the velocity itself
    double intercept_ms = 0.0; // b
    std::optional<double> limit_rev_s;      // above it the second range holds
    std::optional<double> upper_slope_m;
    std::optional<double> upper_intercept_ms;
    std::optional<double> third_limit_rev_s; // above it the third range holds
    std::optional<double> third_slope_m;
    std::optional<double> third_intercept_ms;
    bool individual_rating = true; // else a group rating
    std::optional<double> min_velocity_ms; // that it is rated for
    std::optional<double> max_velocity_ms;
    std::string created_at;
};

/// One way to build the plant over the same survey.
struct AlternativeRow {
    static constexpr const char* kTable = "alternative";
    Id id = 0;
    std::string name;
    std::string note;
    std::optional<Id> intake_id;     // station
    std::optional<Id> powerhouse_id; // station
    std::optional<Id> house_id;      // station
    std::string lower_end;           // where the head ends: turbine-axis (also when empty), tailwater
    std::optional<double> design_flow_m3s; // empty: the flow to use
    std::string pipe_id;             // key in the pipe table; empty: not chosen
    std::optional<double> pipe_length_m; // empty: along the stations
    std::optional<double> minor_k;
    std::optional<double> turbine_efficiency;
    std::optional<double> turbine_efficiency_u;
    std::optional<double> generator_efficiency;
    std::optional<double> generator_efficiency_u;
    std::string cable_id;            // key in the conductor table; empty: not chosen
    std::string cable_system;        // dc, single-phase, three-phase
    std::optional<double> cable_length_m; // one way; empty: along the stations
    std::optional<double> voltage_V;
    std::optional<double> power_factor;
    std::string intake_kind; // crest of the diversion wall: broad-crest, sharp-crest; empty: not described
    std::optional<double> crest_width_m; // across the stream
    std::optional<double> crest_breadth_m; // along the flow, broad-crest
    std::optional<double> crest_height_m; // above the bed upstream
    std::optional<double> wall_top_m; // of the abutments above the crest
    std::optional<double> flood_m3s; // typed; empty: of the slope-area tests
    std::optional<double> rack_area_m2; // along the bars, bars and gaps
    std::optional<double> rack_bar_m;
    std::optional<double> rack_gap_m;
    std::optional<double> rack_slope_deg; // of the bars from the horizontal
    std::optional<double> screen_capacity_m2s; // the maker's clean capacity per metre of width
    std::optional<double> screen_drop_m; // head given up at an inclined screen
    std::optional<double> mouth_depth_m; // water above the top of the pipe's mouth
    std::optional<double> basin_width_m;
    std::optional<double> grain_m; // to be settled
    std::optional<std::int64_t> parallel_pipes; // pipes side by side; empty: one
    std::string pipe_anchoring; // joints (also when empty), one-end, throughout
    std::optional<double> closing_s; // even closing of the valve
    std::optional<double> wall_temperature_C; // of the hottest wall
    std::optional<double> soil_bearing_Pa; // for thrust blocks
    std::string turbine_kind; // key in the table of turbines; empty: not chosen
    std::optional<std::int64_t> jets; // of an impulse wheel
    std::optional<double> runner_m; // diameter of runner or pitch circle
    std::optional<double> turbine_rpm;
    std::optional<double> setting_m; // of a reaction runner above tailwater
    std::optional<double> frequency_Hz;
    std::string drive_id; // key in the efficiency table; empty: within the generator
    std::optional<double> drive_efficiency;
    std::optional<double> drive_efficiency_u;
    std::optional<double> conductor_temperature_C;
    std::string currency; // of all prices, as typed
    std::optional<double> energy_price_per_J;
    std::optional<double> price_years;
    std::optional<double> price_interest; // a year
    std::optional<double> cable_price; // a metre
    std::optional<double> other_price; // all else: intake, machines, house
    std::string created_at;
};

/// A stretch of an alternative's pipe of one size; the sections follow each other from the intake down. An alternative
/// without sections has the one pipe of its own row.
struct PipeSectionRow {
    static constexpr const char* kTable = "pipe_section";
    Id id = 0;
    Id alternative_id = 0;
    std::int64_t position = 0; // from the intake down
    std::string name;
    std::string pipe_id;  // key in the pipe table; empty: as described here
    std::string material; // id of PipeMaterial, without pipe_id
    std::optional<double> length_m; // along the slope; empty: what the others leave of the route
    std::optional<double> bore_m;
    std::optional<double> wall_m;
    std::optional<double> roughness_m;
    std::optional<double> rating_Pa;
    std::string created_at;
};

/// Bends, valves and the like of one sort in a pipe.
struct PipeFittingRow {
    static constexpr const char* kTable = "pipe_fitting";
    Id id = 0;
    Id alternative_id = 0;
    std::optional<Id> section_id; // empty: in the first section
    std::int64_t position = 0;
    std::string name;
    std::string fitting_id; // key in the fittings table; empty: k as entered
    std::int64_t count = 1;
    std::optional<double> k; // of one; goes before the table
    std::string created_at;
};

/// What the user was asked for a size of pipe, in any one currency.
struct PipePriceRow {
    static constexpr const char* kTable = "pipe_price";
    Id id = 0;
    std::string pipe_id;
    std::optional<double> size_price;   // a metre
    std::optional<double> trench_price; // a metre, with laying
    std::string created_at;
};

/// One run of a way to measure a fall other than the level book: its instrument and what all its readings share.
struct HeightRunRow {
    static constexpr const char* kTable = "height_run";
    Id id = 0;
    std::string method; // id of HeightMethod
    std::string name;
    std::string instrument; // a two-peg test holds for books of the same instrument
    std::string note;
    std::optional<double> eye_height_m;
    std::optional<double> eye_height_u_m;
    std::optional<double> angle_u_deg;
    std::optional<double> index_deg;
    std::optional<double> index_u_deg;
    std::optional<double> reading_u_m;
    std::optional<double> distance_u;
    std::optional<double> gauge_class;
    std::optional<double> gauge_range_Pa;
    std::optional<double> gauge_zero_Pa;
    std::optional<double> pressure_u_Pa;
    std::optional<Id> station_id; // barometer: where it returns to
    std::string created_at;
};

/// A series of readings over time that was read in from a file; they are in the blocks.
struct FlowSeriesRow {
    static constexpr const char* kTable = "flow_series";
    Id id = 0;
    std::string kind; // stage (at the site's staff gauge), daily-flow
    std::string name; // of the gauge
    std::string note;
    std::optional<double> catchment_m2;
    std::optional<double> catchment_u; // relative standard uncertainty
    std::optional<double> flow_u;      // relative standard uncertainty of its flows
    std::string unit;                  // as in the file
    std::string file_name;
    std::string file_sha256; // empty when it came from no file
    std::string created_at;  // read in
};

// ---- observations ------------------------------------------------------------------------------------------------

/// One fix of a receiver, as it came. Part of an occupation of a station, or of the track walked when that is empty.
struct FixRow {
    static constexpr const char* kTable = "fix";
    Id id = 0;
    std::optional<Id> occupation_id;
    double longitude_deg = 0.0; // kept in step with the geometry column
    double latitude_deg = 0.0;
    std::optional<double> height_ellipsoid_m;
    std::optional<double> height_msl_m;
    std::optional<double> geoid_separation_m;
    std::optional<double> u_east_m;
    std::optional<double> u_north_m;
    std::optional<double> u_up_m;
    std::optional<double> hdop;
    std::optional<std::int64_t> satellites;
    std::string quality;
    std::string source;
    std::string observed_at;
};

/// The averaged position of a station from one stay there.
struct OccupationRow {
    static constexpr const char* kTable = "occupation";
    Id id = 0;
    Id station_id = 0;
    double longitude_deg = 0.0;
    double latitude_deg = 0.0;
    std::optional<double> height_ellipsoid_m;
    std::optional<double> height_msl_m;
    double u_east_m = 0.0;
    double u_north_m = 0.0;
    std::optional<double> u_up_m;
    std::optional<double> scatter_east_m;
    std::optional<double> scatter_north_m;
    std::optional<double> scatter_up_m;
    std::int64_t fixes = 0;
    double seconds = 0.0;
    std::string quality; // the worst of its fixes
    std::string source;
    std::string observed_at;
};

/// One staff reading.
struct SightRow {
    static constexpr const char* kTable = "level_sight";
    Id id = 0;
    Id book_id = 0;
    std::int64_t position = 0;   // place in the book; a repeated reading takes the place of the struck one
    std::string kind;            // backsight, intermediate, foresight
    std::optional<Id> station_id; // empty for a change point
    std::string point;           // name of the change point, empty for a station
    double reading_m = 0.0;      // negative when the staff was inverted
    std::optional<double> distance_m;
    std::optional<double> upper_m; // three wires: `reading_m` is the mean of the three
    std::optional<double> lower_m;
    std::string typed;           // as typed, with the unit
    std::string remark;
    std::string observed_at;
};

/// One reading of a run of heights; which columns it fills is up to the method.
struct HeightReadingRow {
    static constexpr const char* kTable = "height_reading";
    Id id = 0;
    Id run_id = 0;
    std::int64_t position = 0;
    std::string role; // as the method names it: base, rover; empty where there is but one
    std::optional<Id> from_id;
    std::string from_point;
    std::optional<Id> to_id;
    std::string to_point;
    std::optional<std::int64_t> sights;
    std::optional<double> part_m;
    std::optional<double> angle_deg;
    std::optional<double> back_angle_deg;
    std::optional<double> slope_distance_m;
    std::optional<double> level_distance_m;
    std::optional<double> instrument_height_m;
    std::optional<double> target_height_m;
    std::optional<double> near_reading_m; // water tube: at the point it starts from
    std::optional<double> far_reading_m;
    std::optional<double> near_distance_m;
    std::optional<double> far_distance_m;
    std::optional<double> pressure_Pa;
    std::optional<double> temperature_C; // of the air, or of the water in the hose
    std::optional<double> humidity;
    std::optional<double> gauge_above_m;
    std::optional<double> water_above_m;
    std::optional<double> height_m;
    std::optional<double> height_u_m;
    std::string typed;
    std::string remark;
    std::string observed_at;
};

/// One fill of a container.
struct FillRow {
    static constexpr const char* kTable = "container_fill";
    Id id = 0;
    Id test_id = 0;
    double volume_m3 = 0.0;
    double time_s = 0.0;
    std::optional<double> full_kg; // where the volume was found by weighing: with the water
    std::optional<double> empty_kg;
    std::optional<double> temperature_C; // of that water
    std::string typed;
    std::string observed_at;
};

/// One vertical of a gauging.
struct VerticalRow {
    static constexpr const char* kTable = "gauging_vertical";
    Id id = 0;
    Id test_id = 0;
    double distance_m = 0.0; // from the starting point on the bank
    double depth_m = 0.0;
    std::string edge; // empty, water-edge, vertical-bank
    std::optional<double> angle_deg; // of the flow to the normal of the section
    std::string typed;
    std::string observed_at;
};

/// One velocity in a vertical: revolutions in a time, or a velocity read off.
struct VelocityRow {
    static constexpr const char* kTable = "gauging_velocity";
    Id id = 0;
    Id vertical_id = 0;
    double depth_fraction = 0.6; // from the surface
    std::optional<double> revolutions;
    std::optional<double> time_s;
    std::optional<double> velocity_ms;
    std::optional<Id> meter_id; // empty: the meter of the test
    std::string typed;
    std::string observed_at;
};

/// One reading of a flow test by any method but container and current meter; which columns it fills is up to the method.
struct FlowReadingRow {
    static constexpr const char* kTable = "flow_reading";
    Id id = 0;
    Id test_id = 0;
    std::int64_t position = 0;
    std::string role; // run, sounding, head, trace, addition, background, plateau, section, mark
    std::int64_t part = 0;
    std::optional<double> distance_m;
    std::optional<double> depth_m;
    std::optional<double> time_s;
    std::optional<double> length_m;
    std::optional<double> head_m;
    std::optional<double> height_m;
    std::optional<double> conductivity_Sm;
    std::optional<double> concentration_kgm3; // of dye
    std::optional<double> temperature_C;
    std::optional<double> volume_m3;
    std::string typed;
    std::string remark;
    std::string observed_at;
};

/// Readings of a series that follow each other: lines of "seconds after first_at,value", the value in m or m3/s and empty
/// where it is missing.
struct FlowSeriesBlockRow {
    static constexpr const char* kTable = "flow_series_block";
    Id id = 0;
    Id series_id = 0;
    std::int64_t position = 0;
    std::string first_at; // UTC
    std::int64_t readings = 0;
    std::string data;
    std::string observed_at;
};

/// A remark made at a place.
struct NoteRow {
    static constexpr const char* kTable = "note";
    Id id = 0;
    std::optional<Id> station_id;
    std::string text;
    std::string observed_at;
};

/// A photo without its picture; the picture is the column `data` of the same row (OGC 18-000, media).
struct PhotoRow {
    static constexpr const char* kTable = "photo";
    Id id = 0;
    std::string title;
    std::string content_type = "image/jpeg";
    std::optional<double> longitude_deg;
    std::optional<double> latitude_deg;
    std::optional<double> direction_deg; // true bearing of the view
    std::string source;                  // camera, file
    std::string observed_at;
};

/// What a person answered to an item of the designer's list; the last one that is not struck out holds.
struct AnswerRow {
    static constexpr const char* kTable = "answer";
    Id id = 0;
    std::string ask;     // key in assets/tables/asks.csv
    std::string verdict; // yes, no, text, not-needed (this site does without, `text` says why)
    std::string text;
    std::string observed_at;
};

/// A file of another program that was read in: the first row of the action that booked what came of it.
struct ImportRow {
    static constexpr const char* kTable = "import_source";
    Id id = 0;
    std::string format; // gpx, kml, geojson, csv, geopackage, jpeg
    std::string file_name;
    std::string file_sha256;
    std::string layer;   // of a file with several
    std::string mapping; // how its columns were read and what its lines became
    std::int64_t stations = 0;
    std::int64_t fixes = 0;
    std::int64_t photos = 0;
    std::string observed_at; // read in
};

/// A row that no longer counts, and why. `restores` takes an earlier strike-out back.
struct StrikeOutRow {
    static constexpr const char* kTable = "strike_out";
    Id id = 0;
    std::string struck_table;
    Id struck_id = 0;
    std::string reason;
    bool restores = false;
    std::string observed_at;
};

} // namespace rillmark
