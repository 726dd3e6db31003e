// SPDX-License-Identifier: GPL-3.0-or-later
#include "height_fields.h"

#include "uncertainty/estimate.h"

#include <numbers>

using namespace rillmark;

namespace {

using Reading = HeightReadingRow;
using Run = HeightRunRow;

constexpr double kDegreesPerRadian = 180.0 / std::numbers::pi;
constexpr double kHalf = 1.0 / kCoverageFactor; // a +/- is typed, a standard uncertainty is stored

QString tr(const char* text) {
    return EntryForm::tr(text);
}

template <class Record>
RecordField<Record> angle(QString label, std::optional<double> Record::* column, bool required, double factor = 1.0) {
    return record_field(std::move(label), Quantity::Angle, column, required, true, factor * kDegreesPerRadian);
}

/// Per cent in place of degrees: fills the same column.
RecordField<Reading> slope(QString label, std::optional<double> Reading::* column) {
    RecordField<Reading> one = record_field(std::move(label), Quantity::Slope, column, false, true, kDegreesPerRadian);
    one.slope = true;
    return one;
}

std::vector<RecordField<Reading>> two_staffs(const QString& first, const QString& second) {
    return {record_field(tr("Staff at %1").arg(first), Quantity::Length, &Reading::near_reading_m, true, true),
            record_field(tr("Distance to %1").arg(first), Quantity::Length, &Reading::near_distance_m),
            record_field(tr("Staff at %1").arg(second), Quantity::Length, &Reading::far_reading_m, true, true),
            record_field(tr("Distance to %1").arg(second), Quantity::Length, &Reading::far_distance_m)};
}

std::vector<RecordField<Reading>> barometer_fields() {
    return {record_field(tr("Pressure"), Quantity::Pressure, &Reading::pressure_Pa),
            record_field(tr("Air temperature"), Quantity::Temperature, &Reading::temperature_C, false, true),
            record_field(tr("Relative humidity"), Quantity::Ratio, &Reading::humidity, false)};
}

} // namespace

std::vector<RecordField<Reading>> reading_fields(HeightMethod method) {
    const auto heights = [](bool required) {
        return std::vector{record_field(tr("Instrument above its point"), Quantity::Length, &Reading::instrument_height_m, required, true),
                           record_field(tr("Target above its point"), Quantity::Length, &Reading::target_height_m, required, true)};
    };
    std::vector<RecordField<Reading>> fields;
    switch (method) {
    case HeightMethod::TwoPeg: return two_staffs(tr("peg A"), tr("peg B"));
    case HeightMethod::Reciprocal: return two_staffs(tr("the first point"), tr("the second point"));
    case HeightMethod::HandLevel:
        return {record_field(tr("Whole eye heights"), Quantity::Number, &Reading::sights),
                record_field(tr("Part beyond them"), Quantity::Length, &Reading::part_m, false, true)};
    case HeightMethod::Clinometer:
        fields = {angle(tr("Angle, up positive (degrees)"), &Reading::angle_deg, false),
                  angle(tr("Angle sighted back (degrees)"), &Reading::back_angle_deg, false),
                  slope(tr("Or the slope, per cent"), &Reading::angle_deg),
                  slope(tr("Or the slope sighted back, per cent"), &Reading::back_angle_deg),
                  record_field(tr("Distance along the slope"), Quantity::Length, &Reading::slope_distance_m, false),
                  record_field(tr("Level distance"), Quantity::Length, &Reading::level_distance_m, false)};
        for (RecordField<Reading>& one : heights(false))
            fields.push_back(std::move(one));
        return fields;
    case HeightMethod::Zenith:
        fields = {record_field(tr("Zenith angle"), Quantity::Angle, &Reading::angle_deg, true, false, -kDegreesPerRadian, 90.0),
                  record_field(tr("Zenith angle sighted back"), Quantity::Angle, &Reading::back_angle_deg, false, false, -kDegreesPerRadian, 90.0),
                  record_field(tr("Distance along the slope"), Quantity::Length, &Reading::slope_distance_m)};
        for (RecordField<Reading>& one : heights(true))
            fields.push_back(std::move(one));
        return fields;
    case HeightMethod::WaterTube:
        return {record_field(tr("Water above the point it starts from"), Quantity::Length, &Reading::near_reading_m, true, true),
                record_field(tr("Water above the point it ends at"), Quantity::Length, &Reading::far_reading_m, true, true)};
    case HeightMethod::HoseGauge:
        return {record_field(tr("Gauge pressure"), Quantity::Pressure, &Reading::pressure_Pa),
                record_field(tr("Temperature of the water in the hose"), Quantity::Temperature, &Reading::temperature_C, false),
                record_field(tr("Gauge above the lower point"), Quantity::Length, &Reading::gauge_above_m, false, true),
                record_field(tr("Water above the upper point"), Quantity::Length, &Reading::water_above_m, false, true)};
    case HeightMethod::Barometer:
    case HeightMethod::BaseAndRover: return barometer_fields();
    case HeightMethod::KnownHeight:
        return {record_field(tr("Height"), Quantity::Length, &Reading::height_m, true, true),
                record_field(tr("± of the height"), Quantity::Length, &Reading::height_u_m, true, false, kHalf)};
    case HeightMethod::Tape:
        return {record_field(tr("Distance along the slope"), Quantity::Length, &Reading::slope_distance_m, false),
                record_field(tr("Level distance"), Quantity::Length, &Reading::level_distance_m, false)};
    }
    return fields;
}

std::vector<RecordField<Run>> run_fields(HeightMethod method) {
    const auto reading_u = [](QString label) {
        return record_field(std::move(label), Quantity::Length, &Run::reading_u_m, false, false, kHalf);
    };
    switch (method) {
    case HeightMethod::TwoPeg:
    case HeightMethod::Reciprocal: return {reading_u(tr("± of one staff reading"))};
    case HeightMethod::HandLevel:
        return {record_field(tr("Eye height"), Quantity::Length, &Run::eye_height_m),
                record_field(tr("± of the eye height"), Quantity::Length, &Run::eye_height_u_m, false, false, kHalf),
                reading_u(tr("± of one sight"))};
    case HeightMethod::Clinometer:
        return {angle(tr("Angle shown on the level"), &Run::index_deg, false),
                angle(tr("± of that angle"), &Run::index_u_deg, false, kHalf),
                angle(tr("± of one angle"), &Run::angle_u_deg, false, kHalf),
                record_field(tr("± of a distance"), Quantity::Ratio, &Run::distance_u, false, false, kHalf)};
    case HeightMethod::Zenith:
        return {angle(tr("± of one angle"), &Run::angle_u_deg, false, kHalf),
                record_field(tr("± of a distance"), Quantity::Ratio, &Run::distance_u, false, false, kHalf)};
    case HeightMethod::WaterTube: return {reading_u(tr("± of one set-up"))};
    case HeightMethod::HoseGauge:
        return {record_field(tr("Full scale of the gauge"), Quantity::Pressure, &Run::gauge_range_Pa),
                record_field(tr("Gauge class, per cent of full scale"), Quantity::Ratio, &Run::gauge_class),
                record_field(tr("Gauge shows without pressure"), Quantity::Pressure, &Run::gauge_zero_Pa, false, true),
                record_field(tr("± of one gauge reading"), Quantity::Pressure, &Run::pressure_u_Pa, false, false, kHalf)};
    case HeightMethod::Barometer:
    case HeightMethod::BaseAndRover:
        return {record_field(tr("± of one pressure"), Quantity::Pressure, &Run::pressure_u_Pa, false, false, kHalf)};
    case HeightMethod::Tape: return {record_field(tr("± of a distance"), Quantity::Ratio, &Run::distance_u, false, false, kHalf)};
    case HeightMethod::KnownHeight: break;
    }
    return {};
}
