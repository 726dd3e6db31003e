// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/units.h"

#include <gtest/gtest.h>

#include <array>
#include <cctype>
#include <limits>
#include <set>
#include <string>

namespace rillmark {
namespace {

constexpr int kQuantities = static_cast<int>(Quantity::Coordinate) + 1;
constexpr std::array kSystems{UnitSystem::Metric, UnitSystem::UsCustomary};

std::string_view shown_in(Quantity quantity, UnitSystem system, double si) {
    return display_unit(quantity, system, si).symbol;
}

TEST(Units, FactorsAsPublished) {
    struct Published {
        Quantity quantity;
        const char* unit;
        double factor;
        double relative; // half of the last digit printed; 0 for an exact factor
    };
    // NIST Special Publication 811 (2008), appendix B.8, from memory of the printed table; all exact or with the digits
    // given.
    const Published table[] = {
        {Quantity::Length, "ft", 0.3048, 0},
        {Quantity::Length, "in", 0.0254, 0},
        {Quantity::Length, "yd", 0.9144, 0},
        {Quantity::Length, "mi", 1609.344, 0},
        {Quantity::Area, "ft2", 9.290304e-2, 0},
        {Quantity::Area, "in2", 6.4516e-4, 0},
        {Quantity::Volume, "gal", 3.785412e-3, 2e-7},
        {Quantity::Volume, "ft3", 2.831685e-2, 2e-7},
        {Quantity::Discharge, "cfs", 2.831685e-2, 2e-7},
        {Quantity::Discharge, "gpm", 6.309020e-5, 2e-7},
        {Quantity::Pressure, "psi", 6.894757e3, 2e-7},
        {Quantity::Pressure, "inHg", 3.386389e3, 2e-7},
        {Quantity::Power, "hp", 7.456999e2, 2e-7},
        {Quantity::Mass, "lb", 0.45359237, 0},
        {Quantity::Mass, "oz", 2.834952e-2, 2e-7},
        {Quantity::Energy, "kWh", 3.6e6, 0},
        {Quantity::Density, "lb/ft3", 1.601846e1, 3.2e-7},
        {Quantity::Velocity, "km/h", 2.777778e-1, 2e-7},
        {Quantity::Angle, "deg", 1.745329e-2, 2e-7},
        {Quantity::Conductivity, "uS/cm", 1e-4, 0},
    };
    for (const Published& published : table) {
        const auto unit = find_unit(published.quantity, published.unit);
        ASSERT_TRUE(unit) << published.unit;
        EXPECT_NEAR(to_si(*unit, 1.0), published.factor, published.factor * (published.relative + 1e-15))
            << published.unit;
    }
}

TEST(Units, TemperatureFixedPoints) {
    const auto fahrenheit = find_unit(Quantity::Temperature, "°F");
    ASSERT_TRUE(fahrenheit);
    EXPECT_NEAR(to_si(*fahrenheit, 32.0), 0.0, 1e-12);
    EXPECT_NEAR(to_si(*fahrenheit, 212.0), 100.0, 1e-12);
    EXPECT_NEAR(to_si(*fahrenheit, -40.0), -40.0, 1e-12);
    EXPECT_NEAR(from_si(*fahrenheit, 20.0), 68.0, 1e-12);
    EXPECT_NEAR(difference_from_si(*fahrenheit, 0.5), 0.9, 1e-12) << "a difference has no offset";
}

TEST(Units, TradeFacts) {
    // Common practice, no source: 1 cfs is about 448.8 gpm and 28.32 L/s; 1 psi is 2.31 ft of water.
    const double cfs = find_unit(Quantity::Discharge, "cfs")->factor;
    EXPECT_NEAR(cfs / find_unit(Quantity::Discharge, "gpm")->factor, 448.83, 0.005);
    EXPECT_NEAR(cfs / find_unit(Quantity::Discharge, "L/s")->factor, 28.317, 0.0005);
    const double psi = find_unit(Quantity::Pressure, "psi")->factor;
    EXPECT_NEAR(psi / (1000.0 * 9.80665) / find_unit(Quantity::Length, "ft")->factor, 2.307, 0.001);
}

TEST(Units, EveryQuantityHasUnitsOfBothSystemsAndEachIsFoundAgain) {
    for (int q = 0; q < kQuantities; ++q) {
        const auto quantity = static_cast<Quantity>(q);
        for (const UnitSystem system : kSystems) {
            const std::vector<Unit> units = units_for(quantity, system);
            ASSERT_FALSE(units.empty()) << "quantity " << q;
            EXPECT_TRUE(units.front().system.value_or(system) == system) << "quantity " << q;
            for (const Unit& unit : units) {
                EXPECT_EQ(unit.quantity, quantity);
                EXPECT_GT(unit.factor, 0.0);
                if (quantity == Quantity::Number)
                    continue;
                const auto found = find_unit(quantity, unit.symbol);
                ASSERT_TRUE(found) << unit.symbol;
                EXPECT_EQ(found->symbol, unit.symbol);
            }
        }
        EXPECT_EQ(units_for(quantity, UnitSystem::Metric).size(), units_for(quantity, UnitSystem::UsCustomary).size());
    }
}

TEST(Units, NoSpellingStandsForTwoUnitsOfOneQuantity) {
    for (int q = 0; q < kQuantities; ++q) {
        std::set<std::string> seen;
        for (const Unit& unit : units_for(static_cast<Quantity>(q), UnitSystem::Metric)) {
            std::string spelling;
            for (const char c : std::string(unit.spellings) + "|") {
                if (c != '|') {
                    spelling += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
                    continue;
                }
                EXPECT_TRUE(spelling.empty() || seen.insert(spelling).second) << spelling << " in quantity " << q;
                spelling.clear();
            }
        }
    }
}

TEST(Units, SpellingsOfTheTrade) {
    EXPECT_EQ(find_unit(Quantity::Discharge, "l/s")->symbol, "L/s");
    EXPECT_EQ(find_unit(Quantity::Discharge, "M3/S")->symbol, "m³/s");
    EXPECT_EQ(find_unit(Quantity::Discharge, "ft³/s")->symbol, "cfs");
    EXPECT_EQ(find_unit(Quantity::Conductivity, "\u03BCS/cm")->symbol, "µS/cm") << "Greek mu";
    EXPECT_EQ(find_unit(Quantity::Conductivity, "\u00B5S/cm")->symbol, "µS/cm") << "micro sign";
    EXPECT_EQ(find_unit(Quantity::Temperature, "C")->symbol, "°C");
    EXPECT_EQ(find_unit(Quantity::Length, "′")->symbol, "ft");
    EXPECT_EQ(find_unit(Quantity::Angle, "′")->symbol, "′");
    EXPECT_EQ(find_unit(Quantity::Resistance, "\u2126")->symbol, "Ω");
    EXPECT_FALSE(find_unit(Quantity::Length, "L/s"));
    EXPECT_FALSE(find_unit(Quantity::Length, ""));
    EXPECT_FALSE(find_unit(Quantity::Length, "mx"));
    EXPECT_FALSE(find_unit(Quantity::Number, "m"));
}

TEST(Units, KeypadOrder) {
    EXPECT_EQ(entry_unit(Quantity::Length, UnitSystem::Metric).symbol, "m");
    EXPECT_EQ(entry_unit(Quantity::Length, UnitSystem::UsCustomary).symbol, "ft");
    EXPECT_EQ(entry_unit(Quantity::Bore, UnitSystem::Metric).symbol, "mm");
    EXPECT_EQ(entry_unit(Quantity::Bore, UnitSystem::UsCustomary).symbol, "in");
    EXPECT_EQ(entry_unit(Quantity::Discharge, UnitSystem::Metric).symbol, "L/s");
    EXPECT_EQ(entry_unit(Quantity::Discharge, UnitSystem::UsCustomary).symbol, "cfs");
    const std::vector<Unit> lengths = units_for(Quantity::Length, UnitSystem::UsCustomary);
    EXPECT_EQ(lengths[1].symbol, "in");
    EXPECT_EQ(lengths[4].symbol, "m") << "those of the other system follow";
}

TEST(Units, UnitShownFollowsTheSizeOfTheValue) {
    const double cfs = find_unit(Quantity::Discharge, "cfs")->factor;
    EXPECT_EQ(shown_in(Quantity::Discharge, UnitSystem::Metric, 0.085), "L/s");
    EXPECT_EQ(shown_in(Quantity::Discharge, UnitSystem::Metric, 1.0), "m³/s");
    EXPECT_EQ(shown_in(Quantity::Discharge, UnitSystem::Metric, -1.0), "m³/s");
    EXPECT_EQ(shown_in(Quantity::Discharge, UnitSystem::UsCustomary, 0.49 * cfs), "gpm");
    EXPECT_EQ(shown_in(Quantity::Discharge, UnitSystem::UsCustomary, 0.51 * cfs), "cfs");
    EXPECT_EQ(shown_in(Quantity::Power, UnitSystem::Metric, 9999.0), "W");
    EXPECT_EQ(shown_in(Quantity::Power, UnitSystem::UsCustomary, 1e4), "kW");
    EXPECT_EQ(shown_in(Quantity::Bore, UnitSystem::UsCustomary, 0.3), "in");
    EXPECT_EQ(shown_in(Quantity::Length, UnitSystem::UsCustomary, 0.3), "ft");
    EXPECT_EQ(shown_in(Quantity::Mass, UnitSystem::Metric, 0.5), "g");
    for (int q = 0; q < kQuantities; ++q)
        for (const UnitSystem system : kSystems)
            for (const double si : {0.0, -1e-9, 1e300, std::numeric_limits<double>::quiet_NaN()})
                EXPECT_EQ(display_unit(static_cast<Quantity>(q), system, si).quantity, static_cast<Quantity>(q));
}

} // namespace
} // namespace rillmark
