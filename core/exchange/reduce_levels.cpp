// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/level_parameters.h"
#include "exchange/reduce_methods.h"
#include "exchange/row_places.h"
#include "levelling/closure.h"
#include "levelling/height_network.h"
#include "levelling/level_book.h"
#include "levelling/sight_correction.h"
#include "levelling/sight_observations.h"
#include "levelling/three_wire.h"

#include <cmath>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"point", {}, true, false, "exchange.levels.point"},
    {"backsight", Quantity::Length, false, false, "exchange.levels.backsight"},
    {"intermediate", Quantity::Length, false, false, "exchange.levels.intermediate"},
    {"foresight", Quantity::Length, false, false, "exchange.levels.foresight"},
    {"distance", Quantity::Length, false, false, "exchange.levels.distance"},
    {"backsight_distance", Quantity::Length, false, false, "exchange.levels.backsight_distance"},
    {"known_height", Quantity::Length, false, false, "exchange.levels.known_height"},
    {"upper", Quantity::Length, false, false, "exchange.levels.upper"},
    {"lower", Quantity::Length, false, false, "exchange.levels.lower"},
    {"backsight_upper", Quantity::Length, false, false, "exchange.levels.backsight_upper"},
    {"backsight_lower", Quantity::Length, false, false, "exchange.levels.backsight_lower"},
};
constexpr ReduceField kParameters[] = {
    {"start_level", Quantity::Length, false, false, "exchange.levels.start_level"},
    {"allowance", {}, false, false, "exchange.levels.allowance", "site_rule"},
    {"length", Quantity::Length, false, false, "exchange.levels.length"},
    {"stadia_factor", Quantity::Number, false, false, "exchange.levels.stadia_factor", "100"},
    {"stadia_constant", Quantity::Length, false, false, "exchange.levels.stadia_constant", "0"},
    {"last_digit", Quantity::Length, false, false, "exchange.levels.last_digit", "0.001"},
    kCollimationParameter,
    kCollimationUncertaintyParameter,
    kCurvatureParameter,
};
constexpr double kMetresPerKilometre = 1000.0;
constexpr const char* kBook = "book";

/// The sights in the order of the page, and what each came from.
struct Page {
    std::vector<Sight> sights;
    std::vector<std::size_t> row;      // of the file, for each sight
    std::vector<const char*> column; // of its reading
    Findings findings;               // of the wires
};

/// The columns of a sight beside its reading.
struct SightColumns {
    const char* distance;
    const char* upper;
    const char* lower;
};
constexpr SightColumns kOfRow{"distance", "upper", "lower"};
constexpr SightColumns kOfChangePoint{"backsight_distance", "backsight_upper", "backsight_lower"};

/// Puts the mean of the wires in the place of the middle one, and the distance that they give where none is typed.
Expected<void> take_wires(const ReduceTable& table, std::size_t row, const char* column, const SightColumns& columns,
                          Sight& sight, Page& page) {
    const std::optional<double> upper_m = table.number(row, columns.upper);
    const std::optional<double> lower_m = table.number(row, columns.lower);
    if (!upper_m && !lower_m)
        return {};
    if (!upper_m || !lower_m)
        return table.at(refusal("exchange.wire_missing"), row, upper_m ? columns.lower : columns.upper);
    const auto placed = [&](const Finding& finding) {
        const char* cell = finding.where == "levels.wire_upper"   ? columns.upper
                           : finding.where == "levels.wire_lower" ? columns.lower
                                                                  : column;
        return table.at(finding, row, cell);
    };
    const Expected<ThreeWire> wires =
        three_wire({*upper_m, sight.reading_m, *lower_m, *table.parameter("last_digit")},
                   {*table.parameter("stadia_factor"), *table.parameter("stadia_constant")});
    if (!wires)
        return wires.error().code == "levels.stadia_impossible" ? wires.error() : placed(wires.error());
    for (const Finding& finding : wires->findings)
        page.findings.push_back(placed(finding));
    sight.reading_m = wires->mean_m;
    if (!sight.distance_m)
        sight.distance_m = wires->distance_m;
    return {};
}

Expected<void> add_sight(const ReduceTable& table, std::size_t row, SightKind kind, const char* column, Page& page) {
    const std::optional<double> reading = table.number(row, column);
    if (!reading)
        return {};
    const bool change_point = kind == SightKind::Backsight && table.number(row, "foresight");
    const SightColumns& columns = change_point ? kOfChangePoint : kOfRow;
    Sight sight;
    sight.id = static_cast<std::int64_t>(page.sights.size()) + 1;
    sight.kind = kind;
    sight.point = table.text(row, "point");
    sight.reading_m = *reading;
    sight.distance_m = table.number(row, columns.distance);
    if (const Expected<void> taken = take_wires(table, row, column, columns, sight, page); !taken)
        return taken;
    page.sights.push_back(std::move(sight));
    page.row.push_back(row);
    page.column.push_back(column);
    return {};
}

Expected<Page> page_of(const ReduceTable& table) {
    Page page;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const std::size_t before = page.sights.size();
        for (const auto& [kind, column] : {std::pair{SightKind::Foresight, "foresight"},
                                           {SightKind::Intermediate, "intermediate"},
                                           {SightKind::Backsight, "backsight"}})
            if (const Expected<void> added = add_sight(table, row, kind, column, page); !added)
                return added.error();
        if (page.sights.size() == before)
            return table.at(refusal("exchange.no_reading"), row);
        const bool inside = row > 0 && row + 1 < table.size();
        if (inside && table.number(row, "known_height"))
            return table.at(refusal("exchange.known_height_inside"), row, "known_height");
    }
    return page;
}

/// A refusal of the book, which counts sights, with the cell of that sight.
Finding at_sight(const ReduceTable& table, const Page& page, Finding finding) {
    for (Arg& arg : finding.args) {
        const auto* const sight = std::get_if<std::int64_t>(&arg.value);
        if (arg.name != "row" || sight == nullptr)
            continue;
        const auto index = static_cast<std::size_t>(*sight) - 1;
        const std::size_t row = page.row[index];
        const std::string_view column = finding.code == "levels.distance_impossible" || finding.code == "levels.sight_length_impossible"
                                            ? "distance" : page.column[index];
        arg.value = table.line(row);
        return table.at(std::move(finding), row, column);
    }
    return finding;
}

/// What the line closes on.
std::optional<double> known_end_m(const ReduceTable& table, const ReducedBook& book) {
    if (const std::optional<double> known = table.number(table.size() - 1, "known_height"); known && table.size() > 1)
        return known;
    if (!book.open && book.rows.size() > 1 && book.rows.front().point == book.rows.back().point)
        return book.rows.front().reduced_level_m;
    return {};
}

Expected<std::optional<Closure>> closure_of(const ReduceTable& table, const ReducedBook& book) {
    const Allowance* rule = find_allowance(table.text_parameter("allowance"));
    if (rule == nullptr) {
        std::string accepted;
        for (const Allowance& one : allowances())
            accepted += (accepted.empty() ? "" : ", ") + std::string(one.code);
        return refusal("exchange.allowance_unknown", {},
                       {{"cell", table.text_parameter("allowance")}, {"accepted", accepted}, {"parameter", "allowance"}});
    }
    const std::optional<double> known = known_end_m(table, book);
    if (!known)
        return std::optional<Closure>{};
    std::optional<double> length_km = table.parameter("length");
    if (length_km)
        length_km = *length_km / kMetresPerKilometre;
    const Expected<Closure> closed = closure(book, *known, rule->id, length_km);
    if (!closed)
        return closed.error();
    return std::optional(*closed);
}

ResultTable level_table(const ReducedBook& book, const AdjustedNetwork& network) {
    ResultTable table{"exchange.table.levels",
                      {{"exchange.result.point", {}},
                       {"exchange.result.reduced_level", Quantity::Length},
                       {"exchange.result.height", Quantity::Length}},
                      {}};
    for (const BookRow& row : book.rows) {
        const std::optional<Estimate> height = network.height(row.point);
        table.rows.push_back({row.point, Estimate{row.reduced_level_m, 0.0},
                              height ? ResultTable::Cell(*height) : ResultTable::Cell()});
    }
    return table;
}

/// Standard uncertainty of last level - first level: every backsight and foresight between them, and what they share.
double rise_uncertainty_m(const std::vector<Sight>& sights, const std::vector<HeightDifference>& observed) {
    double variance = 0.0;
    double shared_m = 0.0;
    for (std::size_t i = 0; i < sights.size(); ++i) {
        const bool last = i + 1 == sights.size();
        const SightKind aside = last ? SightKind::Backsight : SightKind::Intermediate; // not part of the way
        if (sights[i].kind == aside)
            continue;
        variance += observed[i].standard_uncertainty_m * observed[i].standard_uncertainty_m;
        for (const SharedEffect& effect : observed[i].shared)
            shared_m += effect.effect_m;
    }
    return std::sqrt(variance + shared_m * shared_m);
}

void add_results(const ReducedBook& book, double u, const std::optional<Closure>& closed,
                 Reduction& reduction) {
    const auto add = [&](const char* code, const Estimate& value, Quantity quantity = Quantity::Length) {
        reduction.results.push_back({code, {}, value, quantity});
    };
    add("exchange.result.rise", {book.last_minus_first_m, u});
    add("exchange.result.fall", {-book.last_minus_first_m, u});
    add("exchange.result.setups", {static_cast<double>(book.setups), 0.0}, Quantity::Number);
    if (book.length_m())
        add("exchange.result.length", {*book.length_m(), 0.0});
    if (!closed)
        return;
    add("exchange.result.misclosure", {closed->misclosure_m, u});
    add("exchange.result.misclosure_allowed", {closed->allowed_m, 0.0});
}

/// The page with its readings corrected as the parameters ask.
Expected<CorrectedSights> corrected(const ReduceTable& table, const Page& page) {
    const Expected<bool> curvature = yes_no_parameter(table, "curvature");
    if (!curvature)
        return curvature.error();
    SightCorrections corrections;
    corrections.collimation = collimation_parameter(table);
    corrections.curvature = *curvature;
    const Expected<CorrectedSights> sights = correct_sights(page.sights, corrections);
    if (!sights)
        return at_sight(table, page, sights.error());
    return sights;
}

Expected<std::vector<HeightDifference>> observed_of(const ReduceTable& table, const std::vector<Sight>& sights) {
    const std::optional<Estimate> collimation = collimation_parameter(table);
    SightPrecision precision;
    if (collimation)
        precision.per_metre = 0.0; // that of a level which nobody tested
    Expected<std::vector<HeightDifference>> observed = observations_of(sights, kBook, precision);
    if (observed && collimation)
        share_collimation(sights, *collimation, kBook, *observed);
    return observed;
}

Expected<Reduction> reduce_levels(const ReduceTable& table) {
    const Expected<Page> page = page_of(table);
    if (!page)
        return page.error();
    const Expected<CorrectedSights> sights = corrected(table, *page);
    if (!sights)
        return sights.error();
    const double start_m =
        table.parameter("start_level").value_or(table.number(0, "known_height").value_or(0.0));
    const Expected<ReducedBook> book = reduce(sights->sights, start_m);
    if (!book)
        return at_sight(table, *page, book.error());
    const Expected<std::optional<Closure>> closed = closure_of(table, *book);
    if (!closed)
        return closed.error();
    const Expected<std::vector<HeightDifference>> observed = observed_of(table, sights->sights);
    if (!observed)
        return at_sight(table, *page, observed.error());

    const std::string& first = book->rows.front().point;
    const std::string& last = book->rows.back().point;
    std::vector<KnownHeight> known{{first, {start_m, 0.0}, true}};
    if (*closed && (*closed)->within && first != last)
        known.push_back({last, {*known_end_m(table, *book), 0.0}, true});
    const Expected<AdjustedNetwork> adjusted = adjust(*observed, known);
    if (!adjusted)
        return adjusted.error();

    Reduction reduction;
    add_results(*book, rise_uncertainty_m(sights->sights, *observed), *closed, reduction);
    if (sights->collimation_cost)
        reduction.results.push_back({"exchange.result.collimation_cost", {}, *sights->collimation_cost, Quantity::Length});
    reduction.tables.push_back(level_table(*book, *adjusted));
    for (const Finding& finding : page->findings)
        reduction.findings.push_back(finding);
    for (const Finding& finding : sights->findings)
        reduction.findings.push_back(finding);
    for (const Finding& finding : book->findings)
        reduction.findings.push_back(at_sight(table, *page, finding));
    if (*closed && !(*closed)->within)
        reduction.findings.push_back(warning("levels.misclosure_too_large", last,
                                             {{"misclosure", (*closed)->misclosure_m, Quantity::Length},
                                              {"allowed", (*closed)->allowed_m, Quantity::Length}}));
    for (const Finding& finding : adjusted->findings())
        reduction.findings.push_back(finding);
    return reduction;
}

} // namespace

const ReduceMethod& levels_method() {
    static constexpr ReduceMethod method{"levels", "exchange.method.levels", kColumns, kParameters, reduce_levels};
    return method;
}

} // namespace rillmark
