// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/hose_gauge.h"

#include "checks/checks.h"
#include "heights/sum_of_rises.h"
#include "heights_fixtures.h"
#include "units/units.h"
#include "water/water.h"

namespace rillmark {
namespace {

using namespace heights_fixtures;

/// A good gauge of 6 bar at 3 bar and more, with all that it needs.
HoseStretch stretch_of(double pressure_Pa) {
    HoseStretch stretch;
    stretch.gauge = {6e5, 0.01, 2000.0, 0.0, "g"};
    stretch.pressure_Pa = pressure_Pa;
    stretch.gauge_above_lower_m = {0.5, 0.01};
    stretch.water_above_upper_m = {0.2, 0.01};
    stretch.water_temperature_C = {12.0, 3.0};
    stretch.run = "r";
    return stretch;
}

TEST(HoseGauge, AirColumnCheck) {
    const auto check = checks::entry("heights", "hose-air-column");
    const auto& in = check["inputs"];
    const double pressure_Pa = in["p_kpa"].get<double>() * 1000.0;
    const double tolerance = check["tolerance"]["abs_m"];
    const double without_m = head_of({pressure_Pa, in["rho_w"], 0.0, in["g"]});
    const double with_m = head_of({pressure_Pa, in["rho_w"], in["rho_air"], in["g"]});
    EXPECT_NEAR(without_m, check["expected"]["head_without_air_m"].get<double>(), tolerance);
    EXPECT_NEAR(with_m, check["expected"]["head_with_air_m"].get<double>(), tolerance);
    EXPECT_NEAR(with_m / without_m - 1.0, check["expected"]["relative"].get<double>(), 1e-6);
}

TEST(HoseGauge, PlumbersTable) {
    const auto check = checks::entry("heights", "hose-1m-16c");
    const double water_kgm3 = *water_density_kgm3(check["inputs"]["t_c"]);
    for (std::size_t i = 0; i < check["inputs"]["h_m"].size(); ++i) {
        const double head_m = check["inputs"]["h_m"][i];
        const double kilopascal_per_metre = 1.0 / head_of({1000.0, water_kgm3, 0.0, 9.80665});
        EXPECT_NEAR(head_m * kilopascal_per_metre, check["expected"]["p_kpa"][i].get<double>(),
                    check["tolerance"]["abs_kpa"].get<double>());
    }
}

TEST(HoseGauge, FeetAndPoundsPerSquareInch) {
    const auto check = checks::entry("heights", "hose-psi");
    const double foot_m = find_unit(Quantity::Length, "ft")->factor;
    const double psi_Pa = find_unit(Quantity::Pressure, "psi")->factor;
    const double tolerance = check["tolerance"]["rel"];
    for (std::size_t i = 0; i < check["inputs"]["h_ft"].size(); ++i) {
        const double head_ft = check["inputs"]["h_ft"][i];
        const double pressure_psi = check["expected"]["p_psi"][i];
        EXPECT_NEAR(head_of({pressure_psi * psi_Pa, *water_density_kgm3(10.0), 0.0, 9.80665}) / foot_m, head_ft,
                    tolerance * head_ft);
    }
}

TEST(HoseGauge, StandardAirCheck) {
    const auto check = checks::entry("heights", "isa-metres");
    for (std::size_t i = 0; i < check["inputs"]["H_m"].size(); ++i) {
        const StandardAir air = standard_air(check["inputs"]["H_m"][i]);
        EXPECT_NEAR(air.pressure_Pa / 100.0, check["expected"]["p_hpa"][i].get<double>(),
                    check["tolerance"]["abs_hpa"].get<double>());
        EXPECT_NEAR(air.density_kgm3, check["expected"]["rho_kg_m3"][i].get<double>(), 1e-5);
    }
}

TEST(HoseGauge, OffsetsOfGaugeAndWaterSurface) {
    HoseStretch stretch = stretch_of(4e5);
    const double base_m = hose_gauge(stretch)->rise_m;
    stretch.gauge_above_lower_m.value += 0.3;
    stretch.water_above_upper_m.value -= 0.1;
    EXPECT_NEAR(hose_gauge(stretch)->rise_m, base_m + 0.4, 1e-12);
}

TEST(HoseGauge, KnownColumn) {
    // forwards: what the gauge shows under a column of 40 m at 13.5 S, 3400 m
    HoseStretch stretch = stretch_of(0.0);
    stretch.place = {-13.5, 3400.0};
    const double water_kgm3 = *water_density_kgm3(12.0);
    const double air_kgm3 = 0.8697; // standard atmosphere at 3400 m, interpolated between 3000 and 3500 m of isa-metres
    const double gravity_ms2 = 9.7727; // reference value of that place, printed to 1e-4
    stretch.pressure_Pa = 40.0 * (water_kgm3 - air_kgm3) * gravity_ms2;
    const auto result = hose_gauge(stretch);
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result->rise_m, 40.0 + 0.5 - 0.2, 0.001);
    EXPECT_TRUE(result->findings.empty());
}

TEST(HoseGauge, ZeroIsTakenOff) {
    HoseStretch stretch = stretch_of(4.00e5);
    const double base_m = hose_gauge(stretch)->rise_m;
    stretch.gauge.zero_Pa = -3000.0;
    stretch.pressure_Pa = 3.97e5;
    EXPECT_NEAR(hose_gauge(stretch)->rise_m, base_m, 1e-9);
    EXPECT_TRUE(hose_gauge(stretch)->findings.empty());
    stretch.gauge.zero_Pa = -21800.0; // sealed at sea level, carried to 2000 m
    EXPECT_TRUE(has_code(hose_gauge(stretch)->findings, "levels.gauge_zero_large"));
    const double noted_m = std::abs(effect_of(*hose_gauge(stretch), "gauge-zero:g"));
    stretch.gauge.zero_Pa.reset();
    EXPECT_TRUE(has_code(hose_gauge(stretch)->findings, "levels.gauge_zero_missing"));
    EXPECT_GT(std::abs(effect_of(*hose_gauge(stretch), "gauge-zero:g")), 3.0 * noted_m);
}

TEST(HoseGauge, ClassIsThatOfFullScale) {
    HoseStretch stretch = stretch_of(5.5e5);
    stretch.gauge = {10e5, 0.016, 5000.0, 0.0, "g"};
    const double limit_m = effect_of(*hose_gauge(stretch), "gauge-class:g") * std::sqrt(3.0);
    EXPECT_NEAR(limit_m, 1.6, 0.05); // 16 kPa
    stretch.pressure_Pa = 2e5;
    EXPECT_NEAR(effect_of(*hose_gauge(stretch), "gauge-class:g") * std::sqrt(3.0), limit_m, 1e-9);
    EXPECT_TRUE(has_code(hose_gauge(stretch)->findings, "levels.gauge_below_half_range"));
}

TEST(HoseGauge, ALineDownIsTheLineUpWithAMinus) {
    HoseStretch stretch = stretch_of(4e5);
    const auto up = hose_gauge(stretch);
    stretch.downwards = true;
    const auto down = hose_gauge(stretch);
    ASSERT_TRUE(up.ok() && down.ok());
    EXPECT_DOUBLE_EQ(up->rise_m, -down->rise_m);
    for (std::size_t i = 0; i < up->shared.size(); ++i)
        EXPECT_DOUBLE_EQ(up->shared[i].effect_m, -down->shared[i].effect_m) << up->shared[i].key;
    EXPECT_NEAR(sum_of_rises({*up, *down})->estimate().standard_uncertainty, up->random_m * std::sqrt(2.0), 1e-12);
}

TEST(HoseGauge, StretchesShareGaugeWaterAndGravity) {
    const MeasuredRise one = *hose_gauge(stretch_of(4e5));
    const MeasuredRise three = *sum_of_rises({one, one, one});
    EXPECT_NEAR(three.rise_m, 3.0 * one.rise_m, 1e-12);
    for (std::size_t i = 0; i < one.shared.size(); ++i)
        EXPECT_NEAR(three.shared[i].effect_m, 3.0 * one.shared[i].effect_m, 1e-12);
    EXPECT_NEAR(three.random_m, std::sqrt(3.0) * one.random_m, 1e-12);
    EXPECT_GT(three.estimate().standard_uncertainty, 2.5 * one.estimate().standard_uncertainty);
}

TEST(HoseGauge, AbsolutePressureIsSeenByItsZeroOrByOtherEvidence) {
    HoseStretch stretch = stretch_of(4e5 + 95000.0);
    stretch.place.height_m = 500.0;
    stretch.gauge.zero_Pa = 95000.0;
    const auto zeroed = hose_gauge(stretch);
    EXPECT_TRUE(has_code(zeroed->findings, "levels.gauge_reads_absolute"));
    EXPECT_FALSE(has_code(zeroed->findings, "levels.gauge_zero_large"));
    stretch.gauge.zero_Pa.reset();
    stretch.expected_rise_m = {zeroed->rise_m + 1.0, 1.0};
    EXPECT_TRUE(has_code(hose_gauge(stretch)->findings, "levels.gauge_maybe_absolute"));
    stretch.pressure_Pa = 4e5;
    EXPECT_FALSE(has_code(hose_gauge(stretch)->findings, "levels.gauge_maybe_absolute"));
    stretch.pressure_Pa = 5.9e5; // off, but by twice the air
    EXPECT_FALSE(has_code(hose_gauge(stretch)->findings, "levels.gauge_maybe_absolute"));
    stretch.expected_rise_m->standard_uncertainty = 50.0; // knows nothing
    EXPECT_FALSE(has_code(hose_gauge(stretch)->findings, "levels.gauge_maybe_absolute"));
}

TEST(HoseGauge, WarmHose) {
    HoseStretch stretch = stretch_of(4e5);
    stretch.water_temperature_C = {30.0, 3.0};
    const auto warm = hose_gauge(stretch);
    EXPECT_TRUE(has_code(warm->findings, "levels.hose_warm"));
    EXPECT_GT(warm->rise_m, hose_gauge(stretch_of(4e5))->rise_m);
    EXPECT_GT(effect_of(*warm, "hose-temperature:r"), 0.0);
}

TEST(HoseGauge, CoverageOfSimulatedStretches) {
    const HoseStretch model = stretch_of(4e5);
    const MeasuredRise right = *hose_gauge(model);
    const double seen = coverage(2.0 * right.rise_m, 4106, [&](Errors& error) {
        const double class_Pa = error(6e5 * 0.01 / std::sqrt(3.0));
        const double zero_Pa = error(2000.0 / std::sqrt(12.0));
        const double water_C = 12.0 + error(3.0);
        const double gravity = 1.0 + error(kNormalGravity_u_rel);
        const double scale = gravity * *water_density_kgm3(water_C) / *water_density_kgm3(12.0);
        std::vector<MeasuredRise> stretches;
        for (int i = 0; i < 2; ++i) {
            HoseStretch stretch = model;
            stretch.gauge.zero_Pa = zero_Pa;
            stretch.pressure_Pa = 4e5 * scale + class_Pa + error(2000.0 / std::sqrt(12.0));
            stretch.gauge_above_lower_m.value += error(0.01);
            stretch.water_above_upper_m.value += error(0.01);
            stretches.push_back(*hose_gauge(stretch));
        }
        return sum_of_rises(stretches)->estimate();
    });
    EXPECT_GT(seen, 0.93);
    EXPECT_LT(seen, 0.97);
}

TEST(HoseGauge, RefusesBadInput) {
    using Change = std::function<void(HoseStretch&, double)>;
    const std::vector<std::pair<std::string, Change>> fields{
        {"levels.gauge_full_scale", [](HoseStretch& s, double v) { s.gauge.full_scale_Pa = v; }},
        {"levels.gauge_class", [](HoseStretch& s, double v) { s.gauge.class_rel = v; }},
        {"levels.gauge_resolution", [](HoseStretch& s, double v) { s.gauge.resolution_Pa = v; }},
        {"levels.gauge_height_uncertainty", [](HoseStretch& s, double v) { s.gauge_above_lower_m.standard_uncertainty = v; }},
        {"levels.hose_surface_uncertainty", [](HoseStretch& s, double v) { s.water_above_upper_m.standard_uncertainty = v; }},
        {"levels.hose_temperature", [](HoseStretch& s, double v) { s.water_temperature_C.value = v; }},
        {"levels.hose_temperature_uncertainty", [](HoseStretch& s, double v) { s.water_temperature_C.standard_uncertainty = v; }},
        {"levels.gravity", [](HoseStretch& s, double v) { s.gravity_ms2 = Estimate{v, 0.0}; }},
        {"levels.rise_uncertainty", [](HoseStretch& s, double v) { s.expected_rise_m = Estimate{1.0, v}; }},
    };
    for (const auto& [where, change] : fields)
        for (const double bad : {kNaN, kInfinity, -kInfinity, -1.0, 1e300}) {
            HoseStretch stretch = stretch_of(4e5);
            change(stretch, bad);
            expect_out_of_range(hose_gauge(stretch), where);
        }
    expect_out_of_range(hose_gauge(stretch_of(kNaN)), "levels.gauge_reading");
    HoseStretch zero = stretch_of(4e5);
    zero.gauge.zero_Pa = kNaN;
    expect_out_of_range(hose_gauge(zero), "levels.gauge_zero");
    EXPECT_EQ(hose_gauge(stretch_of(6.01e5)).error().code, "levels.gauge_over_range");
    EXPECT_EQ(hose_gauge(stretch_of(0.0)).error().code, "levels.gauge_no_pressure");
    EXPECT_EQ(hose_gauge(stretch_of(-2e5)).error().code, "levels.gauge_no_pressure");
    HoseStretch nowhere = stretch_of(4e5);
    nowhere.place.latitude_deg = 91.0;
    EXPECT_EQ(hose_gauge(nowhere).error().code, "power.latitude_out_of_range");
    nowhere.place = {45.0, 1e6};
    EXPECT_EQ(hose_gauge(nowhere).error().code, "power.height_out_of_range");
}

} // namespace
} // namespace rillmark
