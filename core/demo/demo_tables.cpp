// SPDX-License-Identifier: GPL-3.0-or-later
#include "demo/demo_tables.h"

#include "embedded_text.h"

#include <algorithm>

namespace rillmark::demo {

namespace {

constexpr const char* kReceiver = "demo receiver";

constexpr ReduceField kSiteFields[] = {
    {"name", {}, true}, {"owner", {}}, {"note", {}}, {"water_temperature", Quantity::Temperature}};
constexpr ReduceField kStationFields[] = {{"name", {}, true}, {"kind", {}, true}, {"note", {}}, {"at", {}, true}};
constexpr ReduceField kFixFields[] = {
    {"station", {}},
    {"time", Quantity::Time, true},
    {"latitude", Quantity::Coordinate, true},
    {"longitude", Quantity::Coordinate, true},
    {"height_ellipsoid", Quantity::Length},
    {"height_msl", Quantity::Length},
    {"u_east", Quantity::Length},
    {"u_north", Quantity::Length},
    {"u_up", Quantity::Length},
    {"hdop", Quantity::Number},
    {"satellites", Quantity::Number},
    {"quality", {}, true},
};
constexpr ReduceField kBookFields[] = {
    {"name", {}, true}, {"instrument", {}}, {"observer", {}}, {"allowance", {}, true}, {"at", {}, true}};
constexpr ReduceField kSightFields[] = {
    {"position", Quantity::Number, true}, {"kind", {}, true},           {"station", {}},
    {"point", {}},                        {"reading", Quantity::Length, true}, {"distance", Quantity::Length},
    {"remark", {}},                       {"struck", {}},               {"at", {}, true},
};
constexpr ReduceField kHeightRunFields[] = {
    {"name", {}, true},
    {"method", {}, true},
    {"instrument", {}},
    {"gauge_class", Quantity::Ratio},
    {"gauge_range", Quantity::Pressure},
    {"gauge_zero", Quantity::Pressure},
    {"pressure_uncertainty", Quantity::Pressure},
    {"at", {}, true},
};
constexpr ReduceField kHeightReadingFields[] = {
    {"run", {}, true},
    {"from", {}},
    {"to", {}},
    {"near_reading", Quantity::Length},
    {"near_distance", Quantity::Length},
    {"far_reading", Quantity::Length},
    {"far_distance", Quantity::Length},
    {"pressure", Quantity::Pressure},
    {"temperature", Quantity::Temperature},
    {"at", {}, true},
};
constexpr ReduceField kMeterFields[] = {
    {"name", {}, true},
    {"slope", Quantity::Length, true},
    {"intercept", Quantity::Velocity, true},
    {"limit", Quantity::Number},
    {"upper_slope", Quantity::Length},
    {"upper_intercept", Quantity::Velocity},
    {"at", {}, true},
};
constexpr ReduceField kTestFields[] = {
    {"method", {}, true},
    {"name", {}, true},
    {"note", {}},
    {"station", {}},
    {"stage", Quantity::Length},
    {"volume_uncertainty", Quantity::Ratio},
    {"length", Quantity::Length},
    {"width", Quantity::Length},
    {"salt_mass", Quantity::Mass},
    {"sample", Quantity::Volume},
    {"standard", Quantity::Density},
    {"manning_n", Quantity::Number},
    {"manning_n_uncertainty", Quantity::Number},
    {"at", {}, true},
};
constexpr ReduceField kFillFields[] = {{"volume", Quantity::Volume, true}, {"time", Quantity::Time, true}, {"at", {}, true}};
constexpr ReduceField kGaugingFields[] = {
    {"distance", Quantity::Length, true}, {"depth", Quantity::Length, true},  {"edge", {}},
    {"angle", Quantity::Angle},           {"fraction", Quantity::Number},     {"revolutions", Quantity::Number},
    {"time", Quantity::Time},             {"at", {}, true},
};
constexpr ReduceField kFlowReadingFields[] = {
    {"test", {}, true},
    {"role", {}, true},
    {"part", Quantity::Number, true},
    {"distance", Quantity::Length},
    {"depth", Quantity::Length},
    {"time", Quantity::Time},
    {"length", Quantity::Length},
    {"height", Quantity::Length},
    {"conductivity", Quantity::Conductivity},
    {"temperature", Quantity::Temperature},
    {"volume", Quantity::Volume},
    {"remark", {}},
    {"at", {}, true},
};
constexpr ReduceField kAlternativeFields[] = {
    {"name", {}, true},
    {"note", {}},
    {"pipe", {}, true},
    {"minor_k", Quantity::Number},
    {"design_flow", Quantity::Discharge},
    {"turbine_efficiency", Quantity::Ratio},
    {"turbine_efficiency_u", Quantity::Ratio},
    {"generator_efficiency", Quantity::Ratio},
    {"generator_efficiency_u", Quantity::Ratio},
    {"cable", {}, true},
    {"cable_system", {}, true},
    {"voltage", Quantity::Voltage},
    {"power_factor", Quantity::Number},
    {"at", {}, true},
};
constexpr ReduceField kNoteFields[] = {{"station", {}}, {"text", {}, true}, {"at", {}, true}};
constexpr ReduceField kPhotoFields[] = {
    {"file", {}, true}, {"title", {}, true}, {"station", {}, true}, {"direction", Quantity::Coordinate}, {"at", {}, true}};

} // namespace

const std::span<const ReduceField> kSite = kSiteFields;
const std::span<const ReduceField> kStations = kStationFields;
const std::span<const ReduceField> kFixes = kFixFields;
const std::span<const ReduceField> kBooks = kBookFields;
const std::span<const ReduceField> kSights = kSightFields;
const std::span<const ReduceField> kHeightRuns = kHeightRunFields;
const std::span<const ReduceField> kHeightReadings = kHeightReadingFields;
const std::span<const ReduceField> kMeters = kMeterFields;
const std::span<const ReduceField> kTests = kTestFields;
const std::span<const ReduceField> kFills = kFillFields;
const std::span<const ReduceField> kGauging = kGaugingFields;
const std::span<const ReduceField> kFlowReadings = kFlowReadingFields;
const std::span<const ReduceField> kAlternatives = kAlternativeFields;
const std::span<const ReduceField> kNotes = kNoteFields;
const std::span<const ReduceField> kPhotos = kPhotoFields;

Expected<ReduceTable> table(std::string_view file, std::span<const ReduceField> fields) {
    const auto text = std::ranges::find(demo_texts(), file, &EmbeddedText::file);
    if (text == demo_texts().end())
        return refusal("exchange.demo_missing", std::string(file));
    const Expected<CsvTable> csv = read_csv(text->text, std::string(file));
    if (!csv)
        return csv.error();
    return read_reduce_table(*csv, fields, {}, {});
}

Expected<std::vector<unsigned char>> picture(std::string_view file) {
    const auto hit = std::ranges::find(demo_pictures(), file, &EmbeddedPicture::file);
    if (hit == demo_pictures().end())
        return refusal("exchange.demo_missing", std::string(file));
    return std::vector<unsigned char>(hit->bytes.begin(), hit->bytes.end());
}

PositionFix fix_of(const ReduceTable& fixes, std::size_t row) {
    PositionFix fix;
    fix.time_s = *fixes.number(row, "time");
    fix.time_utc = iso_utc(fix.time_s);
    fix.latitude_deg = *fixes.number(row, "latitude");
    fix.longitude_deg = *fixes.number(row, "longitude");
    fix.height_ellipsoid_m = fixes.number(row, "height_ellipsoid");
    fix.height_msl_m = fixes.number(row, "height_msl");
    if (fix.height_ellipsoid_m && fix.height_msl_m)
        fix.geoid_separation_m = *fix.height_ellipsoid_m - *fix.height_msl_m;
    fix.u_east_m = fixes.number(row, "u_east");
    fix.u_north_m = fixes.number(row, "u_north");
    fix.u_up_m = fixes.number(row, "u_up");
    fix.hdop = fixes.number(row, "hdop");
    if (const std::optional<double> satellites = fixes.number(row, "satellites"))
        fix.satellites = static_cast<int>(*satellites);
    fix.quality = fix_quality_from_id(fixes.text(row, "quality"));
    fix.source = kReceiver;
    return fix;
}

} // namespace rillmark::demo
