// SPDX-License-Identifier: GPL-3.0-or-later
#include "plant_fields.h"

#include "uncertainty/estimate.h"
#include "units/units.h"

#include <QCoreApplication>

#include <numbers>

using namespace rillmark;

namespace {

using Row = AlternativeRow;
using Fields = std::vector<RecordField<Row>>;

const QString kIntake = QStringLiteral("intake");
const QString kLaying = QStringLiteral("laying");
const QString kTurbine = QStringLiteral("turbine");
const QString kDrive = QStringLiteral("drive");
const QString kPrices = QStringLiteral("prices");

// A kilowatt-hour is typed; the record keeps the price of a joule.
double per_kilowatt_hour() {
    const std::optional<Unit> unit = find_unit(Quantity::Energy, "kWh");
    return unit ? 1.0 / to_si(*unit, 1.0) : 1.0;
}

QString tr(const char* text) {
    return QCoreApplication::translate("PlantModel", text);
}

RecordField<Row> field(const char* label, Quantity quantity, std::optional<double> Row::* column,
                       bool may_be_negative = false, double factor = 1.0) {
    return record_field(tr(label), quantity, column, false, may_be_negative, factor);
}

RecordField<Row> whole(const char* label, std::optional<Id> Row::* column) {
    return record_field(tr(label), Quantity::Number, column, false);
}

Fields intake_fields() {
    return {field(QT_TRANSLATE_NOOP("PlantModel", "Width of the crest across the stream"), Quantity::Length, &Row::crest_width_m),
            field(QT_TRANSLATE_NOOP("PlantModel", "Breadth of the crest along the flow (broad)"), Quantity::Length, &Row::crest_breadth_m),
            field(QT_TRANSLATE_NOOP("PlantModel", "Crest above the bed upstream (sharp)"), Quantity::Length, &Row::crest_height_m),
            field(QT_TRANSLATE_NOOP("PlantModel", "Top of the abutments above the crest"), Quantity::Length, &Row::wall_top_m),
            field(QT_TRANSLATE_NOOP("PlantModel", "Flood; empty: by its marks"), Quantity::Discharge, &Row::flood_m3s),
            field(QT_TRANSLATE_NOOP("PlantModel", "Wetted area of the rack"), Quantity::Area, &Row::rack_area_m2),
            field(QT_TRANSLATE_NOOP("PlantModel", "Thickness of its bars"), Quantity::Bore, &Row::rack_bar_m),
            field(QT_TRANSLATE_NOOP("PlantModel", "Clear gap between them"), Quantity::Bore, &Row::rack_gap_m),
            field(QT_TRANSLATE_NOOP("PlantModel", "Slope of the rack from the horizontal; empty: upright"), Quantity::Angle,
                  &Row::rack_slope_deg, false, 180.0 / std::numbers::pi),
            field(QT_TRANSLATE_NOOP("PlantModel", "Screen: clean flow of a metre of width, by its maker"), Quantity::Discharge, &Row::screen_capacity_m2s),
            field(QT_TRANSLATE_NOOP("PlantModel", "Head given up at the screen"), Quantity::Length, &Row::screen_drop_m),
            field(QT_TRANSLATE_NOOP("PlantModel", "Water above the top of the pipe's mouth"), Quantity::Length, &Row::mouth_depth_m),
            field(QT_TRANSLATE_NOOP("PlantModel", "Width of the settling basin"), Quantity::Length, &Row::basin_width_m),
            field(QT_TRANSLATE_NOOP("PlantModel", "Grain to be settled"), Quantity::Bore, &Row::grain_m)};
}

Fields laying_fields() {
    return {whole(QT_TRANSLATE_NOOP("PlantModel", "Pipes side by side; empty: one"), &Row::parallel_pipes),
            field(QT_TRANSLATE_NOOP("PlantModel", "Closing time of the valve; empty: a sudden stop"), Quantity::Time, &Row::closing_s),
            field(QT_TRANSLATE_NOOP("PlantModel", "Hottest pipe wall; empty: 20 °C, buried"), Quantity::Temperature, &Row::wall_temperature_C),
            field(QT_TRANSLATE_NOOP("PlantModel", "Bearing pressure of the soil, for thrust blocks"), Quantity::Pressure, &Row::soil_bearing_Pa)};
}

Fields turbine_fields() {
    return {whole(QT_TRANSLATE_NOOP("PlantModel", "Jets"), &Row::jets),
            field(QT_TRANSLATE_NOOP("PlantModel", "Runner or pitch circle"), Quantity::Bore, &Row::runner_m),
            field(QT_TRANSLATE_NOOP("PlantModel", "Speed, rpm"), Quantity::Number, &Row::turbine_rpm),
            field(QT_TRANSLATE_NOOP("PlantModel", "Frequency, Hz; empty: 50"), Quantity::Number, &Row::frequency_Hz),
            field(QT_TRANSLATE_NOOP("PlantModel", "Runner above tailwater"), Quantity::Length, &Row::setting_m, true),
            field(QT_TRANSLATE_NOOP("PlantModel", "Efficiency"), Quantity::Ratio, &Row::turbine_efficiency),
            field(QT_TRANSLATE_NOOP("PlantModel", "± of the efficiency"), Quantity::Ratio, &Row::turbine_efficiency_u, false, 1.0 / kCoverageFactor)};
}

Fields drive_fields() {
    return {field(QT_TRANSLATE_NOOP("PlantModel", "Efficiency of the drive"), Quantity::Ratio, &Row::drive_efficiency),
            field(QT_TRANSLATE_NOOP("PlantModel", "± of the drive's"), Quantity::Ratio, &Row::drive_efficiency_u, false, 1.0 / kCoverageFactor),
            field(QT_TRANSLATE_NOOP("PlantModel", "Efficiency of the generator"), Quantity::Ratio, &Row::generator_efficiency),
            field(QT_TRANSLATE_NOOP("PlantModel", "± of the generator's"), Quantity::Ratio, &Row::generator_efficiency_u, false, 1.0 / kCoverageFactor)};
}

Fields price_fields() {
    return {field(QT_TRANSLATE_NOOP("PlantModel", "Price of a kilowatt-hour"), Quantity::Number, &Row::energy_price_per_J, false, per_kilowatt_hour()),
            field(QT_TRANSLATE_NOOP("PlantModel", "Years over which it counts"), Quantity::Number, &Row::price_years),
            field(QT_TRANSLATE_NOOP("PlantModel", "Interest a year"), Quantity::Ratio, &Row::price_interest),
            field(QT_TRANSLATE_NOOP("PlantModel", "Price of a metre of cable"), Quantity::Number, &Row::cable_price),
            field(QT_TRANSLATE_NOOP("PlantModel", "Price of all else"), Quantity::Number, &Row::other_price)};
}

} // namespace

QStringList plant_links() {
    return {kIntake, kLaying, kTurbine, kDrive, kPrices};
}

std::vector<RecordField<AlternativeRow>> plant_fields(const QString& link) {
    if (link == kIntake)
        return intake_fields();
    if (link == kLaying)
        return laying_fields();
    if (link == kTurbine)
        return turbine_fields();
    return link == kDrive ? drive_fields() : price_fields();
}

std::vector<PlantChoice> plant_choices() {
    return {{kIntake,
             QStringLiteral("intake_kind"),
             tr(QT_TRANSLATE_NOOP("PlantModel", "Crest of the diversion wall")),
             &Row::intake_kind,
             {{QString(), tr(QT_TRANSLATE_NOOP("PlantModel", "Not described"))},
              {QStringLiteral("broad-crest"), tr(QT_TRANSLATE_NOOP("PlantModel", "Broad"))},
              {QStringLiteral("sharp-crest"), tr(QT_TRANSLATE_NOOP("PlantModel", "Sharp"))}}},
            {kLaying,
             QStringLiteral("pipe_anchoring"),
             tr(QT_TRANSLATE_NOOP("PlantModel", "How the pipe is held along its axis")),
             &Row::pipe_anchoring,
             {{QString(), tr(QT_TRANSLATE_NOOP("PlantModel", "Rubber-ring joints"))},
              {QStringLiteral("one-end"), tr(QT_TRANSLATE_NOOP("PlantModel", "Held at the intake"))},
              {QStringLiteral("throughout"), tr(QT_TRANSLATE_NOOP("PlantModel", "Held throughout"))}}},
            {kTurbine,
             QStringLiteral("turbine_kind"),
             tr(QT_TRANSLATE_NOOP("PlantModel", "Kind of turbine")),
             &Row::turbine_kind,
             {{QString(), tr(QT_TRANSLATE_NOOP("PlantModel", "Not chosen"))}}},
            {kDrive,
             QStringLiteral("drive_id"),
             tr(QT_TRANSLATE_NOOP("PlantModel", "Drive")),
             &Row::drive_id,
             {{QString(), tr(QT_TRANSLATE_NOOP("PlantModel", "Within the generator's efficiency"))}}}};
}
