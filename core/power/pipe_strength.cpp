// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/pipe_strength.h"

#include "power/input_checks.h"
#include "units/units.h"

#include <algorithm>
#include <string>

namespace rillmark {

namespace {

constexpr const char* kModuli = "textbook moduli; Subramanya's examples use 207 to 211 GPa for steel";

// Safety factor against collapse: 4 for thin steel pipe (an air-valve maker's application notes, 16 250 000 (T/D)^3
// psi); 2 for plastics (common practice, no source). Lasting moduli of plastics: from memory, unconfirmed.
// Uncertainty of a modulus: half the printed range over sqrt(3) (rectangular, JCGM 100:2008, 4.3.7).
constexpr PipeMaterial kMaterials[] = {
    {"pvc",
     {2.76e9, 0.08e9},
     1.38e9,
     0.38,
     2.0,
     "400 000 psi and 0.38 reproduce a maker's buckling column",
     "computed"},
    {"pe100", {1.0e9, 0.144e9}, 0.2e9, 0.45, 2.0, "a maker's brochure: 750 to 1250 MPa short-term", "seen"},
    {"steel", {207e9, 2e9}, 207e9, 0.30, 4.0, kModuli, "memory"},
    {"ductile-iron", {166e9, 4e9}, 166e9, 0.28, 4.0, kModuli, "memory"},
    {"grp", {20e9, 2.9e9}, 10e9, 0.30, 2.0, "range 15 to 25 GPa", "memory"},
};

// SDR at which the wall would close the bore.
constexpr double kClosedRatio = 2.0;
// That of a solid that cannot be compressed.
constexpr double kPoissonMax = 0.5;

struct FactorPoint {
    double temperature; // in the unit of its table
    double factor;
};

// GF Harvel, Temperature Derating, and Fabco, Temperature Rating: the smaller of both; degF.
constexpr FactorPoint kPvc_F[] = {{73, 1.0},  {80, 0.88}, {90, 0.75},  {100, 0.62},
                                  {110, 0.5}, {120, 0.4}, {130, 0.30}, {140, 0.22}};
// ISO 4427-1, Annex A, from memory, unconfirmed; degC.
constexpr FactorPoint kPe100_C[] = {{20, 1.0}, {30, 0.87}, {40, 0.74}};
// Other walls: common practice, no source; degC.
constexpr FactorPoint kOther_C[] = {{60, 1.0}};

struct FactorTable {
    std::span<const FactorPoint> points;
    const char* unit;
};

FactorTable factors_of(std::string_view material) {
    if (material == "pvc")
        return {kPvc_F, "degF"};
    if (material == "pe100")
        return {kPe100_C, "degC"};
    return {kOther_C, "degC"};
}

double celsius(double temperature, const char* unit) {
    return to_si(find_unit(Quantity::Temperature, unit).value(), temperature);
}

Expected<void> check_ratio(double ratio) {
    if (ratio > kClosedRatio)
        return {};
    return refusal("power.dimension_ratio_too_small", "power.dimension_ratio",
                   {{"value", ratio}, {"limit", kClosedRatio}});
}

} // namespace

std::span<const PipeMaterial> pipe_materials() {
    return kMaterials;
}

Expected<PipeMaterial> pipe_material(std::string_view id) {
    const auto hit = std::ranges::find(kMaterials, id, &PipeMaterial::id);
    if (hit == std::end(kMaterials))
        return refusal("power.unknown_material", "power.pipe_material", {{"id", std::string(id)}});
    return *hit;
}

Expected<void> check_poisson(double poisson) {
    if (!std::isfinite(poisson))
        return refusal("uncertainty.not_finite", "power.poisson");
    if (poisson < 0.0 || poisson > kPoissonMax)
        return refusal("power.poisson_out_of_range", "power.poisson", {{"value", poisson}, {"highest", kPoissonMax}});
    return {};
}

double pvc_design_stress_Pa() {
    constexpr double kStress_psi = 2000.0;
    return to_si(find_unit(Quantity::Pressure, "psi").value(), kStress_psi);
}

Expected<double> rating_Pa(double design_stress_Pa, double sdr) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.design_stress", design_stress_Pa, Quantity::Pressure),
                          check_positive("power.dimension_ratio", sdr), check_ratio(sdr));
        !check)
        return check.error();
    return 2.0 * design_stress_Pa / (sdr - 1.0);
}

Expected<double> temperature_factor(const PipeMaterial& material, double wall_temperature_C) {
    if (!std::isfinite(wall_temperature_C))
        return refusal("uncertainty.not_finite", "power.wall_temperature");
    const FactorTable table = factors_of(material.id);
    const double highest_C = celsius(table.points.back().temperature, table.unit);
    // a last digit lost in the conversion is no reason to refuse the table's own last point
    constexpr double kRounding_C = 1e-9;
    if (wall_temperature_C < 0.0 || wall_temperature_C > highest_C + kRounding_C)
        return refusal("power.wall_temperature_out_of_range", "power.wall_temperature",
                       {{"temperature", wall_temperature_C, Quantity::Temperature},
                        {"lowest", 0.0, Quantity::Temperature},
                        {"highest", highest_C, Quantity::Temperature},
                        {"material", std::string(material.id)}});
    FactorPoint before = table.points.front();
    if (wall_temperature_C <= celsius(before.temperature, table.unit))
        return before.factor;
    for (const FactorPoint& point : table.points.subspan(1)) {
        const double from_C = celsius(before.temperature, table.unit);
        const double to_C = celsius(point.temperature, table.unit);
        if (wall_temperature_C <= to_C)
            return before.factor + (point.factor - before.factor) * (wall_temperature_C - from_C) / (to_C - from_C);
        before = point;
    }
    return before.factor;
}

Expected<double> collapse_Pa(const CollapsePipe& pipe) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.outside", pipe.outside_m, Quantity::Bore),
                          check_positive("power.pipe_wall", pipe.wall_m, Quantity::Bore),
                          check_positive("power.modulus", pipe.modulus_Pa, Quantity::Pressure),
                          check_poisson(pipe.poisson), check_ratio(pipe.outside_m / pipe.wall_m));
        !check)
        return check.error();
    const double mean = pipe.outside_m / pipe.wall_m - 1.0;
    return 2.0 * pipe.modulus_Pa / ((1.0 - pipe.poisson * pipe.poisson) * mean * mean * mean);
}

} // namespace rillmark
