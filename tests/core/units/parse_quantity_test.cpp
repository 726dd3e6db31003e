// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/parse_quantity.h"

#include "units/format_quantity.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <iostream>
#include <random>
#include <string>

namespace rillmark {
namespace {

constexpr double kFoot = 0.3048;
constexpr double kInch = 0.0254;
constexpr double kCubicFoot = kFoot * kFoot * kFoot;

constexpr NumberFormat kPoint{'.', {}};
constexpr NumberFormat kComma{',', {}};
constexpr NumberFormat kPointWithCommas{'.', ','};
constexpr NumberFormat kCommaWithPoints{',', '.'};
constexpr NumberFormat kCommaWithSpaces{',', ' '};
constexpr NumberFormat kPointWithApostrophes{'.', '\''};

void expect_si(const char* typed, Quantity quantity, double si, const char* unit, const NumberFormat& format = {},
               UnitSystem system = UnitSystem::Metric) {
    const auto parsed = parse_quantity(typed, quantity, system, format);
    ASSERT_TRUE(parsed) << typed << ": " << parsed.error().code;
    EXPECT_NEAR(parsed->si, si, std::abs(si) * 1e-14) << typed;
    EXPECT_EQ(parsed->unit, unit) << typed;
}

std::string code(std::string_view typed, Quantity quantity = Quantity::Length, const NumberFormat& format = {}) {
    const auto parsed = parse_quantity(typed, quantity, UnitSystem::Metric, format);
    return parsed ? "accepted" : parsed.error().code;
}

const Arg* argument(const Finding& finding, const std::string& name) {
    for (const Arg& arg : finding.args)
        if (arg.name == name)
            return &arg;
    return nullptr;
}

std::int64_t position(std::string_view typed, Quantity quantity = Quantity::Length) {
    const auto parsed = parse_quantity(typed, quantity, UnitSystem::Metric);
    const Arg* arg = parsed ? nullptr : argument(parsed.error(), "position");
    return arg != nullptr ? std::get<std::int64_t>(arg->value) : -1;
}

TEST(ParseQuantity, WhatPeopleType) {
    expect_si("36 ft 4 in", Quantity::Length, 436 * kInch, "ft");
    expect_si("12in", Quantity::Bore, 12 * kInch, "in");
    expect_si("3 cfs", Quantity::Discharge, 3 * kCubicFoot, "cfs");
    expect_si("85 L/s", Quantity::Discharge, 0.085, "L/s");
    expect_si("85 l/s", Quantity::Discharge, 0.085, "L/s");
    expect_si("2.5'", Quantity::Length, 2.5 * kFoot, "ft");
    expect_si("5' 3\"", Quantity::Length, 63 * kInch, "ft");
    expect_si("5'3''", Quantity::Length, 63 * kInch, "ft");
    expect_si("5ft3in", Quantity::Length, 63 * kInch, "ft");
    expect_si("5 ft. 3 in.", Quantity::Length, 63 * kInch, "ft");
    expect_si("5 ft 3 1/2 in", Quantity::Length, 63.5 * kInch, "ft");
    expect_si("5 ft 3.5 in", Quantity::Length, 63.5 * kInch, "ft");
    expect_si("1/2 in", Quantity::Bore, 0.5 * kInch, "in");
    expect_si("  7  ", Quantity::Length, 7.0, "m");
    expect_si("7\r\n", Quantity::Length, 7.0, "m");
    expect_si("-0.35", Quantity::Length, -0.35, "m");
    expect_si("+0.35 m", Quantity::Length, 0.35, "m");
    expect_si("- 5 ft 3 in", Quantity::Length, -63 * kInch, "ft");
    expect_si("1.2e3", Quantity::Length, 1200.0, "m");
    expect_si("1.2E-3 m", Quantity::Length, 0.0012, "m");
    expect_si(".5", Quantity::Length, 0.5, "m");
    expect_si("12.", Quantity::Length, 12.0, "m");
    expect_si("0", Quantity::Number, 0.0, "");
    expect_si("5 lb 3 oz", Quantity::Mass, 83 * 0.45359237 / 16, "lb");
    expect_si("1 h 5 min 30 s", Quantity::Time, 3930.0, "h");
    expect_si("1 h 30 s", Quantity::Time, 3630.0, "h");
    expect_si("68 F", Quantity::Temperature, 20.0, "°F");
    expect_si("-40 deg F", Quantity::Temperature, -40.0, "°F");
    expect_si("55%", Quantity::Ratio, 0.55, "%");
    expect_si("1:50", Quantity::Slope, 0.02, "1:n");
    expect_si("-1 : 50", Quantity::Slope, -0.02, "1:n");
    expect_si("1 in 50", Quantity::Slope, 0.02, "1:n");
    expect_si("2", Quantity::Slope, 0.02, "%");
    expect_si("420 US gpm", Quantity::Discharge, 420 * 231 * kInch * kInch * kInch / 60, "gpm");
}

TEST(ParseQuantity, UnicodeAsKeyboardsAndPastedTextHaveIt) {
    expect_si("\u22120.35\u00A0m", Quantity::Length, -0.35, "m");
    expect_si("5\u2032 3\u2033", Quantity::Length, 63 * kInch, "ft");
    expect_si("5\u2019 3\u201D", Quantity::Length, 63 * kInch, "ft");
    expect_si("3\u00BD in", Quantity::Bore, 3.5 * kInch, "in");
    expect_si("\u00BE in", Quantity::Bore, 0.75 * kInch, "in");
    expect_si("0.4 m\u00B3/s", Quantity::Discharge, 0.4, "m³/s");
    expect_si("84 \u00B5S/cm", Quantity::Conductivity, 0.0084, "µS/cm");
    expect_si("84 \u03BCS/cm", Quantity::Conductivity, 0.0084, "µS/cm");
    expect_si("12.5 \u00B0C", Quantity::Temperature, 12.5, "°C");
    expect_si("12\u00B030\u203215\u2033", Quantity::Coordinate, 12.0 + 30.0 / 60 + 15.0 / 3600, "°");
    expect_si("30\u00B0", Quantity::Angle, 0.52359877559829887, "°");
    expect_si("\uFEFF7 m", Quantity::Length, 7.0, "m");
}

TEST(ParseQuantity, UnitAssumedWhenNoneIsTyped) {
    expect_si("12", Quantity::Length, 12.0, "m");
    expect_si("12", Quantity::Length, 12 * kFoot, "ft", {}, UnitSystem::UsCustomary);
    expect_si("12", Quantity::Bore, 12 * kInch, "in", {}, UnitSystem::UsCustomary);
    expect_si("68", Quantity::Temperature, 20.0, "°F", {}, UnitSystem::UsCustomary);
    const auto parsed = parse_quantity("1.2", *find_unit(Quantity::Discharge, "m3/s"));
    ASSERT_TRUE(parsed);
    EXPECT_EQ(parsed->si, 1.2);
    EXPECT_EQ(parsed->unit, "m³/s");
    EXPECT_EQ(parse_quantity("85 L/s", *find_unit(Quantity::Discharge, "m3/s"))->unit, "L/s");
}

TEST(ParseQuantity, CommaAndPointAreBothDecimalMarksWhereThatHasOneMeaning) {
    for (const NumberFormat& format : {kPoint, kComma, kPointWithCommas, kCommaWithPoints, kCommaWithSpaces}) {
        expect_si("1,5 m", Quantity::Length, 1.5, "m", format);
        expect_si("1.5 m", Quantity::Length, 1.5, "m", format);
        expect_si("0,525 m", Quantity::Length, 0.525, "m", format);
        expect_si("0.525 m", Quantity::Length, 0.525, "m", format);
        expect_si("1525,3 m", Quantity::Length, 1525.3, "m", format);
        expect_si("1525.125 m", Quantity::Length, 1525.125, "m", format);
    }
    expect_si("1.525 m", Quantity::Length, 1.525, "m", kPoint);
    expect_si("1.525 m", Quantity::Length, 1.525, "m", kPointWithCommas);
    expect_si("1,525 m", Quantity::Length, 1.525, "m", kComma);
    expect_si("1,525 m", Quantity::Length, 1.525, "m", kCommaWithSpaces);
}

TEST(ParseQuantity, ThousandsOnlyWhereTheLocaleSaysSo) {
    expect_si("1,525 m", Quantity::Length, 1525.0, "m", kPointWithCommas);
    expect_si("1,525.25 m", Quantity::Length, 1525.25, "m", kPointWithCommas);
    expect_si("12,345,678 m", Quantity::Length, 12345678.0, "m", kPointWithCommas);
    expect_si("1.525 m", Quantity::Length, 1525.0, "m", kCommaWithPoints);
    expect_si("1.525,25 m", Quantity::Length, 1525.25, "m", kCommaWithPoints);
    expect_si("1 525,25 m", Quantity::Length, 1525.25, "m", kCommaWithSpaces);
    expect_si("1\u202F525 m", Quantity::Length, 1525.0, "m", kCommaWithSpaces);
    expect_si("1'525.25 m", Quantity::Length, 1525.25, "m", kPointWithApostrophes);
    expect_si("5' 3\"", Quantity::Length, 63 * kInch, "ft", kPointWithApostrophes);
    expect_si("3 1/2 in", Quantity::Bore, 3.5 * kInch, "in", kCommaWithSpaces);
    EXPECT_EQ(code("1,525 m", Quantity::Length, kPoint), "units.ambiguous_comma");
    EXPECT_EQ(code("1.525 m", Quantity::Length, kComma), "units.ambiguous_point");
    EXPECT_EQ(code("1.525 m", Quantity::Length, kCommaWithSpaces), "units.ambiguous_point");
    EXPECT_EQ(code("1,525.25 m", Quantity::Length, kPoint), "units.two_marks");
    EXPECT_EQ(code("1,525,300 m", Quantity::Length, kPoint), "units.two_marks");
    EXPECT_EQ(code("1.525,3", Quantity::Length, kPointWithCommas), "units.two_marks");
    EXPECT_EQ(code("1,52,300", Quantity::Length, kPointWithCommas), "units.two_marks");
    EXPECT_EQ(code("1525 300", Quantity::Length, kCommaWithSpaces), "units.not_a_number");
}

TEST(ParseQuantity, RefusesWhatIsNoQuantity) {
    EXPECT_EQ(code(""), "units.empty");
    EXPECT_EQ(code(" \u00A0\t"), "units.empty");
    EXPECT_EQ(code("about two"), "units.not_a_number");
    EXPECT_EQ(code("m"), "units.not_a_number");
    EXPECT_EQ(code("-"), "units.not_a_number");
    EXPECT_EQ(code("--5"), "units.not_a_number");
    EXPECT_EQ(code("."), "units.not_a_number");
    EXPECT_EQ(code("nan"), "units.not_a_number");
    EXPECT_EQ(code("inf"), "units.not_a_number");
    EXPECT_EQ(code("0x10"), "units.unknown_unit");
    EXPECT_EQ(code("1.2.3"), "units.two_marks");
    EXPECT_EQ(code("1,2.3"), "units.two_marks");
    EXPECT_EQ(code("1/0 in"), "units.bad_fraction");
    EXPECT_EQ(code("3 5/4 in"), "units.bad_fraction");
    EXPECT_EQ(code("1:0", Quantity::Slope), "units.bad_fraction");
    EXPECT_EQ(code("1:x", Quantity::Slope), "units.not_a_number");
    EXPECT_EQ(code("1:50 %", Quantity::Slope), "units.unexpected_text");
    EXPECT_EQ(code("1:50:2", Quantity::Slope), "units.unexpected_text");
    EXPECT_EQ(code("12 parsnips"), "units.unknown_unit");
    EXPECT_EQ(code("12 m/s2"), "units.unknown_unit");
    EXPECT_EQ(code("12 L/s"), "units.wrong_quantity");
    EXPECT_EQ(code("12 m/s"), "units.wrong_quantity");
    EXPECT_EQ(code("12 m3"), "units.wrong_quantity");
    EXPECT_EQ(code("12 psi", Quantity::Discharge), "units.wrong_quantity");
    EXPECT_EQ(code("5 m", Quantity::Number), "units.takes_no_unit");
    EXPECT_EQ(code("12 m high"), "units.unexpected_text");
    EXPECT_EQ(code("12 m; DROP"), "units.unexpected_text");
    EXPECT_EQ(code("5 ft 3"), "units.part_without_unit");
    EXPECT_EQ(code("5 3 ft"), "units.part_without_unit");
    EXPECT_EQ(code("5 ft 12 in"), "units.part_too_large");
    EXPECT_EQ(code("5.5 ft 3 in"), "units.parts_do_not_combine");
    EXPECT_EQ(code("3 in 5 ft"), "units.parts_do_not_combine");
    EXPECT_EQ(code("3 m 20 cm"), "units.parts_do_not_combine");
    EXPECT_EQ(code("5 ft 3 ft"), "units.parts_do_not_combine");
    EXPECT_EQ(code("5 ft -3 in"), "units.unexpected_text");
    EXPECT_EQ(code("1e400"), "units.out_of_range");
    EXPECT_EQ(code("-1e400"), "units.out_of_range");
    EXPECT_EQ(code("1e16 km"), "units.out_of_range");
    EXPECT_EQ(code(std::string(150, '9')), "units.out_of_range");
    EXPECT_EQ(code("12 \xFF"), "units.not_utf8");
    EXPECT_EQ(code("12 \xC0\xAF"), "units.not_utf8");
    EXPECT_EQ(code("12 \xED\xA0\x80"), "units.not_utf8");
    EXPECT_EQ(code("12 \xE2\x82"), "units.not_utf8");
    EXPECT_EQ(code(std::string_view("12\0m", 4)), "units.unknown_unit");
    EXPECT_EQ(code("\u96F6"), "units.not_a_number");
    EXPECT_EQ(code(std::string(5'000'000, '1')), "units.too_long");
    EXPECT_EQ(code(std::string(5'000'000, ' ')), "units.too_long");
}

TEST(ParseQuantity, RefusalCarriesTheTextAndThePlace) {
    const auto refused = parse_quantity("36 ft 4 parsnips", Quantity::Length, UnitSystem::UsCustomary);
    ASSERT_FALSE(refused);
    EXPECT_EQ(std::get<std::string>(argument(refused.error(), "typed")->value), "36 ft 4 parsnips");
    EXPECT_EQ(std::get<std::string>(argument(refused.error(), "unit")->value), "parsnips");
    EXPECT_EQ(std::get<std::string>(argument(refused.error(), "accepted")->value), "ft, in, yd, mi, m, mm, cm, km");
    EXPECT_EQ(position("36 ft 4 parsnips"), 9);
    EXPECT_EQ(position("12 m high"), 6);
    EXPECT_EQ(position("\u221212 m high"), 7) << "characters are counted, not bytes";
    EXPECT_EQ(position("12 m\u00B2 x", Quantity::Area), 7);
    EXPECT_EQ(position("5 ft 12 in"), 6);
    EXPECT_EQ(position("-"), 2);
}

TEST(ParseQuantity, NeverFailsOnRandomBytes) {
    constexpr unsigned kSeed = 41;
    SCOPED_TRACE("seed " + std::to_string(kSeed));
    std::mt19937 random(kSeed);
    const std::string alphabet = "0123456789.,'\"/:-+eE minftLsgalh%\xC2\xB0\xE2\x88\x92\xBD\xFF";
    int accepted = 0;
    for (int trial = 0; trial < 20000; ++trial) {
        std::string typed(random() % 12, ' ');
        for (char& c : typed)
            c = alphabet[random() % alphabet.size()];
        const auto quantity = static_cast<Quantity>(random() % (static_cast<unsigned>(Quantity::Coordinate) + 1));
        const auto parsed =
            parse_quantity(typed, quantity, UnitSystem::Metric, trial % 2 ? kPointWithApostrophes : kCommaWithSpaces);
        if (!parsed) {
            EXPECT_TRUE(parsed.error().code.starts_with("units.")) << typed;
            continue;
        }
        ++accepted;
        EXPECT_TRUE(std::isfinite(parsed->si)) << typed;
    }
    EXPECT_GT(accepted, 100);
}

TEST(ParseQuantity, ReadsBackWhatIsShownInEveryUnit) {
    const unsigned seed = std::random_device{}();
    std::cout << "seed " << seed << "\n";
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> exponent(-4.0, 6.0);
    std::uniform_int_distribution<int> decimals(0, 6);
    const NumberFormat formats[] = {kPoint,           kComma,           kPointWithCommas,
                                    kCommaWithPoints, kCommaWithSpaces, kPointWithApostrophes};
    for (int q = 0; q <= static_cast<int>(Quantity::Coordinate); ++q) {
        for (const Unit& unit : units_for(static_cast<Quantity>(q), UnitSystem::Metric)) {
            for (int trial = 0; trial < 60; ++trial) {
                const double number = std::pow(10.0, exponent(random)) * (random() % 2 ? 1.0 : -1.0);
                const int places = decimals(random);
                const NumberFormat& format = formats[trial % 6];
                const Shown shown = show_value_in(to_si(unit, number), unit, format, places);
                const auto read = parse_quantity(shown.text(), unit.quantity, UnitSystem::Metric, format);
                ASSERT_TRUE(read) << shown.text() << " " << read.error().code;
                EXPECT_EQ(read->unit, unit.symbol);
                EXPECT_NEAR(from_si(unit, read->si), number, 0.5000001 * std::pow(10.0, -places) + 1e-9)
                    << shown.text();
            }
        }
    }
}

// The short way for plain decimals gives the very double that the C library gives.
TEST(ParseQuantity, PlainDecimalsAreTheNearestDouble) {
    const unsigned seed = 1515;
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    for (int turn = 0; turn < 20000; ++turn) {
        const int digits = std::uniform_int_distribution(1, 17)(random);
        std::string text;
        for (int i = 0; i < digits; ++i)
            text += static_cast<char>('0' + std::uniform_int_distribution(0, 9)(random));
        text.insert(std::uniform_int_distribution<std::size_t>(1, text.size())(random), ".");
        if (text.back() == '.')
            text += '5';
        const auto parsed = parse_quantity(text, Unit{}, NumberFormat{});
        ASSERT_TRUE(parsed.ok()) << text;
        EXPECT_EQ(parsed->si, std::strtod(text.c_str(), nullptr)) << text;
    }
}

} // namespace
} // namespace rillmark
