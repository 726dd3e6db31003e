// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/closure.h"

#include "units/units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace rillmark {

namespace {

constexpr double kMetresPerKilometre = 1000.0;

constexpr std::string_view kFgcs =
    "FGCC, Standards and Specifications for Geodetic Control Networks (1984), section 3.5";
constexpr std::string_view kFeetMiles =
    "University construction surveying laboratory, three-wire levelling, table of accuracy requirements";
constexpr std::string_view kUsgs = "USGS Techniques and Methods 3-A19, Levels at gaging stations (2010), abstract";
constexpr std::string_view kArmy = "US Army, surveying course EN0593, page 4-4";
constexpr std::string_view kBuilding = "German building practice as quoted on a web page";
constexpr std::string_view kSiteRule = "University levelling slides, Levelling (continued), slide 8";

constexpr std::string_view kSeen = "seen";
constexpr std::string_view kMemory = "memory";

double metres_per(std::string_view unit) {
    return find_unit(Quantity::Length, unit)->factor;
}

/// `factor_mm` in mm per square root of a kilometre.
Allowance per_km(AllowanceId id, std::string_view code, double factor_mm, std::string_view source,
                 std::string_view provenance) {
    return {id, code, AllowanceForm::PerRootKilometre, factor_mm * metres_per("mm"), {}, source, provenance};
}

/// `factor_ft` in feet per square root of a mile.
Allowance per_mile(AllowanceId id, std::string_view code, double factor_ft) {
    const double mile_km = metres_per("mi") / kMetresPerKilometre;
    const double factor_m = factor_ft * metres_per("ft") / std::sqrt(mile_km);
    return {id, code, AllowanceForm::PerRootKilometre, factor_m, {}, kFeetMiles, kSeen};
}

std::array<Allowance, 16> make_allowances() {
    const double foot_m = metres_per("ft");
    return {{
        {AllowanceId::SiteRule, "site_rule", AllowanceForm::PerRootSetup, 5.0 * metres_per("mm"), {}, kSiteRule, kSeen},
        {AllowanceId::Streamgage, "streamgage", AllowanceForm::PerRootSetup, 0.003 * foot_m, 0.015 * foot_m, kUsgs,
         kSeen},
        per_km(AllowanceId::FirstOrderI, "first_order_1", 4.0, kFgcs, kSeen),
        per_km(AllowanceId::FirstOrderII, "first_order_2", 5.0, kFgcs, kMemory),
        per_km(AllowanceId::SecondOrderI, "second_order_1", 6.0, kFgcs, kMemory),
        per_km(AllowanceId::SecondOrderII, "second_order_2", 8.0, kFgcs, kMemory),
        per_km(AllowanceId::ThirdOrder, "third_order", 12.0, kFgcs, kSeen),
        per_mile(AllowanceId::FirstOrderIFeet, "first_order_1_feet", 0.012),
        per_mile(AllowanceId::FirstOrderIIFeet, "first_order_2_feet", 0.017),
        per_mile(AllowanceId::SecondOrderIFeet, "second_order_1_feet", 0.025),
        per_mile(AllowanceId::SecondOrderIIFeet, "second_order_2_feet", 0.033),
        per_mile(AllowanceId::ThirdOrderFeet, "third_order_feet", 0.050),
        per_mile(AllowanceId::FourthOrderFeet, "fourth_order_feet", 0.100),
        per_km(AllowanceId::ArmyClassII, "army_class_2", 8.4, kArmy, kSeen),
        per_km(AllowanceId::BuildingFine, "building_fine", 10.0, kBuilding, kSeen),
        per_km(AllowanceId::BuildingPlain, "building_plain", 15.0, kBuilding, kSeen),
    }};
}

const std::array<Allowance, 16>& table() {
    static const std::array<Allowance, 16> allowances = make_allowances();
    return allowances;
}

const std::array<Allowance, 5>& section_table() {
    static const std::array<Allowance, 5> allowances{{
        per_km(AllowanceId::SectionFirstOrderI, "section_first_order_1", 3.0, kFgcs, kMemory),
        per_km(AllowanceId::SectionFirstOrderII, "section_first_order_2", 4.0, kFgcs, kMemory),
        per_km(AllowanceId::SectionSecondOrderI, "section_second_order_1", 6.0, kFgcs, kMemory),
        per_km(AllowanceId::SectionSecondOrderII, "section_second_order_2", 8.0, kFgcs, kMemory),
        per_km(AllowanceId::SectionThirdOrder, "section_third_order", 12.0, kFgcs, kMemory),
    }};
    return allowances;
}

Expected<void> check_closed(const ReducedBook& book) {
    if (book.rows.empty())
        return refusal("levels.book_empty");
    if (book.open)
        return refusal("levels.book_not_closed", book.rows.back().point);
    return {};
}

/// Length of the line one way, from one or both books.
std::optional<double> one_way_km(const ReducedBook& forward, const ReducedBook& back) {
    const std::optional<double> there = forward.length_m();
    const std::optional<double> home = back.length_m();
    if (there && home)
        return (*there + *home) / 2.0 / kMetresPerKilometre;
    if (there || home)
        return (there ? *there : *home) / kMetresPerKilometre;
    return {};
}

/// Set-ups or metres from the start to the end of each set-up.
std::vector<double> along_line(const ReducedBook& book, DistributeBy by) {
    if (by == DistributeBy::Distance)
        return book.length_to_setup_end_m;
    std::vector<double> along(book.setups);
    for (std::size_t i = 0; i < along.size(); ++i)
        along[i] = static_cast<double>(i + 1);
    return along;
}

} // namespace

std::span<const Allowance> allowances() {
    return table();
}

std::span<const Allowance> section_allowances() {
    return section_table();
}

const Allowance& allowance(AllowanceId id) {
    for (const std::span<const Allowance> rules : {allowances(), section_allowances()})
        if (const auto found = std::ranges::find(rules, id, &Allowance::id); found != rules.end())
            return *found;
    return table().front();
}

const Allowance* find_allowance(std::string_view code) {
    const auto found = std::ranges::find(table(), code, &Allowance::code);
    return found != table().end() ? &*found : nullptr;
}

Expected<double> allowed_misclosure_m(const Allowance& rule, std::size_t setups, std::optional<double> length_km) {
    double count = 0.0;
    if (rule.form == AllowanceForm::PerRootSetup) {
        if (setups == 0)
            return refusal("levels.book_empty");
        count = static_cast<double>(setups);
    } else {
        if (!length_km || !std::isfinite(*length_km) || *length_km <= 0.0)
            return refusal("levels.no_length");
        count = *length_km;
    }
    const double allowed_m = rule.factor_m * std::sqrt(count);
    return rule.cap_m ? std::min(allowed_m, *rule.cap_m) : allowed_m;
}

Expected<Closure> closure(const ReducedBook& book, double known_end_level_m, AllowanceId rule,
                          std::optional<double> length_km) {
    if (!std::isfinite(known_end_level_m))
        return refusal("levels.known_level_impossible");
    if (const Expected<void> closed = check_closed(book); !closed)
        return closed.error();
    if (!length_km && book.length_m())
        length_km = *book.length_m() / kMetresPerKilometre;
    const Expected<double> allowed_m = allowed_misclosure_m(allowance(rule), book.setups, length_km);
    if (!allowed_m)
        return allowed_m.error();
    const double misclosure_m = book.rows.back().reduced_level_m - known_end_level_m;
    // A misclosure equal to the allowance is within it, whatever the last bits say.
    const bool within = std::abs(misclosure_m) <= *allowed_m + kReductionError_m;
    return Closure{misclosure_m, *allowed_m, within, rule};
}

Expected<DoubleRun> double_run(const ReducedBook& forward, const ReducedBook& back, AllowanceId rule,
                               std::optional<double> length_km) {
    for (const ReducedBook* book : {&forward, &back})
        if (const Expected<void> closed = check_closed(*book); !closed)
            return closed.error();
    const std::string& start = forward.rows.front().point;
    const std::string& end = forward.rows.back().point;
    if (back.rows.front().point != end || back.rows.back().point != start)
        return refusal("levels.runs_do_not_meet", back.rows.front().point,
                       {{"back_end", back.rows.back().point}, {"start", start}, {"end", end}});
    if (!length_km)
        length_km = one_way_km(forward, back);
    const bool section = std::ranges::find(section_allowances(), rule, &Allowance::id) != section_allowances().end();
    if (length_km && !section)
        length_km = 2.0 * *length_km;
    const Expected<double> allowed_m =
        allowed_misclosure_m(allowance(rule), forward.setups + back.setups, length_km);
    if (!allowed_m)
        return allowed_m.error();
    DoubleRun run;
    run.rise_m = (forward.last_minus_first_m - back.last_minus_first_m) / 2.0;
    run.difference_m = forward.last_minus_first_m + back.last_minus_first_m;
    run.allowed_m = *allowed_m;
    run.within = std::abs(run.difference_m) <= *allowed_m + kReductionError_m;
    run.rule = rule;
    if (!run.within)
        run.findings.push_back(warning("levels.double_run_differs", end,
                                       {{"difference", run.difference_m, Quantity::Length},
                                        {"allowed", run.allowed_m, Quantity::Length}}));
    return run;
}

std::vector<double> corrections_m(double misclosure_m, std::span<const double> along) {
    std::vector<double> corrections(along.size(), 0.0);
    if (along.empty() || !(along.back() > 0.0))
        return corrections;
    for (std::size_t i = 0; i < along.size(); ++i)
        corrections[i] = -misclosure_m * along[i] / along.back();
    return corrections;
}

Expected<ReducedBook> distribute(ReducedBook book, const Closure& closure, DistributeBy by, AboveAllowance above) {
    if (const Expected<void> closed = check_closed(book); !closed)
        return closed.error();
    if (by == DistributeBy::Distance && book.length_to_setup_end_m.empty())
        return refusal("levels.no_length");
    if (!closure.within) {
        const std::vector<Arg> args{{"misclosure", closure.misclosure_m, Quantity::Length},
                                    {"allowed", closure.allowed_m, Quantity::Length}};
        if (above == AboveAllowance::Refuse)
            return refusal("levels.misclosure_too_large", book.rows.back().point, args);
        book.findings.push_back(warning("levels.misclosure_too_large", book.rows.back().point, args));
    }
    const std::vector<double> corrections = corrections_m(closure.misclosure_m, along_line(book, by));
    for (std::size_t i = 0; i < book.rows.size(); ++i) {
        BookRow& row = book.rows[i];
        row.adjusted_level_m = row.reduced_level_m + (i == 0 ? 0.0 : corrections[row.setup - 1]);
    }
    return book;
}

} // namespace rillmark
