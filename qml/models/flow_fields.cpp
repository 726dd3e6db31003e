// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow_fields.h"

#include "flow/parshall_flume.h"
#include "site/flow_readings.h"
#include "uncertainty/estimate.h"

#include <numbers>

using namespace rillmark;

namespace {

using Reading = FlowReadingRow;
using Test = FlowTestRow;

constexpr double kDegreesPerRadian = 180.0 / std::numbers::pi;
constexpr double kHalf = 1.0 / kCoverageFactor; // a +/- is typed, a standard uncertainty is stored

QString tr(const char* text) {
    return EntryForm::tr(text);
}

QList<Choice> flume_choices() {
    QList<Choice> choices{{QString(), tr("not chosen")}};
    for (const FlumeSize& size : flume_sizes()) {
        const QString id = QString::fromUtf8(size.id.data(), static_cast<qsizetype>(size.id.size()));
        choices.append({id, size.from_memory ? tr("%1 (unconfirmed)").arg(id) : id});
    }
    return choices;
}

std::vector<RecordField<Test>> calibration_fields() {
    return {record_field(tr("Calibration: stream water in the vessel"), Quantity::Volume, &Test::sample_m3, false),
            record_field(tr("Calibration: salt in the standard solution"), Quantity::Density, &Test::standard_kgm3, false),
            record_field(tr("Factor known beforehand, kg/m³ per S/m"), Quantity::Number, &Test::factor, false),
            record_field(tr("± of that factor"), Quantity::Number, &Test::factor_u, false, false, kHalf)};
}

template <class Field>
std::vector<Field> joined(std::vector<Field> first, std::vector<Field> second) {
    for (Field& one : second)
        first.push_back(std::move(one));
    return first;
}

ReadingRole addition_role() {
    return {flow_role::kAddition, tr("Calibration step"),
            {record_field(tr("Standard solution added so far"), Quantity::Volume, &Reading::volume_m3),
             record_field(tr("Conductivity read"), Quantity::Conductivity, &Reading::conductivity_Sm)}, {}};
}

std::vector<RecordField<Reading>> conductivity_fields() {
    return {record_field(tr("Conductivity"), Quantity::Conductivity, &Reading::conductivity_Sm),
            record_field(tr("Water temperature"), Quantity::Temperature, &Reading::temperature_C, false)};
}

std::vector<RecordField<Reading>> dye_fields() {
    return {record_field(tr("Concentration of dye"), Quantity::Density, &Reading::concentration_kgm3)};
}

ReadingRole head_role() {
    return {flow_role::kHead, tr("Head gauge"), {record_field(tr("Reading of the head gauge"), Quantity::Length, &Reading::head_m, true, true)}, {}};
}

} // namespace

std::vector<RecordField<Test>> setup_fields(FlowMethod method, bool dye) {
    const auto zero = [] { return record_field(tr("Gauge reads at the crest or floor"), Quantity::Length, &Test::gauge_zero_m, false, true); };
    switch (method) {
    case FlowMethod::Float:
        return {record_field(tr("Length of the reach"), Quantity::Length, &Test::length_m, false),
                record_field(tr("Float coefficient of your own"), Quantity::Number, &Test::coefficient, false)};
    case FlowMethod::SaltSlug:
        return joined({record_field(tr("Salt poured in"), Quantity::Mass, &Test::salt_mass_kg, false),
                       record_field(tr("Or solution poured in"), Quantity::Volume, &Test::solution_m3, false),
                       record_field(tr("Salt in that solution"), Quantity::Density, &Test::solution_kgm3, false),
                       record_field(tr("Distance from pouring to probe"), Quantity::Length, &Test::length_m, false),
                       record_field(tr("Width of the creek"), Quantity::Length, &Test::width_m, false)},
                      calibration_fields());
    case FlowMethod::ConstantRate:
        if (dye)
            return {record_field(tr("Rate of the injection"), Quantity::Discharge, &Test::injection_m3s),
                    record_field(tr("Dye in the injected solution"), Quantity::Density, &Test::tracer_kgm3)};
        return joined({record_field(tr("Rate of the injection"), Quantity::Discharge, &Test::injection_m3s),
                       record_field(tr("Salt in the injected solution"), Quantity::Density, &Test::tracer_kgm3)},
                      calibration_fields());
    case FlowMethod::Weir:
        return {zero(),
                record_field(tr("Angle of the notch"), Quantity::Angle, &Test::notch_angle_deg, false, false, kDegreesPerRadian),
                record_field(tr("Length of the crest"), Quantity::Length, &Test::crest_length_m, false),
                record_field(tr("Crest above the bed"), Quantity::Length, &Test::crest_height_m, false),
                record_field(tr("Width of the approach"), Quantity::Length, &Test::width_m, false),
                record_field(tr("Gauge upstream of the plate"), Quantity::Length, &Test::gauge_distance_m, false),
                record_field(tr("Gauge reads the tailwater at"), Quantity::Length, &Test::tailwater_m, false, true)};
    case FlowMethod::Flume:
        return {zero(), record_field(tr("Downstream gauge, above the floor"), Quantity::Length, &Test::tailwater_m, false, true)};
    case FlowMethod::SlopeArea:
        return {record_field(tr("Manning roughness n"), Quantity::Number, &Test::manning_n),
                record_field(tr("± of n"), Quantity::Number, &Test::manning_n_u, false, false, kHalf)};
    case FlowMethod::Container:
        return {record_field(tr("± of the volume, as a part of it"), Quantity::Ratio, &Test::volume_uncertainty, false, false, kHalf),
                record_field(tr("Starting and stopping the watch, within ±"), Quantity::Time, &Test::reaction_s, false)};
    case FlowMethod::VelocityArea:
        return {record_field(tr("± of one depth"), Quantity::Length, &Test::depth_u_m, false, false, kHalf),
                record_field(tr("Velocity at a wall, part of its neighbour's"), Quantity::Ratio, &Test::wall_share, false),
                record_field(tr("Mean velocity, part of that at the surface"), Quantity::Ratio, &Test::surface_share, false)};
    }
    return {};
}

std::vector<SetupChoice> setup_choices(FlowMethod method) {
    switch (method) {
    case FlowMethod::Float:
        return {{tr("Bed"), &Test::bed, {{QString(), tr("Ordinary")}, {QStringLiteral("rough-shallow"), tr("Rough, shallow")},
                                         {QStringLiteral("smooth-deep"), tr("Smooth, deep")}}},
                {tr("Wind"), &Test::wind, {{QString(), tr("None")}, {QStringLiteral("light"), tr("Light")}, {QStringLiteral("strong"), tr("Strong")}}},
                {tr("Surface"), &Test::water_surface, {{QString(), tr("Even")}, {QStringLiteral("broken"), tr("Broken")},
                                                       {QStringLiteral("turbulent"), tr("Turbulent")}}}};
    case FlowMethod::SaltSlug:
        return {{tr("Conductivity is"), &Test::temperature_rule,
                 {{QString(), tr("as read")}, {QStringLiteral("linear"), tr("brought to 25 °C, 2 % per degree")},
                  {QStringLiteral("iso-7888"), tr("brought to 25 °C by ISO 7888")}}}};
    case FlowMethod::ConstantRate:
        return {{tr("Tracer"), &Test::tracer,
                 {{QString(), tr("salt, read as conductivity")}, {QString::fromLatin1(kDyeTracer), tr("dye, read as concentration")}}}};
    case FlowMethod::Weir:
        return {{tr("Notch"), &Test::shape, {{QString(), tr("V-notch")}, {QStringLiteral("rectangular"), tr("Rectangular")},
                                             {QStringLiteral("cipolletti"), tr("Trapezoidal 1:4")}}}};
    case FlowMethod::Flume: return {{tr("Size of the flume"), &Test::flume_size, flume_choices()}};
    default: break;
    }
    return {};
}

std::vector<ReadingRole> reading_roles(FlowMethod method, bool dye) {
    switch (method) {
    case FlowMethod::Float:
        return {{flow_role::kRun, tr("Float"),
                 {record_field(tr("Time of the float"), Quantity::Time, &Reading::time_s),
                  record_field(tr("Distance from the bank"), Quantity::Length, &Reading::distance_m, false),
                  record_field(tr("Length timed, if not the reach"), Quantity::Length, &Reading::length_m, false)}, {}},
                {flow_role::kSounding, tr("Sounding"),
                 {record_field(tr("Distance from the bank"), Quantity::Length, &Reading::distance_m),
                  record_field(tr("Depth"), Quantity::Length, &Reading::depth_m)}, tr("Section")}};
    case FlowMethod::SaltSlug:
        return {{flow_role::kTrace, tr("Wave"),
                 joined({record_field(tr("Time on the clock"), Quantity::Time, &Reading::time_s)}, conductivity_fields()), tr("Probe")},
                addition_role()};
    case FlowMethod::ConstantRate:
        if (dye)
            return {{flow_role::kBackground, tr("Background"), dye_fields(), {}}, {flow_role::kPlateau, tr("Plateau"), dye_fields(), {}}};
        return {{flow_role::kBackground, tr("Background"), conductivity_fields(), {}},
                {flow_role::kPlateau, tr("Plateau"), conductivity_fields(), {}},
                addition_role()};
    case FlowMethod::Weir:
    case FlowMethod::Flume: return {head_role()};
    case FlowMethod::SlopeArea:
        return {{flow_role::kSection, tr("Section point"),
                 {record_field(tr("Distance along the creek"), Quantity::Length, &Reading::length_m, true, true),
                  record_field(tr("Distance across"), Quantity::Length, &Reading::distance_m, true, true),
                  record_field(tr("Height"), Quantity::Length, &Reading::height_m, true, true)}, tr("Section")},
                {flow_role::kMark, tr("High-water mark"),
                 {record_field(tr("Distance along the creek"), Quantity::Length, &Reading::length_m, true, true),
                  record_field(tr("Height"), Quantity::Length, &Reading::height_m, true, true)}, {}}};
    case FlowMethod::Container:
    case FlowMethod::VelocityArea: break;
    }
    return {};
}
