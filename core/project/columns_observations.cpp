// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/columns.h"

#include <array>

namespace rillmark {

template <>
std::span<const Column<OccupationRow>> columns<OccupationRow>() {
    static constexpr auto table = std::to_array<Column<OccupationRow>>({
        {"id", &OccupationRow::id, "Key", ""},
        {"station_id", &OccupationRow::station_id, "Station", ""},
        {"longitude_deg", &OccupationRow::longitude_deg, "Longitude (WGS 84)", "deg"},
        {"latitude_deg", &OccupationRow::latitude_deg, "Latitude (WGS 84)", "deg"},
        {"height_ellipsoid_m", &OccupationRow::height_ellipsoid_m, "Height above the ellipsoid (WGS 84)", "m"},
        {"height_msl_m", &OccupationRow::height_msl_m, "Height above mean sea level", "m"},
        {"u_east_m", &OccupationRow::u_east_m, "Standard uncertainty east", "m"},
        {"u_north_m", &OccupationRow::u_north_m, "Standard uncertainty north", "m"},
        {"u_up_m", &OccupationRow::u_up_m, "Standard uncertainty up", "m"},
        {"scatter_east_m", &OccupationRow::scatter_east_m, "Standard deviation of the fixes east", "m"},
        {"scatter_north_m", &OccupationRow::scatter_north_m, "Standard deviation of the fixes north", "m"},
        {"scatter_up_m", &OccupationRow::scatter_up_m, "Standard deviation of the fixes up", "m"},
        {"fixes", &OccupationRow::fixes, "Number of fixes", "1"},
        {"seconds", &OccupationRow::seconds, "Length of the stay", "s"},
        {"quality", &OccupationRow::quality, "Quality of the fix", ""},
        {"source", &OccupationRow::source, "Where it came from", ""},
        {"observed_at", &OccupationRow::observed_at, "Time observed (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<FixRow>> columns<FixRow>() {
    static constexpr auto table = std::to_array<Column<FixRow>>({
        {"id", &FixRow::id, "Key", ""},
        {"occupation_id", &FixRow::occupation_id, "Stay at a station that it belongs to", ""},
        {"longitude_deg", &FixRow::longitude_deg, "Longitude (WGS 84)", "deg"},
        {"latitude_deg", &FixRow::latitude_deg, "Latitude (WGS 84)", "deg"},
        {"height_ellipsoid_m", &FixRow::height_ellipsoid_m, "Height above the ellipsoid (WGS 84)", "m"},
        {"height_msl_m", &FixRow::height_msl_m, "Height above mean sea level", "m"},
        {"geoid_separation_m", &FixRow::geoid_separation_m, "Geoid above the ellipsoid", "m"},
        {"u_east_m", &FixRow::u_east_m, "Standard uncertainty east", "m"},
        {"u_north_m", &FixRow::u_north_m, "Standard uncertainty north", "m"},
        {"u_up_m", &FixRow::u_up_m, "Standard uncertainty up", "m"},
        {"hdop", &FixRow::hdop, "Horizontal dilution of precision", "1"},
        {"satellites", &FixRow::satellites, "Satellites used", "1"},
        {"quality", &FixRow::quality, "Quality of the fix", ""},
        {"source", &FixRow::source, "Where it came from", ""},
        {"observed_at", &FixRow::observed_at, "Time observed (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<SightRow>> columns<SightRow>() {
    static constexpr auto table = std::to_array<Column<SightRow>>({
        {"id", &SightRow::id, "Key", ""},
        {"book_id", &SightRow::book_id, "Level book", ""},
        {"position", &SightRow::position, "Place in the book", ""},
        {"kind", &SightRow::kind, "Kind of sight", ""},
        {"station_id", &SightRow::station_id, "Station (none for a change point)", ""},
        {"point", &SightRow::point, "Name of the change point", ""},
        {"reading_m", &SightRow::reading_m, "Staff reading", "m"},
        {"distance_m", &SightRow::distance_m, "Distance from the instrument", "m"},
        {"upper_m", &SightRow::upper_m, "Upper wire", "m"},
        {"lower_m", &SightRow::lower_m, "Lower wire", "m"},
        {"typed", &SightRow::typed, "As typed, with its unit", ""},
        {"remark", &SightRow::remark, "Remark", ""},
        {"observed_at", &SightRow::observed_at, "Time observed (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<HeightReadingRow>> columns<HeightReadingRow>() {
    static constexpr auto table = std::to_array<Column<HeightReadingRow>>({
        {"id", &HeightReadingRow::id, "Key", ""},
        {"run_id", &HeightReadingRow::run_id, "Run that it belongs to", ""},
        {"position", &HeightReadingRow::position, "Place in the run", ""},
        {"role", &HeightReadingRow::role, "What the reading is for", ""},
        {"from_id", &HeightReadingRow::from_id, "From station (none for a change point)", ""},
        {"from_point", &HeightReadingRow::from_point, "Name of the change point it starts at", ""},
        {"to_id", &HeightReadingRow::to_id, "To station (none for a change point)", ""},
        {"to_point", &HeightReadingRow::to_point, "Name of the change point it ends at", ""},
        {"sights", &HeightReadingRow::sights, "Whole eye heights counted", "1"},
        {"part_m", &HeightReadingRow::part_m, "Part of an eye height beyond them", "m"},
        {"angle_deg", &HeightReadingRow::angle_deg, "Angle above the horizontal", "deg"},
        {"back_angle_deg", &HeightReadingRow::back_angle_deg, "Angle above the horizontal, sighted back", "deg"},
        {"slope_distance_m", &HeightReadingRow::slope_distance_m, "Distance along the slope", "m"},
        {"level_distance_m", &HeightReadingRow::level_distance_m, "Level distance", "m"},
        {"instrument_height_m", &HeightReadingRow::instrument_height_m, "Instrument above the point", "m"},
        {"target_height_m", &HeightReadingRow::target_height_m, "Target above the point", "m"},
        {"near_reading_m", &HeightReadingRow::near_reading_m, "Staff reading at the first point", "m"},
        {"far_reading_m", &HeightReadingRow::far_reading_m, "Staff reading at the second point", "m"},
        {"near_distance_m", &HeightReadingRow::near_distance_m, "Distance to the first point", "m"},
        {"far_distance_m", &HeightReadingRow::far_distance_m, "Distance to the second point", "m"},
        {"pressure_Pa", &HeightReadingRow::pressure_Pa, "Pressure", "Pa"},
        {"temperature_C", &HeightReadingRow::temperature_C, "Temperature", "degC"},
        {"humidity", &HeightReadingRow::humidity, "Relative humidity", "1"},
        {"gauge_above_m", &HeightReadingRow::gauge_above_m, "Gauge above the lower point", "m"},
        {"water_above_m", &HeightReadingRow::water_above_m, "Water surface above the upper point", "m"},
        {"height_m", &HeightReadingRow::height_m, "Known height", "m"},
        {"height_u_m", &HeightReadingRow::height_u_m, "Standard uncertainty of the known height", "m"},
        {"typed", &HeightReadingRow::typed, "As typed, with its unit", ""},
        {"remark", &HeightReadingRow::remark, "Remark", ""},
        {"observed_at", &HeightReadingRow::observed_at, "Time observed (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<FillRow>> columns<FillRow>() {
    static constexpr auto table = std::to_array<Column<FillRow>>({
        {"id", &FillRow::id, "Key", ""},
        {"test_id", &FillRow::test_id, "Flow test", ""},
        {"volume_m3", &FillRow::volume_m3, "Volume", "m3"},
        {"time_s", &FillRow::time_s, "Time to fill", "s"},
        {"full_kg", &FillRow::full_kg, "Weight of the container with the water", "kg"},
        {"empty_kg", &FillRow::empty_kg, "Weight of the empty container", "kg"},
        {"temperature_C", &FillRow::temperature_C, "Temperature of the water", "degC"},
        {"typed", &FillRow::typed, "As typed, with its unit", ""},
        {"observed_at", &FillRow::observed_at, "Time observed (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<VerticalRow>> columns<VerticalRow>() {
    static constexpr auto table = std::to_array<Column<VerticalRow>>({
        {"id", &VerticalRow::id, "Key", ""},
        {"test_id", &VerticalRow::test_id, "Flow test", ""},
        {"distance_m", &VerticalRow::distance_m, "Distance from the starting point", "m"},
        {"depth_m", &VerticalRow::depth_m, "Depth", "m"},
        {"edge", &VerticalRow::edge, "Edge of the section", ""},
        {"angle_deg", &VerticalRow::angle_deg, "Angle of the flow to the normal of the section", "deg"},
        {"typed", &VerticalRow::typed, "As typed, with its unit", ""},
        {"observed_at", &VerticalRow::observed_at, "Time observed (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<VelocityRow>> columns<VelocityRow>() {
    static constexpr auto table = std::to_array<Column<VelocityRow>>({
        {"id", &VelocityRow::id, "Key", ""},
        {"vertical_id", &VelocityRow::vertical_id, "Vertical", ""},
        {"depth_fraction", &VelocityRow::depth_fraction, "Depth of the velocity below the surface as a fraction", "1"},
        {"revolutions", &VelocityRow::revolutions, "Revolutions", "1"},
        {"time_s", &VelocityRow::time_s, "Time of the count", "s"},
        {"velocity_ms", &VelocityRow::velocity_ms, "Velocity read off", "m/s"},
        {"meter_id", &VelocityRow::meter_id, "Current meter (none: that of the test)", ""},
        {"typed", &VelocityRow::typed, "As typed, with its unit", ""},
        {"observed_at", &VelocityRow::observed_at, "Time observed (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<FlowReadingRow>> columns<FlowReadingRow>() {
    static constexpr auto table = std::to_array<Column<FlowReadingRow>>({
        {"id", &FlowReadingRow::id, "Key", ""},
        {"test_id", &FlowReadingRow::test_id, "Flow test", ""},
        {"position", &FlowReadingRow::position, "Place in the test", ""},
        {"role", &FlowReadingRow::role, "What the reading is for", ""},
        {"part", &FlowReadingRow::part, "Section or probe that it belongs to", ""},
        {"distance_m", &FlowReadingRow::distance_m, "Distance across or along", "m"},
        {"depth_m", &FlowReadingRow::depth_m, "Depth", "m"},
        {"time_s", &FlowReadingRow::time_s, "Time", "s"},
        {"length_m", &FlowReadingRow::length_m, "Length that was timed, or place along the stream", "m"},
        {"head_m", &FlowReadingRow::head_m, "Reading of the head gauge", "m"},
        {"height_m", &FlowReadingRow::height_m, "Height", "m"},
        {"conductivity_Sm", &FlowReadingRow::conductivity_Sm, "Electrical conductivity", "S/m"},
        {"concentration_kgm3", &FlowReadingRow::concentration_kgm3, "Concentration of dye", "kg/m3"},
        {"temperature_C", &FlowReadingRow::temperature_C, "Water temperature", "degC"},
        {"volume_m3", &FlowReadingRow::volume_m3, "Standard solution added so far", "m3"},
        {"typed", &FlowReadingRow::typed, "As typed, with its unit", ""},
        {"remark", &FlowReadingRow::remark, "Remark", ""},
        {"observed_at", &FlowReadingRow::observed_at, "Time observed (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<FlowSeriesBlockRow>> columns<FlowSeriesBlockRow>() {
    static constexpr auto table = std::to_array<Column<FlowSeriesBlockRow>>({
        {"id", &FlowSeriesBlockRow::id, "Key", ""},
        {"series_id", &FlowSeriesBlockRow::series_id, "Series that it belongs to", ""},
        {"position", &FlowSeriesBlockRow::position, "Place in the series", ""},
        {"first_at", &FlowSeriesBlockRow::first_at, "Time of the first reading (UTC)", ""},
        {"readings", &FlowSeriesBlockRow::readings, "Number of readings", "1"},
        {"data", &FlowSeriesBlockRow::data, "Lines of: seconds after the first, stage in m or flow in m3/s", ""},
        {"observed_at", &FlowSeriesBlockRow::observed_at, "Time read in (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<NoteRow>> columns<NoteRow>() {
    static constexpr auto table = std::to_array<Column<NoteRow>>({
        {"id", &NoteRow::id, "Key", ""},
        {"station_id", &NoteRow::station_id, "Station", ""},
        {"text", &NoteRow::text, "Remark", ""},
        {"observed_at", &NoteRow::observed_at, "Time observed (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<AnswerRow>> columns<AnswerRow>() {
    static constexpr auto table = std::to_array<Column<AnswerRow>>({
        {"id", &AnswerRow::id, "Key", ""},
        {"ask", &AnswerRow::ask, "Item of the designer's list", ""},
        {"verdict", &AnswerRow::verdict, "Answer: yes, no, text, not-needed", ""},
        {"text", &AnswerRow::text, "Answer in words, or the reason", ""},
        {"observed_at", &AnswerRow::observed_at, "Time answered (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<ImportRow>> columns<ImportRow>() {
    static constexpr auto table = std::to_array<Column<ImportRow>>({
        {"id", &ImportRow::id, "Key", ""},
        {"format", &ImportRow::format, "Format of the file", ""},
        {"file_name", &ImportRow::file_name, "File read in", ""},
        {"file_sha256", &ImportRow::file_sha256, "SHA-256 of that file", ""},
        {"layer", &ImportRow::layer, "Layer of the file", ""},
        {"mapping", &ImportRow::mapping, "How it was read", ""},
        {"stations", &ImportRow::stations, "Stations that came of it", ""},
        {"fixes", &ImportRow::fixes, "Fixes of the track that came of it", ""},
        {"photos", &ImportRow::photos, "Photos that came of it", ""},
        {"observed_at", &ImportRow::observed_at, "Time read in (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<PhotoRow>> columns<PhotoRow>() {
    static constexpr auto table = std::to_array<Column<PhotoRow>>({
        {"id", &PhotoRow::id, "Key", ""},
        {"title", &PhotoRow::title, "Title", ""},
        {"content_type", &PhotoRow::content_type, "Media type of the picture", ""},
        {"longitude_deg", &PhotoRow::longitude_deg, "Longitude (WGS 84)", "deg"},
        {"latitude_deg", &PhotoRow::latitude_deg, "Latitude (WGS 84)", "deg"},
        {"direction_deg", &PhotoRow::direction_deg, "True bearing of the view", "deg"},
        {"source", &PhotoRow::source, "Where it came from", ""},
        {"observed_at", &PhotoRow::observed_at, "Time observed (UTC)", ""},
    });
    return table;
}

template <>
std::span<const Column<StrikeOutRow>> columns<StrikeOutRow>() {
    static constexpr auto table = std::to_array<Column<StrikeOutRow>>({
        {"id", &StrikeOutRow::id, "Key", ""},
        {"struck_table", &StrikeOutRow::struck_table, "Table of the row struck out", ""},
        {"struck_id", &StrikeOutRow::struck_id, "Key of the row struck out", ""},
        {"reason", &StrikeOutRow::reason, "Reason", ""},
        {"restores", &StrikeOutRow::restores, "Takes an earlier strike-out back", ""},
        {"observed_at", &StrikeOutRow::observed_at, "Time observed (UTC)", ""},
    });
    return table;
}

} // namespace rillmark
