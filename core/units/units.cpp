// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/units.h"

#include "units/lower_case.h"
#include "units/typed_text.h"

#include <algorithm>
#include <string>

namespace rillmark {

namespace {

// NIST SP 811 (2008), B.8: international foot, yard, inch and mile, exact.
constexpr double kFoot = 0.3048;
constexpr double kInch = 0.0254;
constexpr double kYard = 0.9144;
constexpr double kMile = 1609.344;
// NIST SP 811 (2008), B.8: avoirdupois pound and ounce, exact.
constexpr double kPound = 0.45359237;
constexpr double kOunce = kPound / 16.0;
// NIST SP 811 (2008), B.8: US gallon of 231 cubic inches.
constexpr double kUsGallon = 231.0 * kInch * kInch * kInch;
// NIST SP 811 (2008), B.8, and 3rd CGPM (1901): standard acceleration of free fall, exact; it defines the pound-force.
constexpr double kStandardGravity = 9.80665;
constexpr double kPoundForce = kPound * kStandardGravity;
// NIST SP 811 (2008), B.8: inch of mercury, conventional.
constexpr double kInchOfMercury = 3386.389;
// Definition of the plane angle.
constexpr double kDegree = 3.14159265358979323846 / 180.0;

constexpr double kCubicFoot = kFoot * kFoot * kFoot;
constexpr std::optional<UnitSystem> kMetric = UnitSystem::Metric;
constexpr std::optional<UnitSystem> kUs = UnitSystem::UsCustomary;
constexpr std::optional<UnitSystem> kBoth = std::nullopt;

using enum Quantity;

// Within a quantity and a system, in keypad order.
constexpr Unit kUnits[] = {
    {"", "", Number, 1.0, 0.0, 2, kBoth},

    {"%", "%|percent|pct|per cent", Ratio, 0.01, 0.0, 1, kBoth},
    {"of 1", "of 1", Ratio, 1.0, 0.0, 3, kBoth},

    {"m", "m|metre|metres|meter|meters", Length, 1.0, 0.0, 3, kMetric},
    {"mm", "mm|millimetre|millimetres|millimeter|millimeters", Length, 0.001, 0.0, 0, kMetric},
    {"cm", "cm|centimetre|centimetres|centimeter|centimeters", Length, 0.01, 0.0, 1, kMetric},
    {"km", "km|kilometre|kilometres|kilometer|kilometers", Length, 1000.0, 0.0, 3, kMetric},
    {"ft", "ft|'|ft.|foot|feet", Length, kFoot, 0.0, 3, kUs},
    {"in", "in|\"|''|in.|inch|inches", Length, kInch, 0.0, 2, kUs},
    {"yd", "yd|yd.|yds|yard|yards", Length, kYard, 0.0, 3, kUs},
    {"mi", "mi|mile|miles", Length, kMile, 0.0, 3, kUs},

    {"mm", "mm|millimetre|millimetres|millimeter|millimeters", Bore, 0.001, 0.0, 1, kMetric},
    {"cm", "cm|centimetre|centimetres|centimeter|centimeters", Bore, 0.01, 0.0, 2, kMetric},
    {"m", "m|metre|metres|meter|meters", Bore, 1.0, 0.0, 4, kMetric},
    {"in", "in|\"|''|in.|inch|inches", Bore, kInch, 0.0, 3, kUs},
    {"ft", "ft|'|ft.|foot|feet", Bore, kFoot, 0.0, 4, kUs},

    {"m²", "m2|m^2|sq m|square metres|square meters", Area, 1.0, 0.0, 3, kMetric},
    {"mm²", "mm2|mm^2|sq mm", Area, 1e-6, 0.0, 1, kMetric},
    {"cm²", "cm2|cm^2|sq cm", Area, 1e-4, 0.0, 1, kMetric},
    {"ft²", "ft2|ft^2|sq ft|sqft|square feet", Area, kFoot* kFoot, 0.0, 2, kUs},
    {"in²", "in2|in^2|sq in|square inches", Area, kInch* kInch, 0.0, 2, kUs},

    {"L", "L|litre|litres|liter|liters", Volume, 0.001, 0.0, 1, kMetric},
    {"m³", "m3|m^3|cu m|cubic metres|cubic meters", Volume, 1.0, 0.0, 3, kMetric},
    {"mL", "mL|cm3|millilitre|millilitres|milliliter|milliliters", Volume, 1e-6, 0.0, 0, kMetric},
    {"gal", "gal|gals|gallon|gallons|US gal", Volume, kUsGallon, 0.0, 2, kUs},
    {"ft³", "ft3|ft^3|cu ft|cubic feet", Volume, kCubicFoot, 0.0, 2, kUs},

    {"m/s", "m/s|mps", Velocity, 1.0, 0.0, 3, kMetric},
    {"km/h", "km/h|kmh|kph", Velocity, 1000.0 / 3600.0, 0.0, 2, kMetric},
    {"ft/s", "ft/s|fps|ft/sec", Velocity, kFoot, 0.0, 2, kUs},

    {"L/s", "L/s|lps|L/sec|litres per second|liters per second", Discharge, 0.001, 0.0, 2, kMetric},
    {"m³/s", "m3/s|m^3/s|m3s|cumec|cumecs", Discharge, 1.0, 0.0, 3, kMetric},
    {"L/min", "L/min|lpm", Discharge, 0.001 / 60.0, 0.0, 1, kMetric},
    {"m³/h", "m3/h|m^3/h", Discharge, 1.0 / 3600.0, 0.0, 2, kMetric},
    {"cfs", "cfs|ft3/s|ft^3/s|cu ft/s|cubic feet per second", Discharge, kCubicFoot, 0.0, 3, kUs},
    {"gpm", "gpm|gal/min|US gpm|gallons per minute", Discharge, kUsGallon / 60.0, 0.0, 1, kUs},

    {"s", "s|sec|secs|second|seconds", Time, 1.0, 0.0, 1, kBoth},
    {"min", "min|mins|minute|minutes", Time, 60.0, 0.0, 2, kBoth},
    {"h", "h|hr|hrs|hour|hours", Time, 3600.0, 0.0, 2, kBoth},
    {"ms", "ms|msec|millisecond|milliseconds", Time, 0.001, 0.0, 0, kBoth},

    {"kPa", "kPa", Pressure, 1e3, 0.0, 1, kMetric},
    {"bar", "bar", Pressure, 1e5, 0.0, 3, kMetric},
    {"hPa", "hPa|mbar|millibar|millibars", Pressure, 100.0, 0.0, 1, kMetric},
    {"Pa", "Pa", Pressure, 1.0, 0.0, 0, kMetric},
    {"psi", "psi|lbf/in2", Pressure, kPoundForce / (kInch * kInch), 0.0, 2, kUs},
    {"inHg", "inHg|in Hg", Pressure, kInchOfMercury, 0.0, 2, kUs},

    {"W", "W|watt|watts", Power, 1.0, 0.0, 0, kBoth},
    {"kW", "kW|kilowatt|kilowatts", Power, 1e3, 0.0, 2, kBoth},
    {"hp", "hp|horsepower", Power, 550.0 * kFoot* kPoundForce, 0.0, 2, kUs},

    {"kWh", "kWh", Energy, 3.6e6, 0.0, 1, kBoth},
    {"MWh", "MWh", Energy, 3.6e9, 0.0, 2, kBoth},
    {"Wh", "Wh", Energy, 3.6e3, 0.0, 0, kBoth},
    {"J", "J|joule|joules", Energy, 1.0, 0.0, 0, kBoth},

    {"%", "%|percent|pct|per cent", Slope, 0.01, 0.0, 2, kBoth},
    {"‰", "permille|per mille", Slope, 0.001, 0.0, 1, kBoth},
    {"m/m", "m/m", Slope, 1.0, 0.0, 4, kMetric},
    {"ft/ft", "ft/ft", Slope, 1.0, 0.0, 4, kUs},

    {"°", "deg|degree|degrees", Angle, kDegree, 0.0, 2, kBoth},
    {"′", "'|arcmin", Angle, kDegree / 60.0, 0.0, 1, kBoth},
    {"″", "\"|''|arcsec", Angle, kDegree / 3600.0, 0.0, 0, kBoth},
    {"rad", "rad|radian|radians", Angle, 1.0, 0.0, 5, kBoth},

    {"kg", "kg|kilogram|kilograms", Mass, 1.0, 0.0, 3, kMetric},
    {"g", "g|gram|grams", Mass, 0.001, 0.0, 1, kMetric},
    {"lb", "lb|lb.|lbs|pound|pounds", Mass, kPound, 0.0, 2, kUs},
    {"oz", "oz|oz.|ounce|ounces", Mass, kOunce, 0.0, 2, kUs},

    {"°C", "degC|deg C|C|celsius", Temperature, 1.0, 0.0, 1, kMetric},
    // NIST SP 811 (2008), B.8: t(C) = (t(F) - 32) / 1.8.
    {"°F", "degF|deg F|F|fahrenheit", Temperature, 1.0 / 1.8, -32.0, 1, kUs},

    {"µS/cm", "uS/cm|uScm", Conductivity, 1e-4, 0.0, 1, kBoth},
    {"mS/cm", "mS/cm|mScm", Conductivity, 0.1, 0.0, 3, kBoth},
    {"S/m", "S/m", Conductivity, 1.0, 0.0, 4, kBoth},

    {"V", "V|volt|volts", Voltage, 1.0, 0.0, 1, kBoth},
    {"kV", "kV", Voltage, 1e3, 0.0, 3, kBoth},
    {"A", "A|amp|amps|ampere|amperes", Current, 1.0, 0.0, 2, kBoth},
    {"mA", "mA", Current, 0.001, 0.0, 0, kBoth},
    {"Ω", "ohm|ohms", Resistance, 1.0, 0.0, 3, kBoth},

    {"kg/m³", "kg/m3|kg/m^3|kgm3", Density, 1.0, 0.0, 1, kMetric},
    {"g/cm³", "g/cm3|g/cm^3|kg/L", Density, 1000.0, 0.0, 4, kMetric},
    {"lb/ft³", "lb/ft3|lb/ft^3|lb/cu ft|pcf", Density, kPound / kCubicFoot, 0.0, 2, kUs},
    {"mg/L", "mg/L", Density, 0.001, 0.0, 1, kBoth},
    {"g/L", "g/L", Density, 1.0, 0.0, 1, kBoth},
    {"µg/L", "ug/L|ppb", Density, 1e-6, 0.0, 2, kBoth},

    {"°", "deg|degree|degrees", Coordinate, 1.0, 0.0, 7, kBoth},
    {"′", "'|arcmin", Coordinate, 1.0 / 60.0, 0.0, 5, kBoth},
    {"″", "\"|''|arcsec", Coordinate, 1.0 / 3600.0, 0.0, 3, kBoth},
};

/// Where the trade changes unit: below `si_limit` the small unit is shown, else the large one, or what the next rule says.
struct DisplayRule {
    Quantity quantity;
    std::optional<UnitSystem> system;
    double si_limit;
    std::string_view small_unit;
    std::string_view large_unit;
};

// Common practice, no source. A quantity that is not listed is shown in its entry unit.
constexpr DisplayRule kDisplayRules[] = {
    {Discharge, kMetric, 1.0, "L/s", "m³/s"},
    {Discharge, kUs, 0.5 * kCubicFoot, "gpm", "cfs"},
    {Volume, kMetric, 1.0, "L", "m³"},
    {Volume, kUs, 1000.0 * kUsGallon, "gal", "ft³"},
    {Area, kMetric, 1e-3, "mm²", "m²"},
    {Area, kUs, 0.1 * kFoot* kFoot, "in²", "ft²"},
    {Power, kBoth, 1e4, "W", "kW"},
    {Energy, kBoth, 1e5 * 3.6e6, "kWh", "MWh"},
    {Mass, kMetric, 1.0, "g", "kg"},
    {Mass, kUs, kPound, "oz", "lb"},
    {Time, kBoth, 3600.0, "s", "h"},
    {Pressure, kMetric, 1e6, "kPa", "bar"},
    {Conductivity, kBoth, 1.0, "µS/cm", "mS/cm"},
    {Density, kBoth, 1e-4, "µg/L", "mg/L"},
    {Density, kMetric, 1.0, "mg/L", "kg/m³"},
    {Density, kUs, 1.0, "mg/L", "lb/ft³"},
};

/// Length of the longest spelling with which the text begins, 0 if there is none.
std::size_t spelled_length(const Unit& unit, std::string_view lower_text) {
    std::size_t longest = 0;
    for (std::string_view rest = unit.spellings; !rest.empty();) {
        const std::size_t length = std::min(rest.find('|'), rest.size());
        if (length > longest && lower_text.starts_with(lower_case(rest.substr(0, length))))
            longest = length;
        rest.remove_prefix(std::min(length + 1, rest.size()));
    }
    return longest;
}

const Unit& unit_with_symbol(Quantity quantity, std::string_view symbol) {
    return *std::find_if(std::begin(kUnits), std::end(kUnits),
                         [&](const Unit& unit) { return unit.quantity == quantity && unit.symbol == symbol; });
}

} // namespace

std::vector<Unit> units_for(Quantity quantity, UnitSystem system) {
    std::vector<Unit> units;
    for (const Unit& unit : kUnits)
        if (unit.quantity == quantity && unit.system.value_or(system) == system)
            units.push_back(unit);
    for (const Unit& unit : kUnits)
        if (unit.quantity == quantity && unit.system.value_or(system) != system)
            units.push_back(unit);
    return units;
}

Unit entry_unit(Quantity quantity, UnitSystem system) {
    return units_for(quantity, system).front();
}

Unit display_unit(Quantity quantity, UnitSystem system, double value_in_si) {
    std::optional<std::string_view> large;
    for (const DisplayRule& rule : kDisplayRules) {
        if (rule.quantity != quantity || rule.system.value_or(system) != system)
            continue;
        if (value_in_si < rule.si_limit && value_in_si > -rule.si_limit)
            return unit_with_symbol(quantity, rule.small_unit);
        large = rule.large_unit;
    }
    return large ? unit_with_symbol(quantity, *large) : entry_unit(quantity, system);
}

std::optional<UnitMatch> unit_at_start(Quantity quantity, std::string_view plain) {
    const std::string text = lower_case(plain);
    std::optional<UnitMatch> best;
    for (const Unit& unit : kUnits) {
        if (unit.quantity != quantity)
            continue;
        const std::size_t length = spelled_length(unit, text);
        if (length > (best ? best->length : 0))
            best = UnitMatch{unit, length};
    }
    return best;
}

std::optional<Unit> find_unit(Quantity quantity, std::string_view spelling) {
    const std::string plain = plain_text(spelling).text;
    const std::optional<UnitMatch> match = unit_at_start(quantity, plain);
    if (!match || match->length != plain.size())
        return std::nullopt;
    return match->unit;
}

} // namespace rillmark
