// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/columns.h"

#include <array>

namespace rillmark {

template <>
std::span<const Column<StationRow>> columns<StationRow>() {
    static constexpr auto table = std::to_array<Column<StationRow>>({
        {"id", &StationRow::id, "Key", ""},
        {"name", &StationRow::name, "Name", ""},
        {"kind", &StationRow::kind, "Kind of station", ""},
        {"note", &StationRow::note, "Remark", ""},
        {"longitude_deg", &StationRow::longitude_deg, "Longitude (WGS 84)", "deg"},
        {"latitude_deg", &StationRow::latitude_deg, "Latitude (WGS 84)", "deg"},
        {"route_order", &StationRow::route_order, "Place along its line", ""},
        {"created_at", &StationRow::created_at, "Time made (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<MeterRow>> columns<MeterRow>() {
    static constexpr auto table = std::to_array<Column<MeterRow>>({
        {"id", &MeterRow::id, "Key", ""},
        {"name", &MeterRow::name, "Name", ""},
        {"slope_m", &MeterRow::slope_m, "Rating: metres per revolution", "m"},
        {"intercept_ms", &MeterRow::intercept_ms, "Rating: velocity at rest", "m/s"},
        {"limit_rev_s", &MeterRow::limit_rev_s, "Rotation above which the second range holds", "1/s"},
        {"upper_slope_m", &MeterRow::upper_slope_m, "Second range: metres per revolution", "m"},
        {"upper_intercept_ms", &MeterRow::upper_intercept_ms, "Second range: velocity at rest", "m/s"},
        {"third_limit_rev_s", &MeterRow::third_limit_rev_s, "Rotation above which the third range holds", "1/s"},
        {"third_slope_m", &MeterRow::third_slope_m, "Third range: metres per revolution", "m"},
        {"third_intercept_ms", &MeterRow::third_intercept_ms, "Third range: velocity at rest", "m/s"},
        {"individual_rating", &MeterRow::individual_rating, "Rated by itself, not as one of a group", ""},
        {"min_velocity_ms", &MeterRow::min_velocity_ms, "Least velocity that it is rated for", "m/s"},
        {"max_velocity_ms", &MeterRow::max_velocity_ms, "Greatest velocity that it is rated for", "m/s"},
        {"created_at", &MeterRow::created_at, "Time made (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<FlowTestRow>> columns<FlowTestRow>() {
    static constexpr auto table = std::to_array<Column<FlowTestRow>>({
        {"id", &FlowTestRow::id, "Key", ""},
        {"method", &FlowTestRow::method, "Method", ""},
        {"name", &FlowTestRow::name, "Name", ""},
        {"note", &FlowTestRow::note, "Remark", ""},
        {"station_id", &FlowTestRow::station_id, "Station", ""},
        {"meter_id", &FlowTestRow::meter_id, "Current meter", ""},
        {"stage_m", &FlowTestRow::stage_m, "Staff gauge at the test", "m"},
        {"volume_uncertainty", &FlowTestRow::volume_uncertainty, "Relative standard uncertainty of the volume", "1"},
        {"length_m", &FlowTestRow::length_m, "Length of the reach", "m"},
        {"width_m", &FlowTestRow::width_m, "Width of the stream", "m"},
        {"bed", &FlowTestRow::bed, "Bed of a float gauging", ""},
        {"wind", &FlowTestRow::wind, "Wind at a float gauging", ""},
        {"water_surface", &FlowTestRow::water_surface, "Water surface at a float gauging", ""},
        {"coefficient", &FlowTestRow::coefficient, "Float coefficient chosen by the surveyor", "1"},
        {"shape", &FlowTestRow::shape, "Shape of the weir", ""},
        {"notch_angle_deg", &FlowTestRow::notch_angle_deg, "Whole angle of the notch", "deg"},
        {"crest_length_m", &FlowTestRow::crest_length_m, "Length of the crest", "m"},
        {"crest_height_m", &FlowTestRow::crest_height_m, "Crest above the bed of the approach", "m"},
        {"gauge_distance_m", &FlowTestRow::gauge_distance_m, "Head gauge upstream of the plate", "m"},
        {"gauge_zero_m", &FlowTestRow::gauge_zero_m, "Reading of the gauge at the crest or floor", "m"},
        {"tailwater_m", &FlowTestRow::tailwater_m, "Reading of the gauge below", "m"},
        {"flume_size", &FlowTestRow::flume_size, "Size of the flume", ""},
        {"salt_mass_kg", &FlowTestRow::salt_mass_kg, "Salt poured in", "kg"},
        {"solution_m3", &FlowTestRow::solution_m3, "Solution poured in", "m3"},
        {"solution_kgm3", &FlowTestRow::solution_kgm3, "Salt in that solution", "kg/m3"},
        {"tracer", &FlowTestRow::tracer, "Tracer of a steady injection: dye, or empty for salt", ""},
        {"injection_m3s", &FlowTestRow::injection_m3s, "Rate of a steady injection", "m3/s"},
        {"tracer_kgm3", &FlowTestRow::tracer_kgm3, "Tracer in the injected solution", "kg/m3"},
        {"sample_m3", &FlowTestRow::sample_m3, "Calibration: stream water in the vessel", "m3"},
        {"standard_kgm3", &FlowTestRow::standard_kgm3, "Calibration: salt in the standard solution", "kg/m3"},
        {"factor", &FlowTestRow::factor, "Calibration factor known beforehand", "kg/m3 per S/m"},
        {"factor_u", &FlowTestRow::factor_u, "Standard uncertainty of that factor", "kg/m3 per S/m"},
        {"temperature_rule", &FlowTestRow::temperature_rule, "How conductivity is brought to 25 degC", ""},
        {"trace_from_s", &FlowTestRow::trace_from_s, "Start of the wave on the trace", "s"},
        {"trace_to_s", &FlowTestRow::trace_to_s, "End of the wave on the trace", "s"},
        {"manning_n", &FlowTestRow::manning_n, "Manning roughness", "s/m^(1/3)"},
        {"manning_n_u", &FlowTestRow::manning_n_u, "Standard uncertainty of the roughness", "s/m^(1/3)"},
        {"depth_u_m", &FlowTestRow::depth_u_m, "Standard uncertainty of one depth", "m"},
        {"wall_share", &FlowTestRow::wall_share, "Velocity at a wall over that of its neighbour", "1"},
        {"surface_share", &FlowTestRow::surface_share, "Mean velocity over that at the surface", "1"},
        {"reaction_s", &FlowTestRow::reaction_s, "Half-width of the error of the watch", "s"},
        {"counts", &FlowTestRow::counts, "Takes part in the flow to use", ""},
        {"set_aside_reason", &FlowTestRow::set_aside_reason, "Why it takes no part", ""},
        {"created_at", &FlowTestRow::created_at, "Time made (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<LevelBookRow>> columns<LevelBookRow>() {
    static constexpr auto table = std::to_array<Column<LevelBookRow>>({
        {"id", &LevelBookRow::id, "Key", ""},
        {"name", &LevelBookRow::name, "Name", ""},
        {"instrument", &LevelBookRow::instrument, "Instrument", ""},
        {"observer", &LevelBookRow::observer, "Observer", ""},
        {"staff_uncertainty_m", &LevelBookRow::staff_uncertainty_m, "Standard uncertainty of one staff reading", "m"},
        {"allowance", &LevelBookRow::allowance, "Class of allowed misclosure", ""},
        {"length_m", &LevelBookRow::length_m, "Length of the line", "m"},
        {"stadia_factor", &LevelBookRow::stadia_factor, "Distance over stadia interval", "1"},
        {"share_out", &LevelBookRow::share_out, "How the misclosure is shared out", ""},
        {"created_at", &LevelBookRow::created_at, "Time made (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<HeightRunRow>> columns<HeightRunRow>() {
    static constexpr auto table = std::to_array<Column<HeightRunRow>>({
        {"id", &HeightRunRow::id, "Key", ""},
        {"method", &HeightRunRow::method, "Method", ""},
        {"name", &HeightRunRow::name, "Name", ""},
        {"instrument", &HeightRunRow::instrument, "Instrument", ""},
        {"note", &HeightRunRow::note, "Remark", ""},
        {"eye_height_m", &HeightRunRow::eye_height_m, "Eye height", "m"},
        {"eye_height_u_m", &HeightRunRow::eye_height_u_m, "Standard uncertainty of the eye height", "m"},
        {"angle_u_deg", &HeightRunRow::angle_u_deg, "Standard uncertainty of one angle", "deg"},
        {"index_deg", &HeightRunRow::index_deg, "Angle that the instrument shows on the level", "deg"},
        {"index_u_deg", &HeightRunRow::index_u_deg, "Standard uncertainty of the index", "deg"},
        {"reading_u_m", &HeightRunRow::reading_u_m, "Standard uncertainty of one reading", "m"},
        {"distance_u", &HeightRunRow::distance_u, "Relative standard uncertainty of a distance", "1"},
        {"gauge_class", &HeightRunRow::gauge_class, "Gauge class: largest error over full scale", "1"},
        {"gauge_range_Pa", &HeightRunRow::gauge_range_Pa, "Full scale of the gauge", "Pa"},
        {"gauge_zero_Pa", &HeightRunRow::gauge_zero_Pa, "What the gauge shows without pressure", "Pa"},
        {"pressure_u_Pa", &HeightRunRow::pressure_u_Pa, "Standard uncertainty of one pressure", "Pa"},
        {"station_id", &HeightRunRow::station_id, "Base station", ""},
        {"created_at", &HeightRunRow::created_at, "Time made (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<FlowSeriesRow>> columns<FlowSeriesRow>() {
    static constexpr auto table = std::to_array<Column<FlowSeriesRow>>({
        {"id", &FlowSeriesRow::id, "Key", ""},
        {"kind", &FlowSeriesRow::kind, "What was recorded", ""},
        {"name", &FlowSeriesRow::name, "Name of the gauge", ""},
        {"note", &FlowSeriesRow::note, "Remark", ""},
        {"catchment_m2", &FlowSeriesRow::catchment_m2, "Catchment of the gauge", "m2"},
        {"catchment_u", &FlowSeriesRow::catchment_u, "Relative standard uncertainty of the catchment", "1"},
        {"flow_u", &FlowSeriesRow::flow_u, "Relative standard uncertainty of the gauge's flows", "1"},
        {"unit", &FlowSeriesRow::unit, "Unit in the file", ""},
        {"file_name", &FlowSeriesRow::file_name, "File read in", ""},
        {"file_sha256", &FlowSeriesRow::file_sha256, "SHA-256 of that file", ""},
        {"created_at", &FlowSeriesRow::created_at, "Time read in (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<AlternativeRow>> columns<AlternativeRow>() {
    static constexpr auto table = std::to_array<Column<AlternativeRow>>({
        {"id", &AlternativeRow::id, "Key", ""},
        {"name", &AlternativeRow::name, "Name", ""},
        {"note", &AlternativeRow::note, "Remark", ""},
        {"intake_id", &AlternativeRow::intake_id, "Intake station", ""},
        {"powerhouse_id", &AlternativeRow::powerhouse_id, "Powerhouse station", ""},
        {"house_id", &AlternativeRow::house_id, "House station", ""},
        {"lower_end", &AlternativeRow::lower_end, "Where the head ends", ""},
        {"design_flow_m3s", &AlternativeRow::design_flow_m3s, "Design flow", "m3/s"},
        {"pipe_id", &AlternativeRow::pipe_id, "Pipe, key in the pipe table", ""},
        {"pipe_length_m", &AlternativeRow::pipe_length_m, "Pipe length", "m"},
        {"minor_k", &AlternativeRow::minor_k, "Sum of minor loss coefficients", "1"},
        {"turbine_efficiency", &AlternativeRow::turbine_efficiency, "Turbine efficiency", "1"},
        {"turbine_efficiency_u", &AlternativeRow::turbine_efficiency_u, "Standard uncertainty of the turbine efficiency", "1"},
        {"generator_efficiency", &AlternativeRow::generator_efficiency, "Generator efficiency", "1"},
        {"generator_efficiency_u", &AlternativeRow::generator_efficiency_u, "Standard uncertainty of the generator efficiency", "1"},
        {"cable_id", &AlternativeRow::cable_id, "Cable, key in the conductor table", ""},
        {"cable_system", &AlternativeRow::cable_system, "Electrical system of the cable", ""},
        {"cable_length_m", &AlternativeRow::cable_length_m, "Cable length, one way", "m"},
        {"voltage_V", &AlternativeRow::voltage_V, "Voltage", "V"},
        {"power_factor", &AlternativeRow::power_factor, "Power factor", "1"},
        {"intake_kind", &AlternativeRow::intake_kind, "Crest of the diversion wall", ""},
        {"crest_width_m", &AlternativeRow::crest_width_m, "Width of the crest across the stream", "m"},
        {"crest_breadth_m", &AlternativeRow::crest_breadth_m, "Breadth of the crest along the flow", "m"},
        {"crest_height_m", &AlternativeRow::crest_height_m, "Crest above the bed upstream", "m"},
        {"wall_top_m", &AlternativeRow::wall_top_m, "Top of the abutments above the crest", "m"},
        {"flood_m3s", &AlternativeRow::flood_m3s, "Flood that the wall has to pass", "m3/s"},
        {"rack_area_m2", &AlternativeRow::rack_area_m2, "Wetted area of the rack along the bars", "m2"},
        {"rack_bar_m", &AlternativeRow::rack_bar_m, "Thickness of the bars of the rack", "m"},
        {"rack_gap_m", &AlternativeRow::rack_gap_m, "Clear gap of the rack", "m"},
        {"rack_slope_deg", &AlternativeRow::rack_slope_deg, "Slope of the rack from the horizontal", "deg"},
        {"screen_capacity_m2s", &AlternativeRow::screen_capacity_m2s, "Clean capacity of the screen per metre of width, by its maker", "m2/s"},
        {"screen_drop_m", &AlternativeRow::screen_drop_m, "Head given up at the screen", "m"},
        {"mouth_depth_m", &AlternativeRow::mouth_depth_m, "Water above the top of the pipe's mouth", "m"},
        {"basin_width_m", &AlternativeRow::basin_width_m, "Width of the settling basin", "m"},
        {"grain_m", &AlternativeRow::grain_m, "Grain to be settled", "m"},
        {"parallel_pipes", &AlternativeRow::parallel_pipes, "Pipes side by side", ""},
        {"pipe_anchoring", &AlternativeRow::pipe_anchoring, "How the pipe is held along its axis", ""},
        {"closing_s", &AlternativeRow::closing_s, "Closing time of the valve", "s"},
        {"wall_temperature_C", &AlternativeRow::wall_temperature_C, "Temperature of the hottest pipe wall", "degC"},
        {"soil_bearing_Pa", &AlternativeRow::soil_bearing_Pa, "Bearing pressure of the soil", "Pa"},
        {"turbine_kind", &AlternativeRow::turbine_kind, "Turbine, key in the table of turbines", ""},
        {"jets", &AlternativeRow::jets, "Jets of the turbine", ""},
        {"runner_m", &AlternativeRow::runner_m, "Diameter of the runner or pitch circle", "m"},
        {"turbine_rpm", &AlternativeRow::turbine_rpm, "Speed of the turbine", "1/min"},
        {"setting_m", &AlternativeRow::setting_m, "Runner above tailwater", "m"},
        {"frequency_Hz", &AlternativeRow::frequency_Hz, "Frequency of the generator", "Hz"},
        {"drive_id", &AlternativeRow::drive_id, "Drive, key in the efficiency table", ""},
        {"drive_efficiency", &AlternativeRow::drive_efficiency, "Drive efficiency", "1"},
        {"drive_efficiency_u", &AlternativeRow::drive_efficiency_u, "Standard uncertainty of the drive efficiency", "1"},
        {"conductor_temperature_C", &AlternativeRow::conductor_temperature_C, "Working temperature of the conductor", "degC"},
        {"currency", &AlternativeRow::currency, "Currency of the prices", ""},
        {"energy_price_per_J", &AlternativeRow::energy_price_per_J, "Price of the energy", "money/J"},
        {"price_years", &AlternativeRow::price_years, "Years over which the energy counts", "a"},
        {"price_interest", &AlternativeRow::price_interest, "Interest a year", "1"},
        {"cable_price", &AlternativeRow::cable_price, "Price of the cable a metre", "money/m"},
        {"other_price", &AlternativeRow::other_price, "Price of all else", "money"},
        {"created_at", &AlternativeRow::created_at, "Time made (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<PipeSectionRow>> columns<PipeSectionRow>() {
    static constexpr auto table = std::to_array<Column<PipeSectionRow>>({
        {"id", &PipeSectionRow::id, "Key", ""},
        {"alternative_id", &PipeSectionRow::alternative_id, "Alternative", ""},
        {"position", &PipeSectionRow::position, "Place from the intake down", ""},
        {"name", &PipeSectionRow::name, "Name", ""},
        {"pipe_id", &PipeSectionRow::pipe_id, "Pipe, key in the pipe table", ""},
        {"material", &PipeSectionRow::material, "Material of the pipe", ""},
        {"length_m", &PipeSectionRow::length_m, "Length along the slope", "m"},
        {"bore_m", &PipeSectionRow::bore_m, "Bore", "m"},
        {"wall_m", &PipeSectionRow::wall_m, "Wall", "m"},
        {"roughness_m", &PipeSectionRow::roughness_m, "Roughness", "m"},
        {"rating_Pa", &PipeSectionRow::rating_Pa, "Pressure rating", "Pa"},
        {"created_at", &PipeSectionRow::created_at, "Time made (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<PipeFittingRow>> columns<PipeFittingRow>() {
    static constexpr auto table = std::to_array<Column<PipeFittingRow>>({
        {"id", &PipeFittingRow::id, "Key", ""},
        {"alternative_id", &PipeFittingRow::alternative_id, "Alternative", ""},
        {"section_id", &PipeFittingRow::section_id, "Section of the pipe", ""},
        {"position", &PipeFittingRow::position, "Place in the list", ""},
        {"name", &PipeFittingRow::name, "Name", ""},
        {"fitting_id", &PipeFittingRow::fitting_id, "Fitting, key in the fittings table", ""},
        {"count", &PipeFittingRow::count, "How many", ""},
        {"k", &PipeFittingRow::k, "Loss coefficient of one", "1"},
        {"created_at", &PipeFittingRow::created_at, "Time made (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<PipePriceRow>> columns<PipePriceRow>() {
    static constexpr auto table = std::to_array<Column<PipePriceRow>>({
        {"id", &PipePriceRow::id, "Key", ""},
        {"pipe_id", &PipePriceRow::pipe_id, "Pipe, key in the pipe table", ""},
        {"size_price", &PipePriceRow::size_price, "Price of the pipe a metre", "money/m"},
        {"trench_price", &PipePriceRow::trench_price, "Price of trench and laying a metre", "money/m"},
        {"created_at", &PipePriceRow::created_at, "Time made (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<SiteRow>> columns<SiteRow>() {
    static constexpr auto table = std::to_array<Column<SiteRow>>({
        {"id", &SiteRow::id, "Key", ""},
        {"name", &SiteRow::name, "Name", ""},
        {"owner", &SiteRow::owner, "Owner of the land or the plant", ""},
        {"note", &SiteRow::note, "Remark", ""},
        {"water_temperature_C", &SiteRow::water_temperature_C, "Water temperature", "degC"},
        {"flow_choice", &SiteRow::flow_choice, "How the flow to use is chosen", ""},
        {"flow_test_id", &SiteRow::flow_test_id, "The chosen flow test", ""},
        {"alternative_id", &SiteRow::alternative_id, "The alternative shown", ""},
        {"leave_rule", &SiteRow::leave_rule, "Rule for the flow to leave", ""},
        {"leave_m3s", &SiteRow::leave_m3s, "Flow to leave", "m3/s"},
        {"leave_share", &SiteRow::leave_share, "Share to leave", "1"},
        {"flow_figure", &SiteRow::flow_figure, "Figure of the year that is the flow to use", ""},
        {"flow_from_month", &SiteRow::flow_from_month, "First month whose visits count", ""},
        {"flow_to_month", &SiteRow::flow_to_month, "Last month whose visits count", ""},
        {"zero_flow_stage_m", &SiteRow::zero_flow_stage_m, "Staff gauge when the flow ceases", "m"},
        {"series_id", &SiteRow::series_id, "Series that the year's flow is taken from", ""},
        {"transfer", &SiteRow::transfer, "How its flows come to the site", ""},
        {"catchment_m2", &SiteRow::catchment_m2, "Catchment of the site", "m2"},
        {"catchment_u", &SiteRow::catchment_u, "Relative standard uncertainty of the catchment", "1"},
        {"area_power", &SiteRow::area_power, "Power of the ratio of catchments", "1"},
        {"yield_ms", &SiteRow::yield_ms, "Specific yield", "m3/s per m2"},
        {"yield_u_ms", &SiteRow::yield_u_ms, "Standard uncertainty of the specific yield", "m3/s per m2"},
        {"duration_rule", &SiteRow::duration_rule, "Plotting rule of the duration curve", ""},
        {"year_begins", &SiteRow::year_begins, "Month in which a year begins", ""},
        {"leave_q95_share", &SiteRow::leave_q95_share, "Share of Q95 to leave", "1"},
        {"leave_jan_m3s", &SiteRow::leave_jan_m3s, "Flow to leave in January", "m3/s"},
        {"leave_feb_m3s", &SiteRow::leave_feb_m3s, "Flow to leave in February", "m3/s"},
        {"leave_mar_m3s", &SiteRow::leave_mar_m3s, "Flow to leave in March", "m3/s"},
        {"leave_apr_m3s", &SiteRow::leave_apr_m3s, "Flow to leave in April", "m3/s"},
        {"leave_may_m3s", &SiteRow::leave_may_m3s, "Flow to leave in May", "m3/s"},
        {"leave_jun_m3s", &SiteRow::leave_jun_m3s, "Flow to leave in June", "m3/s"},
        {"leave_jul_m3s", &SiteRow::leave_jul_m3s, "Flow to leave in July", "m3/s"},
        {"leave_aug_m3s", &SiteRow::leave_aug_m3s, "Flow to leave in August", "m3/s"},
        {"leave_sep_m3s", &SiteRow::leave_sep_m3s, "Flow to leave in September", "m3/s"},
        {"leave_oct_m3s", &SiteRow::leave_oct_m3s, "Flow to leave in October", "m3/s"},
        {"leave_nov_m3s", &SiteRow::leave_nov_m3s, "Flow to leave in November", "m3/s"},
        {"leave_dec_m3s", &SiteRow::leave_dec_m3s, "Flow to leave in December", "m3/s"},
        {"created_at", &SiteRow::created_at, "Time made (UTC)", ""},
    });
    return table;
}

} // namespace rillmark
